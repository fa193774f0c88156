/** The words round the canvas: where to stand, what is shown, what is near. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Vec3 } from '../../src/model.js';
import { MODEL_VIEWS, shownIn } from '../state/state.js';
import type { Store } from '../state/store.js';
import { WORDS } from '../words.js';
import { elementWords } from './caption.js';
import { storeyShown } from './look.js';
import { cornerPairs, type Measuring } from './measuring.js';
import type { Picture } from './picture.js';

const M = WORDS.model;

export const viewWords = (
  store: Store,
): TemplateResult => html`<div class="words" role="group" aria-label=${M.viewsFor}>
  ${MODEL_VIEWS.map(
    (view) => html`<button aria-pressed=${store.state.view === view} @click=${() => store.change({ view })}>
      ${WORDS.views[view]}
    </button>`,
  )}
</div>`;

export interface ToolsOf {
  readonly store: Store;
  readonly picture: Picture;
  readonly measuring: Measuring;
  readonly isHereOpen: boolean;
  readonly toggleHere: () => void;
  /** After the measuring was started, ended or chosen from the list. */
  readonly measured: () => void;
}

export function modelTools({ store, picture, measuring, isHereOpen, toggleHere, measured }: ToolsOf): TemplateResult {
  const { state } = store;
  const hasChange = picture.change !== undefined;
  const storey = storeyShown(state);
  const whyNot = state.selection.penetration === null ? M.noSelection : M.nothingProposed;
  const proposes = (proposed: boolean, word: string): TemplateResult => html`<button
    aria-pressed=${hasChange && state.proposed === proposed}
    ?disabled=${!hasChange}
    title=${hasChange ? nothing : whyNot}
    @click=${() => store.change({ proposed })}
  >
    ${word}
  </button>`;
  return html`<div class="words small" role="group" aria-label=${M.toolsFor}>
    ${proposes(false, M.asModelled)} ${proposes(true, M.asProposed)}
    ${hasChange ? nothing : html`<span class="secondary">${whyNot}</span>`}
    <button
      class="apart"
      aria-pressed=${state.protection}
      @click=${() => store.change({ protection: !state.protection })}
    >
      ${M.protection}
    </button>
    <button
      aria-pressed=${state.onlyStorey}
      ?disabled=${storey === null}
      title=${storey === null ? M.noStorey : nothing}
      @click=${() => store.change({ onlyStorey: !state.onlyStorey })}
    >
      ${M.onlyStorey}
    </button>
    <button
      aria-pressed=${measuring.isOn}
      @click=${() => {
        if (measuring.isOn) measuring.end();
        else measuring.start();
        measured();
      }}
    >
      ${M.measure}
    </button>
    ${measuring.isOn ? cornerList(picture, measuring, measured) : nothing}
    <button aria-expanded=${isHereOpen} @click=${toggleHere}>${M.here}</button>
  </div>`;
}

/** What can be measured without a mouse. */
function cornerList(
  { viewpoint }: Picture,
  measuring: Measuring,
  measured: () => void,
): TemplateResult | typeof nothing {
  const place = viewpoint?.place;
  const pairs: readonly (readonly [Vec3, Vec3])[] = place ? cornerPairs(place, viewpoint.side) : [];
  if (pairs.length === 0) return nothing;
  const choose = (event: Event): void => {
    const pair = pairs[Number((event.target as HTMLSelectElement).value)];
    if (pair) measuring.between(pair);
    measured();
  };
  return html`<select aria-label=${M.betweenCornersFor} @change=${choose}>
    <option value="">${M.betweenCorners}</option>
    ${pairs.map((_, i) => html`<option value=${i}>${M.corner(i)}</option>`)}
  </select>`;
}

/** Elements near the penetration that is selected. */
const LISTED = 30;

export function hereList(store: Store, { viewpoint, elements }: Picture): TemplateResult {
  const open = shownIn(store.state);
  const near = viewpoint?.near.slice(0, LISTED) ?? [];
  return html`<section class="here small" aria-label=${M.here}>
    ${
      open && elements && near.length > 0
        ? html`<ul>
            ${near.map((id) => {
              const { extras } = elements.nodes[id]!;
              const { model, globalId } = extras;
              const select = (): void => store.select({ ...store.state.selection, element: { model, globalId } });
              return html`<li><button @click=${select}>${elementWords(extras, open.report)}</button></li>`;
            })}
          </ul>`
        : html`<p>${M.noSelection}</p>`
    }
  </section>`;
}
