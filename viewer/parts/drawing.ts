/** The drawings of one penetration, elevation or section, as the papers have them and in the colours of the page. */
import { css, html, type TemplateResult } from 'lit';
import { unsafeHTML } from 'lit/directives/unsafe-html.js';
import { needsAttention } from '../../src/attention.js';
import { drawElevation } from '../../src/draw/paper/elevation.js';
import { drawSection } from '../../src/draw/paper/section.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { OpenReport } from '../state/state.js';
import { pageSvg } from './page-svg.js';

export type DrawingKind = 'elevation' | 'section';

/** Widths of texts are measured without kerning; see `src/draw/paper/font-face.ts`. */
export const drawingStyles = css`
  .drawing {
    display: block;
  }
  .drawing svg {
    display: block;
    width: 100%;
    height: auto;
    font-family: var(--font);
    font-variant-numeric: tabular-nums;
    font-kerning: none;
  }
`;

/** A penetration belongs to one report, of the review or of a trial, and is never changed. */
const drawn = new WeakMap<ReportPenetration, Map<string, string>>();

/**
 * Bare, as wide as what holds it; needs {@link drawingStyles}.
 *
 * @param place letters that tell it from the same drawing elsewhere in the element
 */
export function drawing(open: OpenReport, p: ReportPenetration, kind: DrawingKind, place = ''): TemplateResult {
  const known = drawn.get(p) ?? new Map<string, string>();
  drawn.set(p, known);
  const id = `${kind}${place}-${p.id}`;
  const svg = known.get(id) ?? pageSvg(draw(open, p, kind, id));
  known.set(id, svg);
  // Markup of our own alone: `src/draw/paper` escapes all texts of models.
  return html`<div class="drawing">${unsafeHTML(svg)}</div>`;
}

function draw(open: OpenReport, penetration: ReportPenetration, kind: DrawingKind, id: string): string {
  const { lookup } = open.building;
  const common = { penetration, id, revision: lookup.revision, isBare: true } as const;
  if (kind === 'section') return drawSection(common);
  const findings = (lookup.findings.get(penetration.id) ?? []).filter(needsAttention);
  return drawElevation({ ...common, findings, others: lookup.penetrations });
}
