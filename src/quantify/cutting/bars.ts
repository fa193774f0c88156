/** Patterns of bars, and of rolls whose parts are as wide as they are: only lengths count. */
import type { Effort } from './effort.js';
import { fill, fillSteps, type Item, type Points, pointsOf } from './knapsack.js';
import { type Pattern, patternOf } from './pattern.js';
import type { Priced, Pricing } from './pricing.js';
import { type Lie, liesOn, type Problem } from './problem.js';

/** Bytes that one filling may take. */
const MEMORY = 1e8;

export class BarPricing implements Pricing {
  private readonly bars: readonly { readonly points: Points; readonly lies: readonly Lie[] }[];

  constructor(
    private readonly problem: Problem,
    readonly effort: Effort,
  ) {
    this.bars = problem.sheets.map((sheet) => {
      const lies = liesOn(problem, sheet);
      return {
        lies,
        points: pointsOf(
          sheet.length + sheet.kerf,
          lies.map(({ along }) => along),
        ),
      };
    });
  }

  best(sheet: number, values: readonly number[], most: readonly number[]): Priced | null {
    const { points, lies } = this.bars[sheet]!;
    const items: Item[] = lies.map(({ kind, along }) => ({ size: along, value: values[kind]!, most: most[kind]! }));
    const steps = fillSteps(points, items);
    if (steps > MEMORY || !this.effort.has(1, steps)) return null;
    this.effort.spend(steps);
    const { best, picks } = fill(points, items);
    const capacity = points.floor.length - 1;
    return { value: best.at(-1)!, pattern: barPattern(this.problem, sheet, lies, picks(capacity)) };
  }

  fill(sheet: number, values: readonly number[], most: readonly number[]): Priced | null {
    const priced = this.best(sheet, values, most) ?? this.longestFirst(sheet, values, most);
    return priced.value > 0 ? priced : null;
  }

  /** Without the effort for a filling. */
  private longestFirst(sheet: number, values: readonly number[], most: readonly number[]): Priced {
    const { points, lies } = this.bars[sheet]!;
    let room = points.floor.length - 1;
    let value = 0;
    const picks = lies.map(({ kind, along }) => {
      const pick = Math.min(most[kind]!, Math.floor(room / along));
      room -= pick * along;
      value += pick * values[kind]!;
      return pick;
    });
    return { value, pattern: barPattern(this.problem, sheet, lies, picks) };
  }
}

export function barPattern(problem: Problem, sheet: number, lies: readonly Lie[], picks: readonly number[]): Pattern {
  const strip = lies.flatMap((lie, i) => Array.from({ length: picks[i]! }, () => [lie]));
  return patternOf(problem, sheet, false, [strip]);
}
