/** A penetration as the solver sees it: gaps on the two axes of its elevation, and what of its opening may change. */

import { refOf } from '../element-refs.js';
import { fitShape } from '../geometry/fit.js';
import { boxCentre } from '../geometry/polygon.js';
import { dot, lineAngle, scale } from '../geometry/vector.js';
import type { ChangeOpening, ElementRef, Penetration, Side, Vec3 } from '../model.js';
import { slideThrough } from '../opening-size.js';
import { PARALLEL } from '../tolerances.js';
import type { MayChange } from './allowed.js';
import type { Edge, Pair, Range } from './axis.js';
import type { Combination } from './ways.js';

export const AXES = [
  { low: 'left', high: 'right' },
  { low: 'bottom', high: 'top' },
] as const satisfies readonly { readonly low: Side; readonly high: Side }[];

/** Its four sides can be told apart: the edges of a rectangular opening, square in the barrier's plane. */
export function hasEdges({ opening, outlines, gaps }: Penetration): boolean {
  const [outline] = outlines.opening;
  if (
    opening?.shape !== 'rectangular' ||
    !outline ||
    AXES.some(({ low, high }) => gaps[low] === null || gaps[high] === null)
  )
    return false;
  const [u, v] = fitShape(outline).along;
  return Math.min(Math.abs(u), Math.abs(v)) < Math.sin((PARALLEL * Math.PI) / 180);
}

/** Leaves have an opening each, and what changes in one of them would have to change in all. */
const isOneLeaf = ({ barrier }: Penetration): boolean => barrier.leaves.length === 0;

/** How far the duct moves along each axis of the elevation from one face to the other. */
export function slideOf(p: Penetration): readonly [number, number] {
  const [right, up] = slideThrough(p, p.barrier.thickness ?? 0);
  return [Math.abs(right), Math.abs(up)];
}

/** The gaps along one axis; a side that faces another service has no edge to move. */
export function pairOf(
  p: Penetration,
  axis: 0 | 1,
  range: Range,
  { widenBy, rebuildBy }: Pick<Combination, 'widenBy' | 'rebuildBy'>,
  { sides }: Pick<MayChange, 'sides'>,
  sign: 1 | -1 = 1,
): Pair {
  const allowed = { from: range.from, to: range.to - slideOf(p)[axis] };
  const edge = (side: Side): Edge => {
    const isFixed = !isOneLeaf(p) || p.gaps.facing[side] !== undefined || !sides.includes(side);
    return { gap: p.gaps[side]!, allowed, reach: isFixed ? NONE : { from: -rebuildBy, to: widenBy } };
  };
  return { low: edge(AXES[axis].low), high: edge(AXES[axis].high), sign };
}

const NONE: Range = { from: 0, to: 0 };

/** Which axis of the elevation a direction of space runs along, and which way; undefined: neither. */
export function axisAlong({ frame }: Penetration, way: Vec3): { axis: 0 | 1; sign: 1 | -1 } | undefined {
  const ways = [frame.right, frame.up];
  const axis = ways.findIndex((one) => lineAngle(one, way) < PARALLEL);
  return axis < 0 ? undefined : { axis: axis as 0 | 1, sign: dot(ways[axis]!, way) > 0 ? 1 : -1 };
}

/** Of a round duct: half of what its round opening is larger, and how far its middle is off; undefined: either is not round. */
export function roundIn(p: Penetration): { clear: number; offset: readonly [number, number] } | undefined {
  const [duct, opening] = [p.outlines.duct[0], p.outlines.opening[0]];
  const { min, max } = p.gaps;
  if (p.duct.shape !== 'circular' || p.opening?.shape !== 'circular' || !duct || !opening) return undefined;
  if (min === null || max === null || p.skew > PARALLEL) return undefined;
  const [d, o] = [boxCentre([duct]), boxCentre([opening])];
  return { clear: (p.opening.width - p.duct.diameter!) / 2, offset: [d[0] - o[0], d[1] - o[1]] };
}

export const mayReshape = (p: Penetration): boolean => isOneLeaf(p) && p.opening !== null;

export function openingChange(
  p: Penetration,
  by: { readonly sides?: Partial<ChangeOpening['sides']>; readonly diameter?: number },
): ChangeOpening[] {
  const sides = { top: 0, bottom: 0, left: 0, right: 0, ...by.sides };
  const diameter = by.diameter ?? 0;
  if (diameter === 0 && Object.values(sides).every((one) => one === 0)) return [];
  const { barrier, id } = p;
  return [{ kind: 'changeOpening', penetration: id, barrier: refOf(barrier), opening: openingRef(p), sides, diameter }];
}

export const openingRef = ({ opening }: Penetration): ElementRef | null =>
  opening?.globalId ? { model: opening.model, globalId: opening.globalId } : null;

/** World coordinates of the middle of the duct's outline in the barrier's middle plane. */
export function ductCentre({ position, frame, outlines }: Penetration): Vec3 {
  const [x, y] = outlines.duct.length > 0 ? boxCentre(outlines.duct) : [0, 0];
  const [right, up] = [scale(frame.right, x), scale(frame.up, y)];
  return [position[0] + right[0] + up[0], position[1] + right[1] + up[1], position[2] + right[2] + up[2]];
}
