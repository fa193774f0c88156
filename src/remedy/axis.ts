/**
 * The smallest change along one axis, in closed form. A duct shifts by `s`, the two edges of each opening that it passes
 * go outwards by `low` and `high` (negative: the barrier is built up), all whole millimetres, and each gap has to lie in
 * its range:
 *
 *     low gap  = gapLow + s + low     within its range
 *     high gap = gapHigh - s + high   within its range
 *
 * For a given shift each edge by itself goes as little as its range lets it, so that only the shift is left; what that
 * costs is straight between the few shifts at which an edge begins or ceases to move, or comes to what it may. The least
 * is at one of those.
 */

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** One side of an opening. */
export interface Edge {
  /** As it is, mm; negative where the duct lies in the barrier. */
  readonly gap: number;
  /** That the gap may have afterwards. */
  readonly allowed: Range;
  /** How far the edge may go: from what may be built up (0 or less) to what may be cut away. */
  readonly reach: Range;
}

export interface Pair {
  readonly low: Edge;
  readonly high: Edge;
  /** -1: the axis runs against the opening's own, as behind a barrier that is seen from its other side. */
  readonly sign: 1 | -1;
}

export interface AxisProblem {
  readonly shift: Range;
  readonly pairs: readonly Pair[];
}

/** For each mm. */
export interface Rates {
  readonly move: number;
  readonly widen: number;
  readonly rebuild: number;
}

export interface AxisSolution {
  readonly shift: number;
  /** Of each pair, in the order of the problem. */
  readonly edges: readonly { readonly low: number; readonly high: number }[];
  readonly cost: number;
}

/** @returns undefined where nothing within what may change does it; of equal costs the smaller shift, then the positive one */
export function solveAxis({ shift, pairs }: AxisProblem, rates: Rates): AxisSolution | undefined {
  const edges = pairs.flatMap(({ low, high, sign }) => [
    { edge: low, sign },
    { edge: high, sign: -sign as 1 | -1 },
  ]);
  const range = { from: Math.ceil(shift.from), to: Math.floor(shift.to) };
  const turns = edges.flatMap(({ edge, sign }) => turnsOf(edge).map((gain) => sign * gain));
  const shifts = [0, range.from, range.to, ...turns]
    .filter((s) => s >= range.from && s <= range.to)
    .sort((a, b) => Math.abs(a) - Math.abs(b) || b - a);
  let best: AxisSolution | undefined;
  for (const s of new Set(shifts.map((one) => one + 0))) {
    const moved = edges.map(({ edge, sign }) => leastMove(edge, sign * s));
    if (moved.includes(undefined)) continue;
    const by = moved as number[];
    const cost = rates.move * Math.abs(s) + by.reduce((sum, one) => sum + costOf(one, rates), 0);
    if (!best || cost < best.cost - EQUAL)
      best = { shift: s, edges: pairs.map((_, i) => ({ low: by[2 * i]!, high: by[2 * i + 1]! })), cost };
  }
  return best;
}

/** Costs that differ by less are equal: rounding of sums. */
export const EQUAL = 1e-9;

const costOf = (by: number, { widen, rebuild }: Rates): number => (by > 0 ? widen * by : -rebuild * by);

/** Whole mm that the edge has to go once the shift has added so much to its gap; undefined: further than it may. */
function leastMove({ gap, allowed, reach }: Edge, gain: number): number | undefined {
  const from = Math.max(whole(allowed.from - gap, Math.ceil) - gain, Math.ceil(reach.from));
  const to = Math.min(whole(allowed.to - gap, Math.floor) - gain, Math.floor(reach.to));
  return from > to ? undefined : Math.max(from, Math.min(0, to)) + 0;
}

/** Gains of the gap at which the least move of the edge is not straight: it begins or ceases, or comes to its reach. */
function turnsOf({ gap, allowed, reach }: Edge): number[] {
  const [from, to] = [whole(allowed.from - gap, Math.ceil), whole(allowed.to - gap, Math.floor)];
  return [from, to, from - Math.floor(reach.to), to - Math.ceil(reach.from)].filter(Number.isFinite);
}

/** Rounded to the safe side; 0.1 mm that floating point made of a whole number is none. */
const whole = (mm: number, round: (mm: number) => number): number => round(Number(mm.toFixed(6)));
