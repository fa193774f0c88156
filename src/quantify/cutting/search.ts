/** Looks for the plan that buys least, and proves how much less none can buy. Stops as soon as the two meet. */
import type { Highs } from 'highs';
import { barBound } from './bar-bound.js';
import { BarPricing } from './bars.js';
import { materialBound, type Proof, scaledBound } from './bounds.js';
import { type Generated, generateColumns } from './column-generation.js';
import { dive } from './dive.js';
import { Effort } from './effort.js';
import { everyBar } from './every-bar.js';
import { everySelection } from './every-selection.js';
import { everySheet } from './every-sheet.js';
import { finished, greedy, valuesToFillBy } from './greedy.js';
import type { Candidates, Pattern, Solution } from './pattern.js';
import type { Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import { replan } from './replan.js';
import { SheetPricing } from './sheets.js';
import { bestOf, Relaxation, type Relaxed } from './solver.js';
import type { Standing } from './standing.js';
import { planByStrips } from './strip-plan.js';

/** Steps where the options don't say. */
const EFFORT = 3e9;
/** Share of them after which a first plan by strips is finished piece by piece. */
const BY_STRIPS = 0.8;
/** Share of them after which a plan by strips is the last. */
const ENOUGH = 0.5;
/** Share of them after which no second plan is made piece by piece. */
const GREEDY = 0.1;
/** Patterns that an integer programme is asked of, where it proves nothing, and simplex iterations times patterns. */
const COLUMNS = 2000;
const ITERATIONS = 4e6;
const LEAST_ITERATIONS = 5000;
const TRIES = 6;

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
  if (!problem.lengthsOnly) {
    const highs = await solver();
    standing.prove(barBound(highs, problem, effort), true, 'by parts and stock taken apart into slices');
    standing.offer(byStrips(highs, problem, pricing));
    await replan(highs, problem, effort, standing);
    if (standing.done || (standing.best && !effort.has(ENOUGH))) return;
    await standing.pause();
  }
  const plans: Solution[] = [];
  for (const values of valuesToFillBy(problem)) {
    const plan = greedy(problem, pricing, values);
    if (plan) plans.push(plan);
    standing.offer(plan);
    if (standing.done) return;
    await standing.pause();
    if (!effort.has(GREEDY)) break;
  }
  const highs = await solver();
  const relaxation = new Relaxation(highs, problem, effort);
  try {
    relaxation.add(plans.flatMap(({ cuts }) => cuts.map(({ pattern }) => pattern)));
    await byColumns(highs, problem, pricing, relaxation, standing);
  } finally {
    relaxation.dispose();
  }
}

/** What its effort does not reach is cut piece by piece. */
function byStrips(highs: Highs, problem: Problem, pricing: Pricing): Solution | undefined {
  const { cuts, left } = planByStrips(highs, problem, pricing.effort, BY_STRIPS);
  return cuts.length === 0 ? undefined : finished(problem, pricing, cuts, left);
}

async function byColumns(
  highs: Highs,
  problem: Problem,
  pricing: Pricing,
  relaxation: Relaxation,
  standing: Standing,
): Promise<void> {
  await generateColumns(problem, pricing, relaxation, standing, false);
  if (standing.done) return;
  standing.offer(await dive(problem, pricing, relaxation, standing));
  if (standing.done) return;
  const generated = await generateColumns(problem, pricing, relaxation, standing, true);
  if (standing.done || !generated) return;
  // The patterns made so far are few, and often enough; then all that matter, which are the fewer the cheaper the plan to beat.
  let candidates: Candidates = { patterns: relaxation.patterns, complete: false };
  for (let tries = 0; tries < TRIES && !standing.done; tries++) {
    const iterations = Math.max(LEAST_ITERATIONS, ITERATIONS / candidates.patterns.length);
    const { solution, proven } = bestOf(highs, problem, candidates.patterns, standing.cost, iterations);
    standing.offer(solution);
    if (candidates.complete && proven) standing.prove(standing.cost, problem.lengthsOnly, BY_ALL);
    if (tries > 0 && !solution) return;
    await standing.pause();
    if (!standing.done) candidates = candidatesFor(problem, relaxation, generated, standing.cost);
  }
}

const BY_ALL = 'by an integer programme over every pattern that a better plan could use';

/** What a cheaper plan could use: all of it, or else what is most likely. */
function candidatesFor(
  problem: Problem,
  relaxation: Relaxation,
  { relaxed, proof }: Generated,
  beat: number,
): Candidates {
  const every = everyPattern(problem, proof, beat);
  if (every.complete) return every;
  return { patterns: likeliest(problem, [...relaxation.patterns, ...every.patterns], relaxed), complete: false };
}

function everyPattern(problem: Problem, proof: Proof | undefined, beat: number): Candidates {
  const selection = problem.lengthsOnly ? undefined : everySelection(problem);
  if (selection) return { patterns: selection, complete: true };
  if (!proof) return { patterns: [], complete: false };
  return problem.lengthsOnly ? everyBar(problem, proof, beat) : everySheet(problem, proof, beat);
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
