/** What no plan costs less than. Whole numbers throughout: a bound is rounded up, never a tolerance off. */
import type { Lie, Problem, Sheet } from './problem.js';
import { liesOn } from './problem.js';

/**
 * The least whole cost of stock that holds all parts, by any values of them.
 *
 * Whatever values parts are given: what is bought has to hold their sum, less what the stock on hand can hold.
 * (Farley 1990 for the values of a linear programme; for sizes it is the bound by material.)
 *
 * @param values of one part of each kind, whole numbers
 * @param held the most value that one piece of each stock holds
 */
export function leastCost(problem: Problem, values: readonly number[], held: readonly number[]): number {
  let total = problem.kinds.reduce((sum, { count }, i) => sum + BigInt(count) * BigInt(values[i]!), 0n);
  for (const [i, { cost, onHand }] of problem.sheets.entries())
    if (cost === 0) total -= BigInt(onHand) * BigInt(held[i]!);
  if (total <= 0n) return 0;
  const costs = problem.sheets.flatMap(({ cost }, i) => {
    if (cost === 0 || held[i] === 0) return [];
    const holds = BigInt(held[i]!);
    return [Number((total * BigInt(cost) + holds - 1n) / holds)];
  });
  return nextSum(
    problem.sheets.map(({ cost }) => cost).filter((cost) => cost > 0),
    Math.min(...costs),
  );
}

/** Values of parts in whole numbers, and the most that a piece of each stock holds of them. */
export interface Proof {
  readonly bound: number;
  readonly values: readonly number[];
  readonly held: readonly number[];
}

/** Products are rounded in their last digits; to ask a little less does no harm. */
const ROUNDING = 1000;

/**
 * What a pattern of each stock is worth at least in a plan that costs less than `beat`: the values that prove the bound
 * show how much a plan loses by each pattern that is worth less than the best.
 */
export function leastWorth(problem: Problem, { values, held }: Proof, beat: number): number[] {
  const { sheets, kinds } = problem;
  const worth = (i: number): number => held[i]! / sheets[i]!.cost;
  const bought = sheets.flatMap(({ cost }, i) => (cost > 0 ? [i] : []));
  const best = Math.max(...bought.map(worth));
  const total = kinds.reduce((sum, { count }, i) => sum + count * values[i]!, 0);
  const free = sheets.reduce((sum, { cost, onHand }, i) => sum + (cost === 0 ? onHand * held[i]! : 0), 0);
  // Costs are whole numbers, so that what is better costs at least one less.
  const slack = (beat - 1) * best - (total - free);
  return sheets.map(({ cost }, i) => (cost === 0 ? held[i]! : cost * best) - slack - ROUNDING);
}

/** Sums looked at to round a bound up to one. */
const SUMS = 1e6;

/** The least sum of prices that is no less. */
function nextSum(prices: readonly number[], least: number): number {
  const dearest = Math.max(...prices);
  if (prices.length === 1) return Math.ceil(least / dearest) * dearest;
  if (least + dearest > SUMS) return least;
  const reached = new Uint8Array(least + dearest + 1);
  reached[0] = 1;
  for (let sum = 0; sum < reached.length; sum++) {
    if (!reached[sum]) continue;
    if (sum >= least) return sum;
    for (const price of prices) if (sum + price < reached.length) reached[sum + price] = 1;
  }
  return least;
}

/** By the material that parts take, with a kerf each. Holds for every plan. */
export function materialBound(problem: Problem): number {
  const size = ({ length, width, kerf }: Pick<Sheet, 'length' | 'width' | 'kerf'>): number =>
    (length + kerf) * (problem.lengthsOnly ? 1 : width + kerf);
  // The least kerf, so that it is true of every stock.
  const kerf = Math.min(...problem.sheets.map((sheet) => sheet.kerf));
  return leastCost(
    problem,
    problem.kinds.map(({ length, width }) => size({ length, width, kerf })),
    problem.sheets.map(size),
  );
}

/** A size as a whole number, so that what fits beside each other within the capacity never sums to more than `of`. */
interface Scale {
  readonly of: number;
  readonly size: (size: number) => number;
}

/** How many scales are tried along each direction. */
const SCALES = 40;

/**
 * Dual feasible functions (Fekete and Schepers 2001; from memory): the size itself, sizes below an edge taken for none and
 * those that leave less than it for all, sizes counted in (k + 1)ths.
 */
function scalesOf(capacity: number, sizes: readonly number[]): Scale[] {
  const edges = [...new Set(sizes)].filter((size) => 2 * size <= capacity).sort((a, b) => b - a);
  const step = Math.max(1, edges.length / SCALES);
  const chosen = edges.filter((_, i) => Math.floor(i / step) !== Math.floor((i - 1) / step));
  return [
    { of: capacity, size: (size) => size },
    ...chosen.map((edge): Scale => {
      const scaled = (size: number): number => (size > capacity - edge ? capacity : size < edge ? 0 : size);
      return { of: capacity, size: scaled };
    }),
    ...[1, 2, 3, 4, 5, 6].map((k): Scale => {
      const scaled = (size: number): number =>
        ((k + 1) * size) % capacity === 0 ? k * size : Math.floor(((k + 1) * size) / capacity) * capacity;
      return { of: k * capacity, size: scaled };
    }),
  ];
}

/** By dual feasible functions along and across the stock. Holds for every plan; 0 where several stocks are bought. */
export function scaledBound(problem: Problem): number {
  const [stock, ...others] = [...problem.sheets].sort((a, b) => b.cost - a.cost);
  const within = ({ cost, length, width, kerf }: Sheet): boolean =>
    cost === 0 && length <= stock!.length && width <= stock!.width && kerf === stock!.kerf;
  if (!others.every(within)) return 0;
  const lies = liesOn(problem, stock!);
  const along = scalesOf(
    stock!.length + stock!.kerf,
    lies.map((lie) => lie.along),
  );
  const none: Scale = { of: 1, size: () => 1 };
  const across = problem.lengthsOnly
    ? [none]
    : scalesOf(
        stock!.width + stock!.kerf,
        lies.map((lie) => lie.across),
      );
  let bound = 0;
  for (const f of along)
    for (const g of across) {
      const values = leastValues(problem, lies, ({ along: length, across: width }) => f.size(length) * g.size(width));
      bound = Math.max(
        bound,
        leastCost(
          problem,
          values,
          problem.sheets.map(() => f.of * g.of),
        ),
      );
    }
  return bound;
}

/** A part that may turn counts as the lesser of its two ways. */
export function leastValues(problem: Problem, lies: readonly Lie[], worth: (lie: Lie) => number): number[] {
  const values = problem.kinds.map(() => Infinity);
  for (const lie of lies) values[lie.kind] = Math.min(values[lie.kind]!, worth(lie));
  return values;
}
