/** What stands round an opening in the barrier's plane: its own ends, the soffit, corners, columns, doors, other openings. */
import { refOf } from '../element-refs.js';
import { type Box, boxesMeet, boxOfElement } from '../geometry/box.js';
import { raised } from '../geometry/frame.js';
import { type Box2, bounds, clip, overlaps } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import type { AroundKind, Barrier, Body, ElementRef, Polygon, Side } from '../model.js';
import { AROUND_REACH, BESIDE_FACE, CONTACT } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import { openingCut } from './openings.js';
import { inSolid, type Plate } from './plates.js';

export interface FoundAround {
  readonly side: Side;
  readonly kind: AroundKind;
  readonly distance: number;
  readonly element: ElementRef;
}

/** Something beside the opening: its outlines in the plate's plane. */
interface Beside {
  readonly kind: AroundKind;
  readonly element: ElementRef;
  readonly outlines: readonly Polygon[];
}

export interface Surroundings {
  /** As far as matters. */
  readonly near: Box;
  readonly barriers: readonly Barrier[];
  readonly columns: readonly (ElementRef & { readonly bodies: readonly Body[] })[];
}

/** The nearest of each kind on each side. @param outline of the opening, or of the duct where there is none */
export function aroundOpening(
  gross: GrossBody,
  plate: Plate,
  outline: Polygon,
  own: ElementRef | undefined,
  { near, barriers, columns }: Surroundings,
): FoundAround[] {
  const { barrier } = gross;
  const middle = inSolid(plate, 0);
  // Just before the faces stand the walls that meet this one; in its own thickness stands what it is built round.
  const planes = [-plate.thickness / 2 - BESIDE_FACE, middle, plate.thickness / 2 + BESIDE_FACE];
  const seen = (bodies: readonly Body[]): readonly Polygon[] =>
    planes.flatMap((s) => cutBodies(bodies, raised(plate.frame, s)).outers);
  const kindOf = (other: Barrier): AroundKind => (barrier.kind === 'wall' && other.kind !== 'wall' ? 'slab' : 'corner');
  const beside: Beside[] = [
    { kind: 'end', element: refOf(barrier), outlines: gross.outline(plate, middle) },
    {
      kind: 'opening',
      element: refOf(barrier),
      outlines: gross.cut(plate, middle).holes.filter((hole) => !overlaps(hole, outline)),
    },
    ...barrier.openings
      .filter((opening) => opening.globalId !== own?.globalId && boxesMeet(boxOfElement(opening), near))
      .map((opening) => ({
        kind: opening.doors.length > 0 ? ('door' as const) : ('opening' as const),
        element: refOf(opening),
        outlines: openingCut(opening.bodies, plate, middle),
      })),
    ...barriers
      .filter((other) => other !== barrier)
      .map((other) => ({ kind: kindOf(other), element: refOf(other), outlines: seen(other.bodies) })),
    ...columns.map((column) => ({ kind: 'column' as const, element: refOf(column), outlines: seen(column.bodies) })),
  ];
  // What stands over or under a wall is its slab; the walls beyond that are of another storey.
  const isBeyond = ({ side, kind }: FoundAround) =>
    barrier.kind === 'wall' && kind === 'corner' && (side === 'top' || side === 'bottom');
  const box = bounds([outline]);
  return SIDES.flatMap((side) => nearestOfEach(side, box, beside)).filter((one) => !isBeyond(one));
}

const SIDES: readonly Side[] = ['top', 'bottom', 'left', 'right'];
/** Which coordinate a side looks along, and whether it grows or falls. */
const LOOKS: { readonly [S in Side]: readonly [axis: 0 | 1, sign: 1 | -1] } = {
  top: [1, 1],
  bottom: [1, -1],
  right: [0, 1],
  left: [0, -1],
};

function nearestOfEach(side: Side, box: Box2, beside: readonly Beside[]): FoundAround[] {
  const nearest = new Map<AroundKind, FoundAround>();
  for (const { kind, element, outlines } of beside)
    for (const other of outlines) {
      const distance = distanceTo(side, box, other);
      if (distance === undefined || distance > AROUND_REACH) continue;
      if (distance < (nearest.get(kind)?.distance ?? Infinity)) nearest.set(kind, { side, kind, distance, element });
    }
  return [...nearest.values()];
}

/** From the side's outermost edge to the first edge of the other before it, over the whole breadth of the side. */
function distanceTo(side: Side, box: Box2, other: Polygon): number | undefined {
  const [axis, sign] = LOOKS[side];
  const across = axis === 0 ? 1 : 0;
  const edge = sign > 0 ? box.max[axis] : box.min[axis];
  const strip = (sense: 1 | -1, c: number): [number, number, number] => (across === 0 ? [sense, 0, c] : [0, sense, c]);
  // A hair narrower, so that what only touches the strip's border is not before the side.
  const [low, high] = [box.min[across] + CONTACT, box.max[across] - CONTACT];
  if (low >= high) return undefined;
  const before = clip(clip(other, ...strip(1, high)), ...strip(-1, -low));
  const ahead = before.map((p) => (p[axis] - edge) * sign).filter((d) => d >= -CONTACT);
  return ahead.length > 0 ? Math.max(0, Math.min(...ahead)) : undefined;
}
