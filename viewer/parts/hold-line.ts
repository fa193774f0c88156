/**
 * The hold-point line: five ticks in the order of the work. The earliest one that is at risk is filled and named, what follows
 * it hangs on it and is dashed. A short tick is no part of the chosen detail, a dotted one may be: nothing is chosen.
 */
import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import { type HoldTick, stoppedTick } from '../faces/hold-ticks.js';
import { WORDS } from '../words.js';

export const HOLD_LINE_HEIGHT = 12;
const MIDDLE = HOLD_LINE_HEIGHT / 2;
/** Half of the length of a tick by its state, and of the filled one. */
const HALF = { needed: 4, unknown: 4, notOfDetail: 2 } as const;
const FILLED = 5;

/** Into SVG that stands already; `width` in its units. */
export function holdLineShape(ticks: readonly HoldTick[], width: number): SVGTemplateResult {
  const at = (i: number): number => FILLED + ((width - 2 * FILLED) * i) / (ticks.length - 1);
  const stop = ticks.findIndex(({ isStopped }) => isStopped);
  const end = stop < 0 ? ticks.length - 1 : stop;
  const line = (d: string, dash = 'none'): SVGTemplateResult =>
    svg`<path d=${d} fill="none" stroke="var(--secondary)" stroke-width="1.5" stroke-dasharray=${dash}></path>`;
  return svg`<g>
    ${line(`M${at(0)} ${MIDDLE}H${at(end)}`)}
    ${line(`M${at(end)} ${MIDDLE}H${at(ticks.length - 1)}`, '2 2')}
    ${ticks.map(({ state, isStopped }, i) => {
      if (isStopped)
        return svg`<rect x=${at(i) - FILLED} y=${MIDDLE - FILLED} width=${2 * FILLED} height=${2 * FILLED} fill="var(--ink)"></rect>`;
      const half = HALF[state];
      return line(`M${at(i)} ${MIDDLE - half}V${MIDDLE + half}`, state === 'unknown' ? '1.5 1.5' : 'none');
    })}
  </g>`;
}

/** By itself, with its word beside it. */
export function holdLine(ticks: readonly HoldTick[], width = 96): TemplateResult {
  const words = WORDS.drawn.atRisk(stoppedTick(ticks)?.step.name ?? null);
  return html`<span class="hold-line"
    ><svg aria-hidden="true" width=${width} height=${HOLD_LINE_HEIGHT}>${holdLineShape(ticks, width)}</svg>
    ${words}</span
  >`;
}
