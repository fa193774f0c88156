/** The plan as people read it: nothing cut that is not asked for, ids given out, equal pieces of stock together. */
import { type LaidOut, layOut, layOutBar } from './lay-out.js';
import { type Pattern, type Solution, trimmed } from './pattern.js';
import type { Problem } from './problem.js';
import type { Standing } from './standing.js';
import type { CutPart, CutPattern, CuttingOptions, CuttingPlan } from './types.js';

export function assemble(problem: Problem, standing: Standing, keep: CuttingOptions['keep']): CuttingPlan {
  const patterns = patternsOf(problem, standing.best!, keep);
  const pieces = problem.sheets.map(({ stock }) =>
    patterns.reduce((sum, pattern) => sum + (pattern.stock === stock ? pattern.times : 0), 0),
  );
  const cost = problem.sheets.reduce((sum, sheet, i) => sum + sheet.cost * pieces[i]!, 0);
  return {
    patterns,
    used: problem.sheets.flatMap(({ stock }, i) => (pieces[i]! > 0 ? [{ stock, pieces: pieces[i]! }] : [])),
    bought: cost * problem.unit,
    lowerBound: standing.bound * problem.unit,
    boundHoldsFor:
      problem.lengthsOnly || standing.boundOfAll >= standing.bound ? 'every plan' : 'plans of three cutting stages',
    gap: cost === standing.bound ? 0 : (cost - standing.bound) / standing.bound,
    waste: wasteOf(patterns, problem.lengthsOnly),
    method: standing.method,
  };
}

function patternsOf(problem: Problem, { cuts }: Solution, keep: CuttingOptions['keep']): CutPattern[] {
  const nextOf = partsInOrder(problem);
  const lay = problem.lengthsOnly ? layOutBar : layOut;
  const patterns = asAsked(problem, cuts).flatMap(({ pattern, times }) => {
    const { stock } = problem.sheets[pattern.sheet]!;
    const pieces = Array.from({ length: times }, () => lay(problem, pattern, nextOf, keep));
    return together(pieces).map((group) => ({ stock, ...group }));
  });
  const place = new Map(problem.sheets.map(({ stock }, i) => [stock, i]));
  return patterns.sort((a, b) => place.get(a.stock)! - place.get(b.stock)! || b.times - a.times);
}

/** A plan may cut too much; the last pieces go without. */
function asAsked(problem: Problem, cuts: Solution['cuts']): Solution['cuts'] {
  const left = problem.kinds.map(({ count }) => count);
  const asked: { pattern: Pattern; times: number }[] = [];
  const take = (pattern: Pattern, times: number): void => {
    pattern.takes.forEach((count, kind) => {
      left[kind]! -= count * times;
    });
    if (times > 0) asked.push({ pattern, times });
  };
  const rest = cuts.map(({ pattern, times }) => {
    const whole = pattern.takes.map((count, kind) => (count > 0 ? Math.floor(left[kind]! / count) : Infinity));
    const needed = Math.min(times, ...whole);
    take(pattern, needed);
    return { pattern, times: times - needed };
  });
  for (const { pattern, times } of rest)
    for (let n = 0; n < times; n++) {
      const kept = trimmed(problem, pattern, left);
      take(kept, kept.strips.length > 0 ? 1 : 0);
    }
  return asked;
}

/** The parts of a kind, one after the other. */
function partsInOrder({ kinds }: Problem): (kind: number) => CutPart {
  const places = kinds.map(() => ({ part: 0, given: 0 }));
  return (kind) => {
    const { parts } = kinds[kind]!;
    const place = places[kind]!;
    while (place.given === parts[place.part]!.count) {
      place.part += 1;
      place.given = 0;
    }
    place.given += 1;
    return parts[place.part]!.part;
  };
}

/** Neighbours that are cut alike as one. */
function together(pieces: readonly LaidOut[]): (LaidOut & { times: number })[] {
  const groups: (LaidOut & { times: number })[] = [];
  for (const piece of pieces) {
    const last = groups.at(-1);
    if (last?.cuts.every(({ part }, i) => part === piece.cuts[i]!.part)) last.times += 1;
    else groups.push({ ...piece, times: 1 });
  }
  return groups;
}

function wasteOf(patterns: readonly CutPattern[], lengthsOnly: boolean): number {
  const sizeOf = ({ length, width }: { readonly length: number; readonly width?: number }): number =>
    lengthsOnly ? length : length * width!;
  const total = (sizeOfOne: (pattern: CutPattern) => number): number =>
    patterns.reduce((sum, pattern) => sum + pattern.times * sizeOfOne(pattern), 0);
  const all = total(({ stock }) => sizeOf(stock));
  const used = total(({ cuts, offcuts }) =>
    [...cuts, ...offcuts.filter(({ kept }) => kept)].reduce((sum, piece) => sum + sizeOf(piece), 0),
  );
  return all === 0 ? 0 : (all - used) / all;
}
