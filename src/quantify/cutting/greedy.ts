/** A plan piece by piece of stock: always the one that is filled best by what is left. */
import { cutFrom, type Left, leftOf, nothingLeft } from './left.js';
import { type Pattern, type Solution, solutionOf } from './pattern.js';
import type { Priced, Pricing } from './pricing.js';
import type { Problem } from './problem.js';

/** By size, and so that great parts count for more than small ones of the same size together. */
export function valuesToFillBy({ kinds, lengthsOnly }: Problem): number[][] {
  const sizes = kinds.map(({ length, width }) => (lengthsOnly ? length : length * width));
  const greatest = Math.max(...sizes);
  const leaning = (by: number): number[] => sizes.map((size) => Math.ceil(size * 16 * (1 + (by * size) / greatest)));
  return [leaning(0.1), leaning(0), leaning(0.5)];
}

/** Undefined where something is left that nothing takes. */
export function greedy(
  problem: Problem,
  pricing: Pricing,
  values: readonly number[],
  left = leftOf(problem),
): Solution | undefined {
  const cuts: { pattern: Pattern; times: number }[] = [];
  while (!nothingLeft(left)) {
    const best = bestFilled(problem, pricing, values, left);
    if (!best) return undefined;
    cuts.push({ pattern: best, times: cutFrom(left, best, Infinity) });
  }
  return solutionOf(problem, cuts);
}

/** Cuts the rest of a plan piece by piece; undefined where something is left that nothing takes. */
export function finished(problem: Problem, pricing: Pricing, cuts: Solution['cuts'], left: Left): Solution | undefined {
  const rest = greedy(problem, pricing, valuesToFillBy(problem)[0]!, left);
  return rest && solutionOf(problem, [...cuts, ...rest.cuts]);
}

/** What is on hand comes first, then the most value for its cost. */
function bestFilled(problem: Problem, pricing: Pricing, values: readonly number[], left: Left): Pattern | undefined {
  const most = someOf(left.counts);
  let best: (Priced & { readonly worth: number; readonly bought: boolean }) | undefined;
  problem.sheets.forEach(({ cost, length, width }, sheet) => {
    if (left.onHand[sheet] === 0) return;
    const priced = pricing.fill(sheet, values, most, STEPS);
    if (!priced) return;
    const bought = cost > 0;
    const worth = priced.value / (length * (width || 1));
    if (!best || Number(best.bought) - Number(bought) > 0 || (best.bought === bought && worth > best.worth))
      best = { ...priced, worth, bought };
  });
  return best?.pattern;
}

/** Kinds that one piece of stock is filled from: more of them fill it no better, and take longer. */
const KINDS = 48;
const STEPS = 1e6;

function someOf(counts: readonly number[]): number[] {
  const left = counts.flatMap((count, kind) => (count > 0 ? [kind] : []));
  if (left.length <= KINDS) return [...counts];
  const step = left.length / KINDS;
  const chosen = new Set(Array.from({ length: KINDS }, (_, i) => left[Math.floor(i * step)]!));
  return counts.map((count, kind) => (chosen.has(kind) ? count : 0));
}
