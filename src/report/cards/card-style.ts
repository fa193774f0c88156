/** How installation cards look: A5 upright, black on white, letters for reading from a ladder. */

import { SHEET_HEIGHT } from '../../draw/paper/elevation.js';
import { FONT_SETTINGS, FONT_STACK, type FontFace, fontFaces } from '../../draw/paper/font-face.js';
import { INK, OUTCOME_COLOURS, PAGE, RAISED, RULE, SECONDARY, SHEET } from '../../draw/paper/palette.js';
import { PADDING, textRules } from './flow.js';

/** All in mm. */
const PAGE_WIDTH = 148;
const PAGE_HEIGHT = 210;
const MARGIN = 5.5;
export const WIDTH = PAGE_WIDTH - 2 * MARGIN;
export const QR_SIZE = 22;
/** Over a text that stands apart. */
export const SPACE = 1.5;
/** Stamp above and caution below, on every page. */
const STAMP = 5.5;
const FOOT = 7.1;
const LATER_HEAD = 11;
/** What the front has left for the drawing; its own head and place take the rest. */
export const FRONT_ROOM = SHEET_HEIGHT + 1;
export const LATER_ROOM = PAGE_HEIGHT - 2 * MARGIN - STAMP - FOOT - LATER_HEAD;

export const cardStyle = (fonts: readonly FontFace[]): string => `${fontFaces(fonts)}
@page { size: ${PAGE_WIDTH}mm ${PAGE_HEIGHT}mm; margin: 0 }
* { box-sizing: border-box }
html { -webkit-print-color-adjust: exact; print-color-adjust: exact }
body { margin: 0; background: ${PAGE}; color: ${INK}; font-family: ${FONT_STACK}; ${FONT_SETTINGS}; overflow-wrap: anywhere }
section { background: ${SHEET}; width: ${PAGE_WIDTH}mm; min-height: ${PAGE_HEIGHT - 0.2}mm; margin: 6mm auto; padding: ${MARGIN}mm ${MARGIN}mm ${MARGIN + FOOT}mm; position: relative }
${textRules()}
p.bold { font-weight: bold }
h2, h3, figure { margin: 0; font-weight: normal }
h2 { font-size: 11.5mm; line-height: 12mm; white-space: nowrap; overflow: hidden; font-weight: bold; letter-spacing: .3mm }
h3 { padding-top: 2mm }
header { display: flex; justify-content: space-between }
header.front { height: 22.5mm }
header.front > div:first-child { min-width: 0 }
.key { margin: 0; font: 2.2mm/2.6mm "DejaVu Sans Mono", monospace; white-space: nowrap }
header.later { height: ${LATER_HEAD}mm; align-items: center; border-bottom: .5mm solid ${INK}; gap: 3mm }
header.later p { overflow: hidden; white-space: nowrap; text-overflow: ellipsis }
header.later p:last-child { flex: none }
p.state { padding: .5mm 2mm; border: .4mm solid ${INK}; flex: none }
div.state { border: .8mm solid ${INK}; padding: .6mm 2mm; margin: 0 0 .5mm }
.not-ready { background: ${INK}; color: ${SHEET}; font-weight: bold }
svg.mark { width: 5mm; height: 5mm; vertical-align: -.6mm; margin-right: 1mm }
table { border-collapse: collapse; table-layout: fixed; width: 100% }
th, td { text-align: left; vertical-align: top; padding: ${PADDING.y}mm ${PADDING.x}mm; border-bottom: .25mm solid ${RULE}; font-weight: normal }
thead td { border-bottom: .4mm solid ${INK}; background: ${RAISED} }
table.place th, table.place td { padding: .2mm .5mm }
table.place th p { padding-top: .8mm; color: ${SECONDARY} }
table.hold td, table.hold th { border: .25mm solid ${INK} }
figure svg { display: block; margin: 0 auto }
.spaced { padding-top: ${SPACE}mm }
.box { display: block; width: 4.5mm; height: 4.5mm; border: .35mm solid ${INK}; margin: 0 auto }
p.stop { color: ${OUTCOME_COLOURS.failed} }
.stamp { margin: 0 0 1mm; border: .4mm solid ${OUTCOME_COLOURS.failed}; color: ${OUTCOME_COLOURS.failed}; font-weight: bold; text-align: center }
.foot { position: absolute; left: ${MARGIN}mm; right: ${MARGIN}mm; bottom: ${MARGIN}mm; color: ${SECONDARY} }
ul { margin: 1mm 0; padding-left: 5mm }
@media print {
  body { background: ${SHEET} }
  section { margin: 0; break-after: page }
  section:last-of-type { break-after: auto }
}
`;
