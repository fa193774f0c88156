/** What stands over a barrier: its name, what it is, how one stands before it, what was found, the scale. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import { negate } from '../../src/geometry/vector.js';
import { compass } from '../../src/words/compass.js';
import { oneLine } from '../../src/words/text.js';
import { valueWords } from '../../src/words/values.js';
import { level, quantity } from '../format.js';
import type { BuildingBarrier, BuildingStorey } from '../state/building.js';
import { ratingWords } from '../state/rows.js';
import type { Side } from '../state/state.js';
import { WORDS } from '../words.js';
import type { FacePlan } from './plan.js';
import { unitOf } from './scales.js';

export interface HeadDrawing {
  readonly barrier: BuildingBarrier;
  readonly plan: FacePlan;
  readonly side: Side;
  readonly isSelected: boolean;
  readonly turn: () => void;
  /** Back from a larger scale; null: it is drawn at its own. */
  readonly whole: { readonly scale: number; readonly show: () => void } | null;
}

export const storeyHead = ({ name, elevation }: BuildingStorey): TemplateResult =>
  html`<div class="storey">
    <h3>${oneLine(name) || WORDS.section.noStorey}</h3>
    ${elevation === null ? nothing : html`<span>${level(elevation)}</span>`}
  </div>`;

export function barrierHead({ barrier, plan, side, isSelected, turn, whole }: HeadDrawing): TemplateResult {
  const { kind, name, outcomes } = barrier;
  const { construction, rating } = barrier.barrier;
  const facts = [
    construction === 'unknown' ? kind : `${kind}, ${valueWords(construction)}`,
    ratingWords(rating) || WORDS.drawn.noRating,
    ...(plan.flat.hasOutline ? [] : [WORDS.drawn.noOutline]),
  ];
  return html`<div class=${isSelected ? 'head selected' : 'head'}>
    <div>
      <h3>${oneLine(name) || barrier.barrier.globalId}</h3>
      <button type="button" aria-label=${WORDS.drawn.turn(oneLine(name))} aria-pressed=${side === 'B'} @click=${turn}>
        ${WORDS.faces.otherSide}
      </button>
    </div>
    <p class="small">${facts.join(' · ')} · ${facing(barrier, side)}</p>
    <div class="small">
      <p>${WORDS.counts(outcomes)}</p>
      ${
        whole
          ? html`<button type="button" class="small" @click=${whole.show}>${WORDS.drawn.wholeAgain(whole.scale)}</button>`
          : nothing
      }
      ${scaleBar(plan.scale)}
    </div>
  </div>`;
}

/** `Side A, looking north`; `Side B, looking up`. */
export function facing({ penetrations }: BuildingBarrier, side: Side): string {
  const { normal } = penetrations[0]!.frame;
  const way = side === 'A' ? normal : negate(normal);
  const isLevel = Math.abs(way[2]) > 0.7;
  return WORDS.drawn.facing(side, isLevel ? (way[2] < 0 ? WORDS.drawn.down : WORDS.drawn.up) : compass(way));
}

/** A round length that is 40 to 100 px long, in two parts. */
function scaleBar(scale: number): TemplateResult {
  const unit = unitOf(scale);
  const least = 40 * unit;
  const decade = 10 ** Math.floor(Math.log10(least));
  const length = ([1, 2, 5].find((step) => step * decade >= least) ?? 10) * decade;
  const half = length / unit / 2;
  const words = length < 1000 ? quantity(length, 'mm') : quantity(length / 1000, 'm');
  return html`<span class="scale"
    >${WORDS.drawn.scale(scale)}<svg aria-hidden="true" width=${2 * half + 2} height="8">
      ${[0, 1].map(
        (i) =>
          svg`<rect x=${1 + i * half} y="1" width=${half} height="6" stroke="var(--ink)" fill=${i === 0 ? 'var(--ink)' : 'var(--sheet)'}></rect>`,
      )}</svg
    >${words}</span
  >`;
}
