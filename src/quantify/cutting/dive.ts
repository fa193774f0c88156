/** From parts of cuts to whole ones: what the relaxation cuts whole is settled, else its likeliest pattern; then it is asked again. */
import { payingPatterns } from './column-generation.js';
import { finished } from './greedy.js';
import { cutFrom, type Left, leftOf, nothingLeft } from './left.js';
import type { Pattern, Solution } from './pattern.js';
import type { Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import type { Relaxation, Relaxed } from './solver.js';
import type { Standing } from './standing.js';

/** Rounds of new patterns before anything more is settled. */
const ROUNDS = 12;
/** Share of the effort after which only known patterns are used. */
const SHARE = 0.9;
/** A solver's 3 may be 2.9999999. */
const NOISE = 1e-6;

/** What is left when the effort ends is cut piece by piece. Leaves the relaxation asked for everything again. */
export async function dive(
  problem: Problem,
  pricing: Pricing,
  relaxation: Relaxation,
  standing: Standing,
): Promise<Solution | undefined> {
  const left = leftOf(problem);
  const cuts: { readonly pattern: Pattern; readonly times: number }[] = [];
  while (!nothingLeft(left) && pricing.effort.has(1)) {
    const relaxed = relaxedFor(problem, pricing, relaxation, left);
    if (!relaxed) break;
    cuts.push(...settle(relaxed, relaxation.patterns, left));
    await standing.pause();
  }
  const { counts, onHand } = leftOf(problem);
  relaxation.ask(counts, onHand);
  return finished(problem, pricing, cuts, left);
}

function relaxedFor(problem: Problem, pricing: Pricing, relaxation: Relaxation, left: Left): Relaxed | undefined {
  relaxation.ask(left.counts, left.onHand);
  let relaxed = relaxation.solve();
  for (let round = 0; relaxed && round < ROUNDS; round++) {
    if (relaxation.add(payingPatterns(problem, pricing, relaxed, left.counts, SHARE)) === 0) break;
    relaxed = relaxation.solve();
  }
  return relaxed;
}

/** Takes from what is left. */
function settle({ times }: Relaxed, patterns: readonly Pattern[], left: Left) {
  const whole = patterns.flatMap((pattern, i) => {
    const wanted = Math.floor(times[i]! + NOISE);
    const needed = pattern.takes.every((take, kind) => take <= left.counts[kind]!);
    return wanted > 0 && needed ? [{ pattern, times: cutFrom(left, pattern, wanted) }] : [];
  });
  if (whole.length > 0) return whole;
  let likeliest = 0;
  for (let i = 1; i < times.length; i++) if (times[i]! > times[likeliest]! + NOISE) likeliest = i;
  const pattern = patterns[likeliest]!;
  return [{ pattern, times: cutFrom(left, pattern, 1) }];
}
