/** The barrier as it is cut, its opening, and the duct in it. */
import type { Polygon, Vec2 } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';
import { brief, number } from '../../words/text.js';
import { drawDimension, THICK, THIN } from './dimension.js';
import type { GapKey } from './gaps.js';
import { drawLabel, type Label, labelSize } from './label.js';
import { centred, type Sheet } from './layout.js';
import { INK, PAGE, SECONDARY, SHEET } from './palette.js';
import { closedPath, element, line } from './svg.js';
import type { View } from './view.js';

/** The whole window is barrier but for the opening; where none is modelled the duct stands in solid barrier. */
export function drawBarrier(p: ReportPenetration, view: View, id: string): string {
  const holes = (p.outlines.opening.length > 0 ? p.outlines.opening : []).map(view.outline);
  const { x, y, width, height } = view.window;
  const solid: Polygon = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
  return [
    element('path', { d: closedPath([solid]), fill: `url(#barrier-${id})` }),
    element('path', { d: closedPath(holes), fill: SHEET, stroke: INK, 'stroke-width': THICK }),
  ].join('');
}

/** Crossed diagonals: a duct that is cut. */
export function drawDuct(p: ReportPenetration, view: View): string {
  const outlines = p.outlines.duct.map(view.outline);
  const crosses = outlines.flatMap((o) => (o.length === 4 ? [line(o[0]!, o[2]!), line(o[1]!, o[3]!)] : centreLines(o)));
  return [
    element('path', { d: closedPath(outlines), fill: PAGE, stroke: INK, 'stroke-width': THICK }),
    element('path', { d: crosses.join(''), stroke: SECONDARY, 'stroke-width': THIN, fill: 'none' }),
  ].join('');
}

function centreLines(outline: Polygon): string[] {
  const [xs, ys] = [outline.map((q) => q[0]), outline.map((q) => q[1])];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [cx, cy] = [(left + right) / 2, (top + bottom) / 2];
  return [line([left - 2, cy], [right + 2, cy]), line([cx, top - 2], [cx, bottom + 2])];
}

export function ductLabel({ duct, outlines }: ReportPenetration, view: View, sheet: Sheet): string {
  const text = brief(duct.system ?? duct.name, 14);
  const label: Label = { lines: [{ text, lettering: 'normal', bold: true }] };
  const { width, height } = labelSize(label);
  const points = outlines.duct.flatMap(view.outline);
  const [xs, ys] = [points.map((q) => q[0]), points.map((q) => q[1])];
  const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
  // A label that does not fit is left out: the title block has it too.
  if (text === '' || width > w * 0.7 || height > h * 0.7) return '';
  const middle: Vec2 = [Math.min(...xs) + w / 2, Math.min(...ys) + h / 2];
  const box = sheet.place([centred(middle, width, height)]);
  return box ? drawLabel(label, box, PAGE) : '';
}

/**
 * Of a rectangular opening that stands square in the drawing: below it, and on a side where no gap failed, since what
 * failed is written there. The title block has the size in any case.
 */
export function overallSizes(
  { opening, outlines }: ReportPenetration,
  view: View,
  sheet: Sheet,
  failed: ReadonlySet<GapKey>,
): string {
  const [outline] = outlines.opening;
  if (opening?.shape !== 'rectangular' || !outline) return '';
  const points = view.outline(outline);
  const [xs, ys] = [points.map((q) => q[0]), points.map((q) => q[1])];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [width, height] = [right - left, bottom - top];
  const isSquare =
    Math.abs(width - opening.width / view.scale) < 0.1 && Math.abs(height - opening.height / view.scale) < 0.1;
  if (!isSquare) return '';
  const below = bottom + (failed.has('bottom') ? OFFSET_BEYOND_FAILED : OFFSET);
  const onRight = failed.has('left');
  const beside = onRight ? right + OFFSET : left - OFFSET;
  const sizes = [size([left, below], [right, below], [left, bottom], [right, bottom], opening.width, sheet)];
  if (!(onRight && failed.has('right'))) {
    const edge = onRight ? right : left;
    sizes.push(size([beside, bottom], [beside, top], [edge, bottom], [edge, top], opening.height, sheet));
  }
  return sizes.join('');
}

const OFFSET = 14;
const OFFSET_BEYOND_FAILED = 19;

/** A dimension line away from what it measures, with extension lines to it. */
function size(from: Vec2, to: Vec2, edgeFrom: Vec2, edgeTo: Vec2, value: number, sheet: Sheet): string {
  const label: Label = { lines: [{ text: number(value), lettering: 'normal' }] };
  const extensions = line(edgeFrom, from) + line(edgeTo, to);
  return [
    element('path', { d: extensions, stroke: SECONDARY, 'stroke-width': THIN, fill: 'none' }),
    drawDimension(from, to, label, SECONDARY, sheet),
  ].join('');
}
