/** Keys pressed within the viewer, or in a page that is nothing but the viewer. */
import type { LitElement } from 'lit';
import { type Holder, keyOf, type Places } from './state/keys.js';
import type { Store } from './state/store.js';

type Viewer = LitElement & { readonly store: Store };

/** What a region sends that leads to the sheet as Enter does. */
export const TO_SHEET = 'rr-to-sheet';

/**
 * @param from the viewer itself where it is embedded, so that keys elsewhere in the page stay the page's; else the document
 * @returns how to end it
 */
export function bindKeys(viewer: Viewer, from: EventTarget = viewer): () => void {
  const places = placesIn(viewer);
  const pressed = (event: Event): void => {
    if (!(event instanceof KeyboardEvent) || viewer.store.state.phase.kind !== 'ready') return;
    const found = keyOf(event, event.composedPath().filter(isElement).map(holderOf));
    if (!found) return;
    event.preventDefault();
    found.key.run(viewer.store, places, found.which);
  };
  const asked = (event: Event): void => {
    event.stopPropagation();
    places.toSheet();
  };
  from.addEventListener('keydown', pressed);
  from.addEventListener(TO_SHEET, asked);
  return () => {
    from.removeEventListener('keydown', pressed);
    from.removeEventListener(TO_SHEET, asked);
  };
}

const isElement = (target: EventTarget): target is Element => target instanceof Element;

const holderOf = (element: Element): Holder => ({
  tagName: element.tagName,
  role: element.getAttribute('role'),
  isContentEditable: element instanceof HTMLElement && element.isContentEditable,
  isOpen: element.matches('dialog[open], :popover-open'),
});

function placesIn(viewer: Viewer): Places {
  const region = <E extends HTMLElement>(name: string): E | null => viewer.renderRoot.querySelector<E>(name);
  const sheet = (): HTMLElement | null => region('rr-finding-sheet');
  return {
    toSheet: async () => {
      viewer.store.change({ faces: 'drawings' });
      await viewer.updateComplete;
      const element = sheet();
      if (!element) return;
      element.tabIndex = -1;
      element.focus();
    },
    leaveSheet: () => {
      if (!sheet()?.matches(':focus-within')) return false;
      // Where keys walk through the building again.
      viewer.tabIndex = -1;
      viewer.focus();
      return true;
    },
    toSearch: async () => {
      viewer.store.change({ faces: 'table' });
      await viewer.updateComplete;
      await region<LitElement & { search(): void }>('rr-findings-table')?.updateComplete;
      region<HTMLElement & { search(): void }>('rr-findings-table')?.search();
    },
    toKeys: () => region<HTMLElement & { showKeys(): void }>('rr-status-line')?.showKeys(),
  };
}
