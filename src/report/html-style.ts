/** How report.html looks on paper and on a screen. */
import { FONT_SETTINGS, FONT_STACK, type FontFace, fontFaces } from '../draw/paper/font-face.js';
import { INK, OUTCOME_COLOURS, PAGE, RAISED, RULE, SECONDARY, SHEET } from '../draw/paper/palette.js';
import { oneLine } from '../words/text.js';
import { projectWords } from './html-front.js';
import { cssString } from './html-markup.js';
import type { Report } from './schema.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from './words.js';

export interface Running {
  /** In the head of every page: what was reviewed. */
  readonly project: string;
  readonly edition: string;
  readonly stamp: string | null;
  readonly caution: string;
}

/** What stands in the margins of every page of a paper on a report. */
export function runningOf(report: Report, revision = report.revision): Running {
  return {
    project: projectWords(report),
    edition: `${revision === null ? '' : `Revision ${oneLine(revision)}, `}${report.createdAt.slice(0, 10)}`,
    stamp: report.demonstration ? DEMONSTRATION.split(':')[0]! : null,
    caution: CAUTION_IN_BRIEF,
  };
}

export function styleSheet(running: Running, fonts: readonly FontFace[]): string {
  const { project, edition, stamp, caution } = running;
  const head = `font: 7.5pt ${FONT_STACK}; color: ${SECONDARY}`;
  return `${fontFaces(fonts)}
@page {
  size: A4; margin: 16mm 15mm;
  @top-left { content: ${cssString(project)}; ${head}; width: ${stamp === null ? 70 : 35}% }
  @top-center { content: ${cssString(stamp ?? '')}; font: bold 7.5pt ${FONT_STACK}; color: ${OUTCOME_COLOURS.failed}; text-align: center }
  @top-right { content: ${cssString(edition)}; ${head}; text-align: right }
  @bottom-left { content: ${cssString(caution)}; ${head}; width: 80%; text-align: left }
  @bottom-right { content: "Page " counter(page) " of " counter(pages); ${head}; text-align: right }
}
@page wide { size: A4 landscape }
@page plan { size: A4 landscape; margin: 16mm 15mm 14mm }
* { box-sizing: border-box }
html { -webkit-print-color-adjust: exact; print-color-adjust: exact }
body { margin: 0; background: ${PAGE}; color: ${INK}; font: 9.5pt/1.4 ${FONT_STACK}; ${FONT_SETTINGS}; overflow-wrap: break-word }
bdi { overflow-wrap: anywhere }
section { background: ${SHEET}; max-width: 210mm; margin: 8mm auto; padding: 12mm 15mm }
section.wide, section.plan { max-width: 297mm }
h1 { font-size: 24pt; line-height: 1.2; margin: 30mm 0 6mm }
h2 { font-size: 15pt; line-height: 1.25; margin: 0 0 3mm }
h3 { font-size: 10.5pt; margin: 4mm 0 1.5mm }
p { margin: 0 0 2mm }
ul, ol { margin: 0 0 2mm; padding-left: 5mm }
td ul { margin: 0; padding-left: 3.5mm }
td p { margin: 0 }
table { border-collapse: collapse; width: 100%; margin: 0 0 3mm; font-size: 8.5pt }
th, td { text-align: left; vertical-align: top; padding: .8mm 1.5mm; border-bottom: .25pt solid ${RULE} }
th { border-bottom: .75pt solid ${INK}; background: ${RAISED} }
thead { display: table-header-group }
tr, figure, li { break-inside: avoid }
h2, h3 { break-after: avoid }
table.cover th { width: 30% }
table.counts { width: auto; min-width: 60% }
table.counts td + td, table.counts th + th { text-align: right }
table.small { font-size: 7.5pt }
table.small b { white-space: nowrap }
table.amounts td:nth-child(n+3), table.amounts th:nth-child(n+3) { text-align: right }
table.evidence th, table.evidence td { padding: .2mm 1.2mm }
table.evidence td:nth-child(5), table.evidence td:nth-child(6) { white-space: nowrap }
table.facts th:nth-child(2), table.facts th:nth-child(3) { width: 15% }
table.facts th:nth-child(4), table.facts th:nth-child(5) { width: 22% }
table.elements th:first-child { width: 18% }
figure { margin: 0 0 3mm }
figure svg { display: block; width: 180mm; max-width: 100%; height: auto }
section.sheet figure svg { width: auto; height: 246mm; margin: 0 auto }
figure.plan { margin: 0 }
figure.plan svg { width: 267mm }
figure.plan a { fill: inherit; text-decoration: none }
figcaption { font-size: 8pt; color: ${SECONDARY}; margin-top: 1mm }
svg.mark { width: 11pt; height: 11pt; vertical-align: -1.5pt; margin-right: 1mm }
.outcome { white-space: nowrap; font-weight: bold }
.stamp { font-size: 8.5pt; font-weight: bold; color: ${OUTCOME_COLOURS.failed}; border: 1pt solid ${OUTCOME_COLOURS.failed}; padding: .5mm 2mm }
.cautions { border: 1pt solid ${INK}; padding: 3mm 4mm; margin-top: 8mm }
.cautions ul { margin: 0 }
.foot { border-top: .25pt solid ${RULE}; margin: 6mm 0 0; padding-top: 1mm; font-size: 8pt; color: ${SECONDARY} }
.mono { font-family: "DejaVu Sans Mono", monospace; font-size: 7.5pt }
${(['failed', 'cantTell', 'passed', 'inapplicable', 'untested'] as const).map((o) => `.${o} { color: ${OUTCOME_COLOURS[o]} }`).join('\n')}
@media print {
  body { background: ${SHEET} }
  section, section.wide, section.plan { max-width: none; margin: 0; padding: 0; break-before: page }
  section:first-of-type { break-before: avoid }
  section.wide { page: wide }
  section.plan { page: plan }
  .foot { display: none }
}
`;
}
