/**
 * The linear relaxation over all patterns (Gilmore and Gomory 1961): patterns are made as they pay, by the values that the
 * relaxation gives to parts. Whenever the best patterns are known, those values prove a bound.
 */
import { leastCost, type Proof } from './bounds.js';
import type { Pattern } from './pattern.js';
import type { Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import type { Relaxation, Relaxed } from './solver.js';
import type { Standing } from './standing.js';

/** Values are whole numbers of this share of the dearest stock. */
const FINE = 2 ** 34;
const ROUNDS = 1500;
/** Share of the effort that goes into making patterns that pay, and steps of one look for some. */
const SHARE = 0.7;
const STEPS = 1e7;

/** What a pattern has to save to pay: below this it is noise of the solver. */
const SAVES = 1e-9;
/** As far as the objective of the solver is trusted when it is rounded up, which only ends the search. */
const TRUSTED = 1e-6;

export interface Generated {
  readonly relaxed: Relaxed;
  /** Undefined where the best patterns were never known. */
  readonly proof: Proof | undefined;
}

/** @param toTheEnd also where the bound can rise no more: the values that prove it become those of the relaxation itself */
export async function generateColumns(
  problem: Problem,
  pricing: Pricing,
  relaxation: Relaxation,
  standing: Standing,
  toTheEnd: boolean,
): Promise<Generated | undefined> {
  const counts = problem.kinds.map(({ count }) => count);
  let proof: Proof | undefined;
  let relaxed = relaxation.solve();
  for (let round = 0; relaxed && round < ROUNDS && pricing.effort.has(1); round++) {
    let added = relaxation.add(payingPatterns(problem, pricing, relaxed, counts, SHARE));
    if (added === 0) {
      const exact = proofBy(problem, pricing, relaxed, counts);
      if (!exact) break;
      if (!proof || exact.bound >= proof.bound) proof = exact;
      standing.prove(exact.bound, problem.lengthsOnly, 'by the linear relaxation over all patterns');
      added = relaxation.add(exact.paying);
    }
    if (added === 0 || standing.done) break;
    if (!toTheEnd && Math.ceil(relaxed.cost - TRUSTED) <= standing.bound) break;
    relaxed = relaxation.solve();
    if (round % 8 === 0) await standing.pause();
  }
  return relaxed && { relaxed, proof };
}

const scaleOf = ({ sheets }: Problem): number => FINE / Math.max(...sheets.map(({ cost }) => cost));

const wholeValues = (problem: Problem, { values }: Relaxed): number[] =>
  values.map((value) => Math.floor(value * scaleOf(problem)));

/** What a pattern of a stock has to be worth to pay. */
const asked = (problem: Problem, { spared }: Relaxed, sheet: number): number =>
  (problem.sheets[sheet]!.cost + spared[sheet]! + SAVES) * scaleOf(problem);

/**
 * Patterns that pay, found quickly.
 *
 * @param share of the effort beyond which none are looked for
 */
export function payingPatterns(
  problem: Problem,
  pricing: Pricing,
  relaxed: Relaxed,
  most: readonly number[],
  share: number,
): Pattern[] {
  const values = wholeValues(problem, relaxed);
  const atOnce = Math.min(40, Math.max(6, Math.floor(problem.kinds.length / 10)));
  return problem.sheets.flatMap(({ onHand }, sheet) => {
    if (onHand === 0) return [];
    const left = [...most];
    const patterns: Pattern[] = [];
    while (patterns.length < atOnce && pricing.effort.has(share)) {
      const priced = pricing.fill(sheet, values, worthiest(problem, values, left), STEPS);
      if (!priced || priced.value <= asked(problem, relaxed, sheet)) break;
      patterns.push(priced.pattern);
      priced.pattern.takes.forEach((take, kind) => {
        if (take > 0) left[kind] = 0;
      });
    }
    return patterns;
  });
}

/** Kinds that are looked at where every kind is not. */
const KINDS = 64;

/** Nothing but the kinds that are worth most for their size. */
function worthiest({ kinds, lengthsOnly }: Problem, values: readonly number[], left: readonly number[]): number[] {
  const asked = left.flatMap((count, kind) => (count > 0 && values[kind]! > 0 ? [kind] : []));
  const density = (kind: number): number => {
    const { length, width } = kinds[kind]!;
    return values[kind]! / (lengthsOnly ? length : length * width);
  };
  const chosen = new Set(asked.sort((a, b) => density(b) - density(a) || a - b).slice(0, KINDS));
  return left.map((count, kind) => (chosen.has(kind) ? count : 0));
}

/** Undefined where the best patterns can't be known. */
function proofBy(problem: Problem, pricing: Pricing, relaxed: Relaxed, counts: readonly number[]) {
  const values = wholeValues(problem, relaxed);
  const held: number[] = [];
  const paying: Pattern[] = [];
  for (const sheet of problem.sheets.keys()) {
    const priced = pricing.best(sheet, values, counts);
    if (!priced) return undefined;
    held.push(priced.value);
    if (priced.value > asked(problem, relaxed, sheet)) paying.push(priced.pattern);
  }
  return { values, held, paying, bound: leastCost(problem, values, held) };
}
