/** Head of the main region: its name, and the two words that say how it shows the barriers. Drawings and table have the same. */
import { css, html, type TemplateResult } from 'lit';
import { ref } from 'lit/directives/ref.js';
import type { ViewerState } from '../state/state.js';
import type { Store } from '../state/store.js';
import { WORDS } from '../words.js';

const TABS = ['drawings', 'table'] as const satisfies readonly ViewerState['faces'][];
const NAMES: { readonly [T in (typeof TABS)[number]]: string } = {
  drawings: WORDS.faces.asDrawings,
  table: WORDS.faces.asTable,
};

/** The region is another element after the change, and its tab takes the focus that the old one had. */
let takesFocus = false;

export function facesHead(store: Store): TemplateResult {
  const { faces } = store.state;
  const choose = (tab: ViewerState['faces']): void => {
    if (tab === faces) return;
    takesFocus = true;
    store.change({ faces: tab });
  };
  const moved = (event: KeyboardEvent): void => {
    if (event.key !== 'ArrowLeft' && event.key !== 'ArrowRight') return;
    event.preventDefault();
    event.stopPropagation();
    choose(faces === 'drawings' ? 'table' : 'drawings');
  };
  const focused = (tab: Element | undefined): void => {
    if (!takesFocus || !tab) return;
    takesFocus = false;
    queueMicrotask(() => (tab as HTMLElement).focus());
  };
  return html`<div class="faces-head">
    <h2>${WORDS.regions.faces}</h2>
    <div role="tablist" aria-label=${WORDS.drawn.shownAs} @keydown=${moved}>
      ${TABS.map(
        (tab) =>
          html`<button
            type="button"
            role="tab"
            aria-selected=${tab === faces}
            tabindex=${tab === faces ? 0 : -1}
            @click=${() => choose(tab)}
            ${tab === faces ? ref(focused) : ref(undefined)}
          >
            ${NAMES[tab]}
          </button>`,
      )}
    </div>
  </div>`;
}

export const facesHeadStyle = css`
  .faces-head {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: space-between;
    gap: 0 16px;
    padding: 8px 12px 4px;
  }
  .faces-head [role='tablist'] {
    display: flex;
    gap: 16px;
  }
`;
