/**
 * The linear relaxation over all patterns (Gilmore and Gomory 1961): patterns are made as they pay, by the values that the
 * relaxation gives to parts. Whenever the best patterns are known, those values prove a bound.
 */
import { leastCost } from './bounds.js';
import type { Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import type { Relaxation, Relaxed } from './solver.js';
import type { Standing } from './standing.js';

/** Values of parts in whole numbers, and the most that a piece of each stock holds of them. */
export interface Proof {
  readonly bound: number;
  readonly values: readonly number[];
  readonly held: readonly number[];
}

/** Values are whole numbers of this share of the dearest stock. */
const FINE = 2 ** 34;
const ROUNDS = 1500;
/** Patterns that are added for each stock in a round, each of other parts. */
const AT_ONCE = 6;
/** What a pattern has to save to pay: below this it is noise of the solver. */
const SAVES = 1e-9;
/** As far as the objective of the solver is trusted when it is rounded up, which only ends the search. */
const TRUSTED = 1e-6;

export async function generateColumns(
  problem: Problem,
  pricing: Pricing,
  relaxation: Relaxation,
  standing: Standing,
): Promise<{ readonly relaxed: Relaxed; readonly proof: Proof | undefined } | undefined> {
  const counts = problem.kinds.map(({ count }) => count);
  let proof: Proof | undefined;
  let relaxed = relaxation.solve();
  for (let round = 0; relaxed && round < ROUNDS; round++) {
    let added = relaxation.add(payingPatterns(problem, pricing, relaxed, counts));
    if (added === 0) {
      const exact = proofBy(problem, pricing, relaxed, counts);
      if (!exact) break;
      if (!proof || exact.bound >= proof.bound) proof = exact;
      standing.prove(exact.bound, problem.lengthsOnly, 'by the linear relaxation over all patterns');
      added = relaxation.add(exact.paying);
    }
    if (added === 0 || standing.done || Math.ceil(relaxed.cost - TRUSTED) <= standing.bound) break;
    relaxed = relaxation.solve();
    if (round % 8 === 0) await standing.pause();
  }
  return relaxed && { relaxed, proof };
}

const scaleOf = ({ sheets }: Problem): number => FINE / Math.max(...sheets.map(({ cost }) => cost));

export const wholeValues = (problem: Problem, { values }: Relaxed): number[] =>
  values.map((value) => Math.floor(value * scaleOf(problem)));

/** What a pattern of a stock has to be worth to pay. */
const asked = (problem: Problem, { spared }: Relaxed, sheet: number): number =>
  (problem.sheets[sheet]!.cost + spared[sheet]! + SAVES) * scaleOf(problem);

/** Patterns that pay, found quickly. */
export function payingPatterns(problem: Problem, pricing: Pricing, relaxed: Relaxed, most: readonly number[]) {
  const values = wholeValues(problem, relaxed);
  return problem.sheets.flatMap(({ onHand }, sheet) => {
    if (onHand === 0) return [];
    const left = [...most];
    const patterns = [];
    while (patterns.length < AT_ONCE) {
      const priced = pricing.fill(sheet, values, left);
      if (!priced || priced.value <= asked(problem, relaxed, sheet)) break;
      patterns.push(priced.pattern);
      priced.pattern.takes.forEach((take, kind) => {
        if (take > 0) left[kind] = 0;
      });
    }
    return patterns;
  });
}

/** Undefined where the best patterns can't be known. */
function proofBy(problem: Problem, pricing: Pricing, relaxed: Relaxed, counts: readonly number[]) {
  const values = wholeValues(problem, relaxed);
  const held: number[] = [];
  const paying = [];
  for (const sheet of problem.sheets.keys()) {
    const priced = pricing.best(sheet, values, counts);
    if (!priced) return undefined;
    held.push(priced.value);
    if (priced.value > asked(problem, relaxed, sheet)) paying.push(priced.pattern);
  }
  return { values, held, paying, bound: leastCost(problem, values, held) };
}
