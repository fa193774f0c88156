/**
 * Leaves: elements that stand face to face and are passed by the same ductwork through holes that overlap make one
 * barrier. A wall with its lining, or the two skins of a cavity wall, is packed and sealed as one.
 */
import { fileUnder } from '../collect.js';
import { fromPlane, toPlane } from '../geometry/frame.js';
import { boxCentre, overlaps } from '../geometry/polygon.js';
import { add, dot, lineAngle, scale, sub } from '../geometry/vector.js';
import type { Polygon, Vec2 } from '../model.js';
import { CONTACT, LEAF_DISTANCE, PARALLEL } from '../tolerances.js';
import type { Group } from './groups.js';
import { outlinesOf } from './intrusions.js';
import { type FoundOpening, findOpening } from './openings.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

/** One crossing of one element of the building, with its opening. */
export interface Leaf {
  readonly group: Group;
  readonly opening: FoundOpening | undefined;
  /** Middle of the duct on the plate's middle plane, or where the duct is nearest to it. */
  readonly centre: Vec2;
}

/** One crossing of one barrier, of one leaf or more; the first leaf names the barrier. */
export interface LeafStack {
  readonly leaves: readonly [Leaf, ...Leaf[]];
  /** From the first outermost face to the last. */
  readonly plate: Plate;
}

/** Every piece of ductwork of the crossing, once. */
export const piecesOf = ({ leaves }: LeafStack): Piece[] => [
  ...new Set(leaves.flatMap((leaf) => leaf.group.intrusions.map((i) => i.piece))),
];

export function readLeaf(group: Group): Leaf {
  const { gross, plate, intrusions } = group;
  const nearest = [...intrusions].sort((a, b) => middleDistance(a) - middleDistance(b))[0]!;
  const height = Math.max(nearest.low, Math.min(nearest.high, 0));
  const centre = boxCentre(outlinesOf(nearest.piece, plate, height));
  return { group, centre, opening: findOpening(gross, plate, centre) };
}

/** 0 for what fills the middle. */
const middleDistance = ({ low, high }: { readonly low: number; readonly high: number }): number =>
  Math.max(low, -high, 0);

export function stackLeaves(leaves: readonly Leaf[]): LeafStack[] {
  const stackOf = new Map<Leaf, Leaf[]>();
  const passedBy = new Map<Piece, Leaf[]>();
  for (const leaf of leaves) {
    const pieces = leaf.group.intrusions.map((i) => i.piece);
    const others = new Set(pieces.flatMap((piece) => passedBy.get(piece) ?? []));
    let stack = [leaf];
    stackOf.set(leaf, stack);
    for (const other of others)
      if (!stack.includes(other) && isOneBarrier(leaf, other)) {
        stack = [...stackOf.get(other)!, ...stack];
        for (const member of stack) stackOf.set(member, stack);
      }
    for (const piece of pieces) fileUnder(passedBy, piece, leaf);
  }
  return [...new Set(stackOf.values())].map((stack) => {
    const sorted = [...stack].sort(byRating) as [Leaf, ...Leaf[]];
    return { leaves: sorted, plate: combinedPlate(sorted) };
  });
}

/** Of two leaves that the same piece passes. */
function isOneBarrier(a: Leaf, b: Leaf): boolean {
  if (a.group.gross === b.group.gross || a.group.crossing !== 'through' || b.group.crossing !== 'through') return false;
  const [p, q] = [a.group.plate, b.group.plate];
  if (lineAngle(p.frame.z, q.frame.z) > PARALLEL) return false;
  const between = Math.abs(dot(sub(q.frame.origin, p.frame.origin), p.frame.z)) - (p.thickness + q.thickness) / 2;
  if (between > LEAF_DISTANCE || between < -CONTACT) return false;
  if (!a.opening || !b.opening) return !a.opening && !b.opening;
  const [holeA, holeB] = [a.opening.outlineAt(0, a.centre), b.opening.outlineAt(0, b.centre)];
  return holeA !== undefined && holeB !== undefined && overlaps(holeA, inPlaneOf(holeB, q, p));
}

/** Across the small distance between leaves the outline keeps its place. */
const inPlaneOf = (outline: Polygon, from: Plate, to: Plate): Polygon =>
  outline.map((p) => toPlane(to.frame, fromPlane(from.frame, p)));

/** The rated leaf first; of several the one with the lower rating, which counts; then the thicker. */
function byRating(a: Leaf, b: Leaf): number {
  const rank = ({ group }: Leaf): number => {
    const { state, integrity, insulation, duration } = group.gross.barrier.rating;
    if (state !== 'stated' && state !== 'durationOnly') return Infinity;
    const minutes = [integrity, insulation, duration].filter((m): m is number => typeof m === 'number');
    return minutes.length > 0 ? Math.min(...minutes) : 1e6;
  };
  const [x, y] = [rank(a), rank(b)];
  return x === y ? b.group.plate.thickness - a.group.plate.thickness || byGlobalId(a, b) : x - y;
}

const byGlobalId = (a: Leaf, b: Leaf): number =>
  a.group.gross.barrier.globalId < b.group.gross.barrier.globalId ? -1 : 1;

function combinedPlate(leaves: readonly [Leaf, ...Leaf[]]): Plate {
  const { frame } = leaves[0].group.plate;
  const faces = leaves.flatMap(({ group: { plate } }) => {
    const middle = dot(sub(plate.frame.origin, frame.origin), frame.z);
    return [middle - plate.thickness / 2, middle + plate.thickness / 2];
  });
  const [low, high] = [Math.min(...faces), Math.max(...faces)];
  return { frame: { ...frame, origin: add(frame.origin, scale(frame.z, (low + high) / 2)) }, thickness: high - low };
}
