/** Closed forms for round ducts: in a round opening, and in a rectangular one, whose corners hold the widest gap. */
import { EQUAL, type Range } from './axis.js';

/** A round duct in a round opening; all whole mm. */
export interface RoundProblem {
  /** From the middle of the opening to the middle of the duct. */
  readonly offset: readonly [number, number];
  /** Half of what the opening's diameter is larger than the duct's. */
  readonly clear: number;
  readonly allowed: Range;
  /** How far the duct may shift along either axis. */
  readonly shift: readonly [Range, Range];
  /** How much larger (+) or smaller (-) the opening's diameter may become. */
  readonly reach: Range;
}

export interface RoundSolution {
  readonly shift: readonly [number, number];
  readonly diameter: number;
  readonly cost: number;
}

/**
 * The narrowest gap is `clear - e`, the widest `clear + e`, where `e` is how far the middles lie apart: both are in range
 * while `e` is no more than the smaller of `clear - from` and `to - clear`. For each diameter, and each shift along one
 * axis, that says at once how far the other axis has to go.
 */
export function solveRound(
  { offset, clear, allowed, shift, reach }: RoundProblem,
  rates: { readonly move: number; readonly widen: number; readonly rebuild: number },
): RoundSolution | undefined {
  let best: RoundSolution | undefined;
  const shifts = wholeWithin(shift[0]);
  for (const diameter of wholeWithin(reach)) {
    const work = diameter > 0 ? rates.widen * diameter : -rates.rebuild * diameter;
    if (best && work >= best.cost - EQUAL) continue;
    const most = Math.min(clear + diameter / 2 - allowed.from, allowed.to - clear - diameter / 2);
    if (most < -ROUNDING) continue;
    for (const x of shifts) {
      const y = leastInto(offset[1], most ** 2 - (offset[0] + x) ** 2, shift[1]);
      if (y === undefined) continue;
      const cost = work + rates.move * (Math.abs(x) + Math.abs(y));
      if (!best || cost < best.cost - EQUAL) best = { shift: [x, y], diameter, cost };
    }
  }
  return best;
}

/** The smallest whole shift after which the square of the offset is no more than this. */
function leastInto(offset: number, square: number, { from, to }: Range): number | undefined {
  if (square < -ROUNDING) return undefined;
  const most = Math.sqrt(Math.max(0, square));
  const low = Math.max(Math.ceil(-most - offset - ROUNDING), Math.ceil(from));
  const high = Math.min(Math.floor(most - offset + ROUNDING), Math.floor(to));
  return low > high ? undefined : Math.max(low, Math.min(0, high)) + 0;
}

/** Of floating point, not of lengths. */
const ROUNDING = 1e-6;

/** Whole numbers by their size, the positive one first. */
function wholeWithin({ from, to }: Range): number[] {
  const [low, high] = [Math.ceil(from), Math.floor(to)];
  return Array.from({ length: Math.max(0, high - low + 1) }, (_, i) => low + i).sort(
    (a, b) => Math.abs(a) - Math.abs(b) || b - a,
  );
}

/**
 * The widest gap of a round duct towards a corner of its rectangular opening: the point of its outline from which both
 * edges are equally far.
 */
export function cornerGap(radius: number, one: number, other: number): number {
  const [a, b] = [one + radius, other + radius];
  const apart = Math.abs(a - b);
  // The nearer edge is further from no point than from the one that looks away from the other edge.
  if (apart >= radius) return Math.min(a, b);
  return (a + b - Math.sqrt(2 * radius ** 2 - apart ** 2)) / 2;
}

/** How wide the gap on the other side of the corner may be where this one is `one` and the corner may have `most`. */
export function besideCorner(radius: number, one: number, most: number): number {
  const across = one + radius - most;
  if (across <= 0) return Number.POSITIVE_INFINITY;
  return across > radius ? Number.NEGATIVE_INFINITY : most - radius + Math.sqrt(radius ** 2 - across ** 2);
}
