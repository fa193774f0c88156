/** What keys do, in one table: the handler and the list that people read both come from it. */
import { WORDS } from '../words.js';
import { MODEL_VIEWS, NOTHING_SELECTED } from './state.js';
import type { Store } from './store.js';
import { stepAlong, stepBarrier, stepStorey } from './walk.js';

/** What is no matter of the state: where the keyboard is. */
export interface Places {
  toSheet(): void;
  toSearch(): void;
  toKeys(): void;
  /** Out of the sheet; false: it was not in there. */
  leaveSheet(): boolean;
}

export interface Key {
  /** Values of `KeyboardEvent.key`. */
  readonly keys: readonly string[];
  /** As they are printed on keyboards. */
  readonly shown: readonly string[];
  readonly does: string;
  /** The last is the key's own number among `keys`. */
  readonly run: (store: Store, places: Places, which: number) => void;
}

const letter = (key: string): readonly string[] => [key.toLowerCase(), key.toUpperCase()];

export const KEYS: readonly Key[] = [
  {
    ...{ keys: ['ArrowLeft', 'ArrowRight'], shown: ['\u2190', '\u2192'], does: WORDS.keys.along },
    run: (store, _, which) => stepAlong(store, which === 0 ? -1 : 1),
  },
  {
    ...{ keys: ['ArrowUp', 'ArrowDown'], shown: ['\u2191', '\u2193'], does: WORDS.keys.barrier },
    run: (store, _, which) => stepBarrier(store, which === 0 ? -1 : 1),
  },
  {
    ...{ keys: ['PageUp', 'PageDown'], shown: ['Page up', 'Page down'], does: WORDS.keys.storey },
    run: (store, _, which) => stepStorey(store, which === 0 ? -1 : 1),
  },
  { keys: ['Enter'], shown: ['Enter'], does: WORDS.keys.sheet, run: (_, places) => places.toSheet() },
  {
    keys: ['Escape'],
    shown: ['Esc'],
    does: WORDS.keys.back,
    run: (store, places) => places.leaveSheet() || leave(store),
  },
  {
    ...{ keys: letter('t'), shown: ['T'], does: WORDS.keys.table },
    run: (store) => store.change({ faces: store.state.faces === 'table' ? 'drawings' : 'table' }),
  },
  { keys: ['/'], shown: ['/'], does: WORDS.keys.search, run: (_, places) => places.toSearch() },
  {
    ...{ keys: MODEL_VIEWS.map((_, i) => String(i + 1)), shown: ['1', String(MODEL_VIEWS.length)] },
    does: WORDS.keys.views(MODEL_VIEWS.map((view) => WORDS.views[view])),
    run: (store, _, which) => store.change({ view: MODEL_VIEWS[which]! }),
  },
  { keys: letter('o'), shown: ['O'], does: WORDS.keys.side, run: (store) => store.turn() },
  { keys: ['?'], shown: ['?'], does: WORDS.keys.help, run: (_, places) => places.toKeys() },
];

/** From what is picked to its place, from there to the barrier, from there to nothing. */
function leave(store: Store): void {
  const { selection } = store.state;
  if (selection.element) store.select({ ...selection, element: null });
  else if (selection.penetration !== null) store.select({ ...selection, penetration: null, finding: null });
  else store.select(NOTHING_SELECTED);
}

/** What of a KeyboardEvent is needed. */
export interface Press {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly isComposing: boolean;
  readonly defaultPrevented: boolean;
}

/** Something on the way from where the keyboard is to the page. */
export interface Holder {
  /** Upper case, as the page has it. */
  readonly tagName: string;
  readonly role: string | null;
  readonly isContentEditable: boolean;
  readonly isOpen: boolean;
}

const FIELDS = new Set(['INPUT', 'TEXTAREA', 'SELECT']);
/** Roles of what is walked through by keys of its own. */
const OWN_KEYS = new Set([
  'grid',
  'listbox',
  'menu',
  'radiogroup',
  'slider',
  'tablist',
  'tree',
  'textbox',
  'application',
]);
const WALKING = new Set(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'PageUp', 'PageDown']);
/** Enter is theirs; what else takes it has said so before it comes here. */
const PRESSED = new Set(['BUTTON', 'A', 'SUMMARY']);

/** The key that is meant, with its number among its `keys`; undefined where somebody else's, or nobody's. */
export function keyOf(press: Press, way: readonly Holder[]): { readonly key: Key; readonly which: number } | undefined {
  if (press.defaultPrevented || press.isComposing || press.ctrlKey || press.metaKey || press.altKey) return undefined;
  if (way.some(({ tagName, isContentEditable, isOpen }) => FIELDS.has(tagName) || isContentEditable || isOpen))
    return undefined;
  const owned = way.some(({ role }) => role !== null && OWN_KEYS.has(role));
  if (owned && WALKING.has(press.key)) return undefined;
  if (press.key === 'Enter' && way.some(({ tagName }) => PRESSED.has(tagName))) return undefined;
  const key = KEYS.find(({ keys }) => keys.includes(press.key));
  return key && { key, which: key.keys.indexOf(press.key) };
}
