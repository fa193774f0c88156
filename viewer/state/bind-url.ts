/** Keeps a page's address and a store the same. Only a page of our own binds it: an element that is embedded leaves its host's alone. */
import { type Selection, shownIn, type ViewerState } from './state.js';
import type { Store } from './store.js';
import { type Addressed, fromFragment, toFragment } from './url.js';

/** What of a window is needed. */
export interface Page {
  readonly location: { readonly hash: string; readonly pathname: string; readonly search: string };
  readonly history: {
    pushState(data: unknown, unused: string, url: string): void;
    replaceState(data: unknown, unused: string, url: string): void;
  };
  addEventListener(type: 'hashchange', listener: () => void): void;
  removeEventListener(type: 'hashchange', listener: () => void): void;
}

/** ms between writings: browsers refuse more than a few each second. */
const WRITE_EVERY = 250;
/** ms: whoever walks on faster than this wants one step back for the whole walk. */
const ONE_WALK = 1000;

/** @returns how to end it */
export function bindUrl(store: Store, page: Page): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let written: Selection | undefined;
  let pushed = -Infinity;

  const read = (fragment: string): void => {
    const open = shownIn(store.state);
    if (!open) return;
    const asked = fromFragment(fragment, open);
    written = asked.selection;
    store.change(asked);
  };
  /** Whatever is selected when a report opens is where one starts: there is nothing before it to go back to. */
  const start = (fragment: string): void => {
    read(fragment);
    written = undefined;
  };
  const write = (): void => {
    timer = undefined;
    const { state } = store;
    const open = shownIn(state);
    if (!open) return;
    const fragment = toFragment(state, open);
    if (`#${fragment}` === (page.location.hash || '#')) return;
    // Selections are what one goes back to.
    const now = Date.now();
    const isStep = written !== undefined && !isSame(written, state.selection) && now - pushed > ONE_WALK;
    if (isStep) pushed = now;
    written = state.selection;
    const url = fragment === '' ? `${page.location.pathname}${page.location.search}` : `#${fragment}`;
    if (isStep) page.history.pushState(null, '', url);
    else page.history.replaceState(null, '', url);
  };
  const settle = (): void => {
    if (timer !== undefined) clearTimeout(timer);
    timer = undefined;
  };
  const stop = store.listen((state, before) => {
    if (state.reviewed && state.reviewed !== before.reviewed) {
      settle();
      // Of the next report the same is shown, by what has the same names in it.
      const last = before.reviewed;
      start(last ? toFragment(before, last) : page.location.hash);
    } else if (isAddressed(state, before)) timer ??= setTimeout(write, WRITE_EVERY);
  });
  const turned = (): void => {
    settle();
    read(page.location.hash);
  };
  page.addEventListener('hashchange', turned);
  start(page.location.hash);
  return () => {
    settle();
    stop();
    page.removeEventListener('hashchange', turned);
  };
}

const ADDRESSED = ['filter', 'selection', 'sort', 'faces', 'view', 'proposed'] as const satisfies (keyof Addressed)[];
const isAddressed = (state: ViewerState, before: ViewerState): boolean =>
  ADDRESSED.some((name) => state[name] !== before[name]);

const isSame = (a: Selection, b: Selection): boolean =>
  a.barrier === b.barrier && a.penetration === b.penetration && a.finding === b.finding;
