/** Other penetrations of the same barrier, and how far away they are. */
import { add, dot, scale, sub } from '../../geometry/vector.js';
import type { Polygon, Vec2 } from '../../model.js';
import type { ReportFinding, ReportPenetration } from '../../report/schema.js';
import { brief, number } from '../../words/text.js';
import { drawDimension, MEDIUM } from './dimension.js';
import { nearestPair } from './gap-lines.js';
import type { Label } from './label.js';
import type { Sheet } from './layout.js';
import { INK, OUTCOME_COLOURS, PAGE } from './palette.js';
import { closedPath, element } from './svg.js';
import type { View } from './view.js';

export interface Neighbour {
  readonly penetration: ReportPenetration;
  readonly distance: number;
  /** In this drawing's coordinates. */
  readonly outlines: readonly Polygon[];
  /** Where the two come nearest. */
  readonly pair: readonly [Vec2, Vec2] | undefined;
}

export function neighboursOf(p: ReportPenetration, others: ReadonlyMap<string, ReportPenetration>): Neighbour[] {
  return p.neighbours.flatMap(({ penetration: id, distance }) => {
    const penetration = others.get(id);
    if (!penetration) return [];
    const outlines = penetration.outlines.duct.map((outline) => outline.map((q) => seenFrom(p, penetration, q)));
    return [{ penetration, distance, outlines, pair: nearestPair(p.outlines.duct, outlines) }];
  });
}

/** A point of another penetration's outline in the coordinates of this one's drawing. */
function seenFrom(p: ReportPenetration, other: ReportPenetration, [x, y]: Vec2): Vec2 {
  const world = add(other.position, add(scale(other.frame.right, x), scale(other.frame.up, y)));
  const from = sub(world, p.position);
  return [dot(from, p.frame.right), dot(from, p.frame.up)];
}

/** Adjacent parts are drawn in long dashes with double dots (ISO 128-2, line type 05.1). */
export function drawNeighbour(outlines: readonly Polygon[], view: View): string {
  return element('path', {
    d: closedPath(outlines.map(view.outline)),
    fill: PAGE,
    stroke: INK,
    'stroke-width': MEDIUM,
    'stroke-dasharray': '4 0.8 0.4 0.8 0.4 0.8',
  });
}

export function neighbourLabels(n: Neighbour, findings: readonly ReportFinding[], view: View, sheet: Sheet): string {
  const [first] = n.outlines;
  if (!n.pair || !first) return '';
  const [from, to] = [view.at(n.pair[0]), view.at(n.pair[1])];
  const tooNear = findings.some(
    (f) => f.outcome === 'failed' && f.check.startsWith('separation') && f.measured === n.distance,
  );
  const colour = tooNear ? OUTCOME_COLOURS.failed : INK;
  const text = `${number(n.distance)} to ${brief(n.penetration.tag, 12)}`;
  const label: Label = tooNear
    ? { mark: 'failed', lines: [{ text, lettering: 'large', bold: true, colour }] }
    : { lines: [{ text, lettering: 'normal' }] };
  return drawDimension(from, to, label, colour, sheet);
}
