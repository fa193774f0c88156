/** Everything that is measured at one crossing: the duct there, its skew, its opening, the gaps round it. */
import { edgeDistance } from '../geometry/edge-distance.js';
import { fromPlane, raised, toPlane } from '../geometry/frame.js';
import { area, centroid, overlaps } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { add, dot, lineAngle, scale, sub, unit } from '../geometry/vector.js';
import type { Body, OpeningFacts, Penetration, Polygon, Vec2, Vec3 } from '../model.js';
import { FACE_INSET, GRAZING } from '../tolerances.js';
import {
  cutSection,
  ductEdges,
  fittedEdges,
  localSection,
  type Section,
  sideDirections,
  straightSection,
} from './crossing-section.js';
import { type GapPlane, type MeasuredGaps, measureGaps } from './gaps.js';
import { type Intrusion, outlinesOf } from './intrusions.js';
import { type Leaf, type LeafStack, piecesOf } from './leaves.js';
import { openingFacts } from './openings.js';
import type { Piece } from './pieces.js';
import { faceHeights, type Plate } from './plates.js';

/** Something else that may stand in the opening: a pipe, a cable tray, another duct. */
export interface Neighbour {
  readonly bodies: readonly Body[];
}

export interface Measured<Service extends Neighbour> {
  readonly primary: Piece;
  readonly position: Vec3;
  readonly skew: number;
  readonly section: Section;
  readonly opening: OpeningFacts | undefined;
  readonly gaps: MeasuredGaps<Service> | undefined;
  readonly gapsTo: Penetration['gapsTo'];
  /** Services whose outline lies in the opening. */
  readonly inOpening: readonly Service[];
  /** About `position`, in the elevation's coordinates, on the barrier's middle plane. */
  readonly outlines: { readonly duct: readonly Polygon[]; readonly opening: readonly Polygon[] };
}

export function measureCrossing<Service extends Neighbour>(
  stack: LeafStack,
  services: readonly Service[],
): Measured<Service> {
  const { plate, leaves } = stack;
  const members = leaves.flatMap((leaf) => leaf.group.intrusions);
  const primary = atMiddle(stack);
  const middle = middleOutlines(stack, primary);
  const cut = cutBodies(primary.bodies, plate.frame);
  const largest = largestOf(cut.outers) ?? largestOf(middle);
  const straight = primary.straight;
  const axis = straight?.direction ?? chordDirection(members, plate);
  const skew = axis ? lineAngle(axis, plate.frame.z) : 0;
  const position =
    straight && skew < 90 - GRAZING
      ? onMiddlePlane(straight.axis[0], straight.direction, plate)
      : fromPlane(plate.frame, largest ? centroid(largest) : leaves[0].centre);
  const about = toPlane(plate.frame, position);
  const mainLeaf = leaves.find((leaf) => leaf.opening) ?? leaves[0];
  const mainOutline = mainLeaf.opening?.outlineAt(0, mainLeaf.centre);
  const opening =
    mainLeaf.opening && mainOutline
      ? openingFacts(mainLeaf.opening, mainOutline, mainLeaf.group.gross.barrier.model)
      : undefined;
  const isThrough = leaves[0].group.crossing === 'through';
  const local = !straight && isThrough && axis ? localSection(primary.bodies, position, axis, plate) : undefined;
  const section = straight
    ? straightSection(straight, plate)
    : (local ?? cutSection(isThrough ? largest : undefined, skew, cut.bridged === 0));
  const inOpening = services.filter((service) => leaves.some((leaf) => standsIn(service, leaf)));
  const isRectangular = section.shape === 'rectangular';
  const directions =
    opening?.shape === 'rectangular' && section.shape !== 'unknown'
      ? sideDirections(section.shape === 'circular' ? fittedEdges(mainOutline) : ductEdges(straight, largest, plate))
      : undefined;
  const planes = leaves.flatMap((leaf) => gapPlanes(leaf, inOpening));
  const relative = (p: Polygon): Polygon => p.map(([x, y]): Vec2 => [x - about[0], y - about[1]]);
  return {
    primary,
    position,
    skew,
    section,
    opening,
    gaps: opening && planes.length > 0 ? measureGaps(planes, directions, isRectangular) : undefined,
    gapsTo: gapsToOf(members.map(({ piece }) => piece)),
    inOpening,
    outlines: { duct: middle.map(relative), opening: mainOutline ? [relative(mainOutline)] : [] },
  };
}

/** The least certain of what makes the crossing counts: any of it may be where the gap is narrowest. */
function gapsToOf(pieces: readonly Piece[]): Penetration['gapsTo'] {
  const all = pieces.map(({ wall }) => wall.gapsTo);
  return all.includes('unknown') ? 'unknown' : all.includes('insulation') ? 'insulation' : 'sheet';
}

const largestOf = (outlines: readonly Polygon[]): Polygon | undefined =>
  [...outlines].sort((a, b) => area(b) - area(a))[0];

