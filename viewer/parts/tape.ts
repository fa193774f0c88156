/** The tape: a ruled scale with the allowed range hatched and the measured value as a notch with its number. */
import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { Limit, Outcome, Unit } from '../../src/model.js';
import { number } from '../format.js';
import { allowedWords, amount, offWords, type Value } from '../sheet/amounts.js';
import { WORDS } from '../words.js';
import { OUTCOME_COLOUR } from './mark.js';
import { type TapeScale, tapeScale } from './tape-scale.js';

export interface Taped {
  readonly measured: Value;
  readonly limit: Limit;
  readonly unit: Unit | null;
  readonly outcome: Outcome;
}

/** `70 mm, allowed 10 to 50 mm, 20 mm over`. */
export const tapeWords = ({ measured, limit, unit }: Taped, locale?: string): string =>
  WORDS.tape.said(
    amount(measured, unit, locale),
    allowedWords(limit, unit, locale),
    offWords(measured, limit, unit, locale),
  );

export const TAPE_WIDTH = 240;
const HEIGHT = 62;
const NUMBERS = 12;
const BAND = { top: 22, bottom: 38 };
const FOOT = 58;

/** A ruled scale for what is held against numbers; a sentence for all else. */
export function tape(taped: Taped): TemplateResult {
  const { measured, limit, outcome, unit } = taped;
  const { equals } = limit;
  if (typeof measured !== 'number' || limit.among || (equals !== undefined && typeof equals !== 'number'))
    return html`<p>${tapeWords(taped)}</p>`;
  const scale = tapeScale(measured, { atLeast: limit.atLeast ?? equals, atMost: limit.atMost ?? equals }, TAPE_WIDTH);
  return html`<svg
    role="img"
    aria-label=${tapeWords(taped)}
    viewBox="0 0 ${TAPE_WIDTH} ${HEIGHT}"
    width=${TAPE_WIDTH}
    height=${HEIGHT}
    font-size="12"
    overflow="visible"
  >
    <defs>
      <pattern id="tape-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0V5" stroke="var(--secondary)" stroke-width="1.6"></path>
      </pattern>
    </defs>
    ${band(scale)} ${ruler(scale)} ${notch(scale, amount(measured, unit), OUTCOME_COLOUR[outcome])}
  </svg>`;
}

const band = ({ allowed }: TapeScale): SVGTemplateResult[] =>
  allowed.map(
    ({ x, width }) =>
      svg`<rect x=${x} y=${BAND.top} width=${width} height=${BAND.bottom - BAND.top} fill="url(#tape-hatch)"></rect>`,
  );

function ruler({ parts, isCutAtZero, ticks, limits }: TapeScale): SVGTemplateResult {
  const zigzag = (x: number): string => `M${x} ${BAND.bottom}l3.5 -5 3.5 10 3.5 -10 3.5 5`;
  const cuts = [...(isCutAtZero ? [0] : []), ...parts.slice(0, -1).map(({ x, width }) => x + width)];
  return svg`<g stroke="var(--ink)" fill="none">
      ${parts.map(({ x, width }) => svg`<path d="M${x} ${BAND.bottom}h${width}"></path>`)}
      ${cuts.map((x) => svg`<path d=${zigzag(x)}></path>`)}
      ${ticks.map(({ x, isLabelled }) => svg`<path d="M${x} ${BAND.bottom}v${isLabelled ? 7 : 4}" stroke="var(--rule)"></path>`)}
      ${limits.map(({ x }) => svg`<path d="M${x} ${BAND.top}V${BAND.bottom + 8}" stroke-width="1.5"></path>`)}
    </g>
    <g fill="var(--secondary)">
      ${ticks.filter(({ isLabelled }) => isLabelled).map(({ x, value }) => numberAt(x, FOOT, number(value, 2)))}
    </g>
    <g fill="var(--ink)" font-weight="700">${limits.map(({ x, value }) => numberAt(x, FOOT, number(value, 2)))}</g>`;
}

function notch({ notch: x }: TapeScale, words: string, colour: string): SVGTemplateResult {
  return svg`<path d="M${x - 5} ${BAND.top - 7}h10l-5 8z" fill=${colour}></path>
    <path d="M${x} ${BAND.top}V${BAND.bottom}" stroke=${colour} stroke-width="2.5"></path>
    <g fill="var(--ink)" font-weight="700">${numberAt(x, NUMBERS, words)}</g>`;
}

/** About how wide a figure is, px. */
const FIGURE = 8;

/** In the middle over its place, and never beyond the ends of the tape. */
function numberAt(x: number, y: number, text: string): SVGTemplateResult {
  const half = (text.length * FIGURE) / 2;
  const place = Math.min(Math.max(x, half), TAPE_WIDTH - half);
  return svg`<text x=${place} y=${y} text-anchor="middle">${text}</text>`;
}
