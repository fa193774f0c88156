/** Makes a plan better where it is worst: what the worst cut pieces of stock hold is planned anew by itself. */
import type { Highs } from 'highs';
import { compareTexts } from '../../collect.js';
import type { Effort } from './effort.js';
import { nothingLeft, problemOfLeft } from './left.js';
import { type Pattern, type Solution, solutionOf, takesKey } from './pattern.js';
import type { Problem } from './problem.js';
import type { Standing } from './standing.js';
import { planByStrips } from './strip-plan.js';

/** Shares of the pieces of stock that are planned anew, one after the other, as long as any of them gains. */
const SHARES = [0.2, 0.3, 0.45, 0.7, 0.1];
/** Share of the effort after which nothing is begun. */
const ENOUGH = 0.7;
/** Share after which what is begun is given up. */
const MOST = 0.9;

export async function replan(highs: Highs, problem: Problem, effort: Effort, standing: Standing): Promise<void> {
  for (let gained = true; gained && !standing.done; ) {
    gained = false;
    for (const share of SHARES) {
      if (standing.done || !standing.best || !effort.has(ENOUGH)) return;
      const before = standing.cost;
      standing.offer(anew(highs, problem, standing.best, share, effort));
      gained = gained || standing.cost < before;
      await standing.pause();
    }
  }
}

function anew(highs: Highs, problem: Problem, { cuts }: Solution, share: number, effort: Effort): Solution | undefined {
  const pieces = cuts
    .flatMap(({ pattern, times }) => Array.from({ length: times }, () => pattern))
    .map((pattern) => ({ pattern, wasted: wastedIn(problem, pattern) }))
    .sort((a, b) => b.wasted - a.wasted || compareTexts(takesKey(a.pattern), takesKey(b.pattern)))
    .map(({ pattern }) => pattern);
  const freed = Math.max(2, Math.round(pieces.length * share));
  const [worst, kept] = [pieces.slice(0, freed), pieces.slice(freed)];
  const part = problemOfLeft(problem, {
    counts: problem.kinds.map((_, i) => worst.reduce((sum, { takes }) => sum + takes[i]!, 0)),
    onHand: problem.sheets.map(({ onHand }, i) => onHand - kept.filter(({ sheet }) => sheet === i).length),
  });
  const { cuts: better, left } = planByStrips(highs, part, effort, MOST);
  return nothingLeft(left) ? solutionOf(problem, [...counted(kept), ...better]) : undefined;
}

/** Part of a piece of stock that no part takes. */
function wastedIn({ kinds, sheets }: Problem, { sheet, takes }: Pattern): number {
  const { length, width } = sheets[sheet]!;
  return 1 - takes.reduce((sum, take, i) => sum + take * kinds[i]!.length * kinds[i]!.width, 0) / (length * width);
}

function counted(patterns: readonly Pattern[]): Solution['cuts'] {
  const times = new Map<Pattern, number>();
  for (const pattern of patterns) times.set(pattern, (times.get(pattern) ?? 0) + 1);
  return [...times].map(([pattern, n]) => ({ pattern, times: n }));
}