/** The piece at the barrier's middle: a damper before a duct, then what fills most of the thickness. */
function atMiddle({ leaves, plate }: LeafStack): Piece {
  const inStack = leaves.flatMap(({ group }) => {
    const shift = dot(sub(group.plate.frame.origin, plate.frame.origin), plate.frame.z);
    return group.intrusions.map((i) => ({ piece: i.piece, low: i.low + shift, high: i.high + shift }));
  });
  const fromMiddle = (i: { low: number; high: number }) => Math.max(i.low, -i.high, 0);
  const rank = (p: Piece) => (p.element.kind === 'damper' ? 0 : 1);
  inStack.sort(
    (a, b) =>
      fromMiddle(a) - fromMiddle(b) ||
      rank(a.piece) - rank(b.piece) ||
      b.high - b.low - (a.high - a.low) ||
      (a.piece.element.globalId < b.piece.element.globalId ? -1 : 1),
  );
  return inStack[0]!.piece;
}

const onMiddlePlane = (at: Vec3, direction: Vec3, plate: Plate): Vec3 => {
  const t = dot(sub(plate.frame.origin, at), plate.frame.z) / dot(direction, plate.frame.z);
  return add(at, scale(direction, t));
};

/** Outlines on the middle plane; where nothing of the crossing is there, of the piece's own end nearest to it. */
function middleOutlines(stack: LeafStack, primary: Piece): readonly Polygon[] {
  const { leaves, plate } = stack;
  const here = piecesOf(stack).flatMap((piece) => cutBodies(piece.bodies, plate.frame).outers);
  if (here.length > 0) return here;
  const own = leaves.flatMap((leaf) => leaf.group.intrusions).find((i) => i.piece === primary)!;
  const height = Math.abs(own.low) < Math.abs(own.high) ? own.low + FACE_INSET : own.high - FACE_INSET;
  return outlinesOf(primary, own.plate, height);
}

/** From the middle of the first outline to the middle of the last: the way through a bend or an offset. */
function chordDirection(members: readonly Intrusion[], plate: Plate): Vec3 | undefined {
  const ends = faceHeights(plate).map((height) => {
    const outlines = members.flatMap((m) => cutBodies(m.piece.bodies, raised(plate.frame, height)).outers);
    const main = largestOf(outlines);
    return main && fromPlane(raised(plate.frame, height), centroid(main));
  });
  return ends[0] && ends[1] ? unit(sub(ends[1], ends[0])) : undefined;
}

function standsIn(service: Neighbour, leaf: Leaf): boolean {
  const opening = leaf.opening?.outlineAt(0, leaf.centre);
  if (!opening) return false;
  return cutBodies(service.bodies, leaf.group.plate.frame).outers.some((outline) => overlaps(outline, opening));
}

/** Both faces, the middle, and either side of every end that lies within: between these, gaps change evenly. */
function gapPlanes<Service extends Neighbour>(leaf: Leaf, services: readonly Service[]): GapPlane<Service>[] {
  const { plate, intrusions } = leaf.group;
  const [low, high] = faceHeights(plate);
  const ends = intrusions.flatMap((i) => [
    i.low - FACE_INSET,
    i.low + FACE_INSET,
    i.high - FACE_INSET,
    i.high + FACE_INSET,
  ]);
  const heights = new Set([low, 0, high, ...ends.filter((s) => s > low && s < high)]);
  const planes = [...heights].flatMap((height) => {
    const duct = cutBodies(
      intrusions.flatMap((i) => i.piece.wall.bodies),
      raised(plate.frame, height),
    ).outers;
    const opening = leaf.opening?.outlineAt(height, leaf.centre);
    if (duct.length === 0 || !opening) return [];
    const at = raised(plate.frame, height);
    const standing = services.map((service) => ({ service, outlines: cutBodies(service.bodies, at).outers }));
    return [{ duct, opening, services: standing.filter((s) => s.outlines.length > 0) }];
  });
  // Square through a square opening every plane shows the same.
  return planes.filter((plane, i) => i === 0 || !showsTheSame(plane, planes[0]!));
}

function showsTheSame<Service>(a: GapPlane<Service>, b: GapPlane<Service>): boolean {
  const outlines = (plane: GapPlane<Service>) => [
    ...plane.duct,
    plane.opening,
    ...plane.services.flatMap((s) => s.outlines),
  ];
  const [p, q] = [outlines(a), outlines(b)];
  return (
    p.length === q.length &&
    p.every((outline, i) => {
      const other = q[i]!;
      return (
        outline.length === other.length &&
        outline.every(([x, y], k) => Math.abs(x - other[k]![0]) + Math.abs(y - other[k]![1]) < FACE_INSET / 10)
      );
    })
  );
}

/** Clear distance between two crossings of one barrier in its plane, the least over both faces and the middle. */
export function clearDistance(a: LeafStack, b: LeafStack): number {
  const { frame, thickness } = a.plate;
  const outlines = (stack: LeafStack, height: number) =>
    stack.leaves.flatMap((leaf) =>
      leaf.group.intrusions.flatMap((i) => cutBodies(i.piece.bodies, raised(frame, height)).outers),
    );
  let least = Infinity;
  for (const height of [...faceHeights({ frame, thickness }), 0])
    for (const p of outlines(a, height))
      for (const q of outlines(b, height)) least = Math.min(least, overlaps(p, q) ? 0 : edgeDistance(p, q));
  return least;
}
