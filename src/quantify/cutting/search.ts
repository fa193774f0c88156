/** Looks for the plan that buys least, and proves how much less none can buy. Stops as soon as the two meet. */
import type { Highs } from 'highs';
import { BarPricing } from './bars.js';
import { materialBound, scaledBound } from './bounds.js';
import { generateColumns, type Proof } from './column-generation.js';
import { dive } from './dive.js';
import { Effort } from './effort.js';
import { everyBar } from './every-bar.js';
import { everySheet } from './every-sheet.js';
import { greedy, valuesToFillBy } from './greedy.js';
import type { Pattern, Solution } from './pattern.js';
import type { Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import { SheetPricing } from './sheets.js';
import { bestOf, Relaxation, type Relaxed } from './solver.js';
import type { Standing } from './standing.js';

/** Steps where the options don't say. */
const EFFORT = 3e9;
/** Patterns that an integer programme is asked of, where it proves nothing, and iterations that it may take. */
const COLUMNS = 2000;
const ITERATIONS = 50_000;

export async function search(
  problem: Problem,
  standing: Standing,
  solver: () => Promise<Highs>,
  steps = EFFORT,
): Promise<void> {
  const effort = new Effort(steps);
  const pricing = problem.lengthsOnly ? new BarPricing(problem, effort) : new SheetPricing(problem, effort);
  standing.prove(materialBound(problem), true, 'by the material that parts and cuts take');
  standing.prove(scaledBound(problem), true, 'by dual feasible functions of the sizes');
  const plans: Solution[] = [];
  for (const values of valuesToFillBy(problem)) {
    const plan = greedy(problem, pricing, values);
    if (plan) plans.push(plan);
    standing.offer(plan);
    if (standing.done) return;
    await standing.pause();
  }
  const highs = await solver();
  const relaxation = new Relaxation(highs, problem);
  try {
    relaxation.add(plans.flatMap(({ cuts }) => cuts.map(({ pattern }) => pattern)));
    await byColumns(highs, problem, pricing, relaxation, standing);
  } finally {
    relaxation.dispose();
  }
}

async function byColumns(
  highs: Highs,
  problem: Problem,
  pricing: Pricing,
  relaxation: Relaxation,
  standing: Standing,
): Promise<void> {
  const generated = await generateColumns(problem, pricing, relaxation, standing);
  if (standing.done || !generated) return;
  standing.offer(await dive(problem, pricing, relaxation, standing));
  if (standing.done) return;
  if (byEveryPattern(highs, problem, generated.proof, standing)) return;
  await standing.pause();
  const likely = likeliest(problem, relaxation.patterns, generated.relaxed);
  standing.offer(bestOf(highs, problem, likely, standing.cost, ITERATIONS).solution);
}

/** Exact where there are few enough patterns. @returns whether that settled it */
function byEveryPattern(highs: Highs, problem: Problem, proof: Proof | undefined, standing: Standing): boolean {
  const all = problem.lengthsOnly ? proof && everyBar(problem, proof, standing.cost) : everySheet(problem);
  if (!all) return false;
  const { solution, proven } = bestOf(highs, problem, all, standing.cost, ITERATIONS);
  standing.offer(solution);
  if (proven)
    standing.prove(standing.cost, problem.lengthsOnly, 'by an integer programme over every pattern that matters');
  return proven;
}

/** The patterns that cost the relaxation least to use. */
function likeliest(problem: Problem, patterns: readonly Pattern[], { values, spared }: Relaxed): Pattern[] {
  const reduced = ({ takes, sheet }: Pattern): number =>
    problem.sheets[sheet]!.cost + spared[sheet]! - takes.reduce((sum, take, kind) => sum + take * values[kind]!, 0);
  return patterns
    .map((pattern) => ({ pattern, reduced: reduced(pattern) }))
    .sort((a, b) => a.reduced - b.reduced)
    .slice(0, COLUMNS)
    .map(({ pattern }) => pattern);
}
