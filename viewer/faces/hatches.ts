/** Hatches of barriers on screen: those of the papers, in the colours of the page. */
import { html, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import { hatchLines, hatchOf } from '../../src/draw/paper/hatch.js';
import type { ReportBarrier } from '../../src/report/schema.js';

type Hatched = Pick<ReportBarrier, 'construction' | 'rating'>;
/** px of a millimetre on paper. */
const PX = 96 / 25.4;

export const hatchId = ({ construction, rating }: Hatched): string => `hatch-${construction}-${hatchOf(rating)}`;

/** Patterns for all of these barriers, for fills by `url(#id)` in the same root. */
export function hatchPatterns(barriers: readonly Hatched[]): TemplateResult {
  const each = new Map(barriers.map((barrier) => [hatchId(barrier), barrier]));
  return html`<svg class="patterns" aria-hidden="true" width="0" height="0">
    <defs>${[...each].map(([id, barrier]) => pattern(id, barrier))}</defs>
  </svg>`;
}

function pattern(id: string, { construction, rating }: Hatched): SVGTemplateResult {
  const { turn, size, path, isDotted } = hatchLines(construction, hatchOf(rating), PX);
  return svg`<pattern id=${id} width=${size} height=${size} patternUnits="userSpaceOnUse" patternTransform=${`rotate(${turn})`}>
    <path d=${`M0 0H${size}V${size}H0Z`} fill="var(--raised)"></path>
    <path
      d=${path}
      fill="none"
      stroke="var(--rule)"
      stroke-linecap="round"
      stroke-width=${isDotted ? 1.6 : 0.6}
      stroke-dasharray=${isDotted ? '0 3' : 'none'}
    ></path>
  </pattern>`;
}
