/** What is drawn of a storey under its marks: walls by rating, openings, columns, ductwork. */
import type { Polygon, Rating, Vec2 } from '../../model.js';
import type { PlanDuct, PlanWall, StoreyPlan } from '../../scene/storey-plan.js';
import { brief } from '../../words/text.js';
import { MEDIUM, THIN } from './dimension.js';
import { hatchOf } from './hatch.js';
import { type Box, clipped } from './layout.js';
import { INK, RAISED, RULE, SECONDARY, SHEET } from './palette.js';
import { closedPath, element, line } from './svg.js';
import type { View } from './view.js';

/** How a wall is drawn: by the time it is rated for, dotted where that can't be read, bare where nothing is asked of it. */
export const wallHatch = ({
  rated,
  rating,
}: Pick<PlanWall, 'rated' | 'rating'>): ReturnType<typeof hatchOf> | 'none' =>
  rated === false ? 'none' : rated === null ? 'dotted' : hatchOf(rating);

/** As it is printed beside a wall: a long one is cut, the register has it whole. */
export const ratingText = ({ text }: Rating): string => brief(text ?? '', 14);

export function drawPlan(plan: StoreyPlan, view: View, id: string): string {
  return [
    ...plan.voids.map((outline) => drawVoid(view.outline(outline))),
    ...plan.ducts.filter(({ lies }) => lies === 'below').map((duct) => drawDuct(duct, view)),
    walls(plan, view, id),
    ...plan.openings.map(({ outlines, isDoor }) => drawOpening(outlines.map(view.outline), isDoor)),
    element('path', { d: closedPath(plan.columns.map(view.outline)), fill: INK, stroke: INK, 'stroke-width': MEDIUM }),
    ...plan.ducts.filter(({ lies }) => lies !== 'below').map((duct) => drawDuct(duct, view)),
  ].join('');
}

/** Cut by the plan, so in thick lines where they are rated; what nothing is asked of is there to find one's way by. */
function walls({ walls: all }: StoreyPlan, view: View, id: string): string {
  const bare = all.filter((wall) => wallHatch(wall) === 'none').flatMap(({ outlines }) => outlines.map(view.outline));
  const rated = all.filter((wall) => wallHatch(wall) !== 'none');
  return [
    element('path', { d: closedPath(bare), fill: SHEET, stroke: SECONDARY, 'stroke-width': MEDIUM, ...EVEN }),
    ...rated.map((wall) =>
      element('path', {
        d: closedPath(wall.outlines.map(view.outline)),
        ...{ fill: `url(#${wallHatch(wall)}-${id})`, stroke: INK, 'stroke-width': CUT, 'stroke-linejoin': 'miter' },
        ...EVEN,
      }),
    ),
  ].join('');
}

/** Of ISO 128 too, next to the thickest: two lines of that would fill a thin wall. */
export const CUT = 0.35;
const EVEN = { 'fill-rule': 'evenodd' } as const;

/** A line along each side of the gap; doors are filled, so that a way through is seen at once. */
const drawOpening = (outlines: readonly Polygon[], isDoor: boolean): string =>
  element('path', {
    d: closedPath(outlines),
    ...{ fill: isDoor ? RAISED : SHEET, stroke: SECONDARY, 'stroke-width': THIN },
  });

/** Crossed: nothing is there to stand on. */
function drawVoid(outline: Polygon): string {
  const cross = outline.length === 4 ? line(outline[0]!, outline[2]!) + line(outline[1]!, outline[3]!) : '';
  return element('path', {
    d: closedPath([outline]) + cross,
    ...{ fill: 'none', stroke: SECONDARY, 'stroke-width': THIN, 'stroke-dasharray': '1.5 0.8' },
  });
}

/** Over the cut or through it in medium lines, under it in thin light ones; upright ones are cut, so crossed. */
function drawDuct({ outlines, lies, isUpright, isDamper, centreLine }: PlanDuct, view: View): string {
  const seen = outlines.map(view.outline);
  const isBelow = lies === 'below';
  const stroke = isBelow ? RULE : SECONDARY;
  const crosses = seen.flatMap((o) =>
    (isUpright || isDamper) && o.length === 4 ? [line(o[0]!, o[2]!), line(o[1]!, o[3]!)] : [],
  );
  const axis = centreLine && line(view.at(centreLine[0]), view.at(centreLine[1]));
  return [
    element('path', {
      d: closedPath(seen) + crosses.join(''),
      ...{ fill: 'none', stroke, 'stroke-width': isBelow ? THIN : MEDIUM, 'stroke-linejoin': 'round' },
    }),
    // Long dashes and dots: a centre line (ISO 128-2, line type 04.1).
    ...(axis
      ? [element('path', { d: axis, fill: 'none', stroke, 'stroke-width': 0.13, 'stroke-dasharray': '3 0.6 0.3 0.6' })]
      : []),
  ].join('');
}

/** How many millimetres of walls' edges lie under a box, on a raster of one millimetre. */
export function wallsUnder({ walls: all }: StoreyPlan, view: View): (box: Box) => number {
  const { x, y, width, height } = view.window;
  const [columns, rows] = [Math.ceil(width), Math.ceil(height)];
  const marked = new Uint8Array(columns * rows);
  const markEdge = (a: Vec2, b: Vec2): void => {
    const steps = Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1])) + 1;
    for (let i = 0; i <= steps; i++) {
      const column = Math.floor(a[0] + ((b[0] - a[0]) * i) / steps - x);
      const row = Math.floor(a[1] + ((b[1] - a[1]) * i) / steps - y);
      if (column >= 0 && column < columns && row >= 0 && row < rows) marked[row * columns + column] = 1;
    }
  };
  for (const outline of all.flatMap(({ outlines }) => outlines.map(view.outline)))
    for (const [i, a] of outline.entries()) {
      const edge = clipped(a, outline[(i + 1) % outline.length]!, view.window);
      if (edge) markEdge(...edge);
    }
  return (box) => {
    let count = 0;
    for (let row = Math.floor(box.y - y); row <= box.y + box.height - y; row++)
      for (let column = Math.floor(box.x - x); column <= box.x + box.width - x; column++)
        if (row >= 0 && row < rows && column >= 0 && column < columns) count += marked[row * columns + column]!;
    return count;
  };
}
