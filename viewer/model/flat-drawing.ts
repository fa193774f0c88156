/** The elevation of a penetration as the papers have it, for where no model can be drawn; in the colours of the page. */
import { html, type TemplateResult } from 'lit';
import { unsafeHTML } from 'lit/directives/unsafe-html.js';
import { needsAttention } from '../../src/attention.js';
import { EDGE, hexCode, INK, OUTCOME_COLOURS, PAGE, type Rgb, SECONDARY, SHEET } from '../../src/draw/palette.js';
import { drawElevation } from '../../src/draw/paper/elevation.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { OUTCOME_COLOUR } from '../parts/mark.js';
import type { OpenReport } from '../state/state.js';

const VARIABLES: readonly (readonly [Rgb, string])[] = [
  ...(['failed', 'cantTell', 'passed'] as const).map((o) => [OUTCOME_COLOURS[o], OUTCOME_COLOUR[o]] as const),
  ...([
    [PAGE, 'var(--page)'],
    [SHEET, 'var(--sheet)'],
    [INK, 'var(--ink)'],
    [SECONDARY, 'var(--secondary)'],
    [EDGE, 'var(--rule)'],
  ] as const),
];

export function flatDrawing({ building: { lookup } }: OpenReport, penetration: ReportPenetration): TemplateResult {
  const findings = (lookup.findings.get(penetration.id) ?? []).filter(needsAttention);
  const drawn = drawElevation({ penetration, findings, others: lookup.penetrations, id: 'model', isBare: true });
  const coloured = VARIABLES.reduce(
    (svg, [rgb, variable]) => svg.replaceAll(new RegExp(`#${hexCode(rgb)}`, 'gi'), variable),
    drawn.replace(/ style="[^"]*"/g, ''),
  );
  // Markup of our own alone: src/draw escapes all texts of models.
  return html`<div class="drawing">${unsafeHTML(coloured)}</div>`;
}
