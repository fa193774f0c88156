/** Marks of outcomes as SVG that takes the colours of the page: upright, at least 16 px, never without a word for readers. */
import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import { DOT_RADIUS, MARK_GRID, MARKS } from '../../src/draw/marks.js';
import type { Outcome } from '../../src/model.js';

/** CSS colours by outcome, as `tokens.ts` names them. */
export const OUTCOME_COLOUR: { readonly [O in Outcome]: string } = {
  passed: 'var(--passed)',
  failed: 'var(--failed)',
  cantTell: 'var(--cant-tell)',
  inapplicable: 'var(--inapplicable)',
  untested: 'var(--untested)',
};

/** On a grid of {@link MARK_GRID} units, for SVG that stands already. */
export function markShape(outcome: Outcome): SVGTemplateResult {
  const { boxes, dots } = MARKS[outcome];
  return svg`<g fill=${OUTCOME_COLOUR[outcome]}>
    ${boxes.map(([x, y, w, h]) => svg`<rect x=${x} y=${y} width=${w} height=${h}></rect>`)}
    ${dots.map(([cx, cy]) => svg`<circle cx=${cx} cy=${cy} r=${DOT_RADIUS}></circle>`)}
  </g>`;
}

/** @param conceded its own mark in square brackets */
export function mark(outcome: Outcome, { size = 16, conceded = false } = {}): TemplateResult {
  const width = conceded ? MARK_GRID + 12 : MARK_GRID;
  return html`<svg
    aria-hidden="true"
    viewBox="${conceded ? -6 : 0} 0 ${width} ${MARK_GRID}"
    width=${(size * width) / MARK_GRID}
    height=${size}
  >
    ${markShape(outcome)}
    ${
      conceded
        ? svg`<path d="M0 1h-4v22h4M24 1h4v22h-4" fill="none" stroke=${OUTCOME_COLOUR[outcome]} stroke-width="2"></path>`
        : nothing
    }
  </svg>`;
}
