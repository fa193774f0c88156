/** Patterns of sheets and rolls, by three stages of cuts from edge to edge: strips, sections, parts. */
import type { Effort } from './effort.js';
import { type Pattern, patternOf, type Section, type Strip } from './pattern.js';
import type { Priced, Pricing } from './pricing.js';
import type { Problem } from './problem.js';
import { StripTable } from './strips.js';

export class SheetPricing implements Pricing {
  /** Strips along the stock and across it, by stock. */
  private readonly tables: readonly (readonly StripTable[])[];

  constructor(
    private readonly problem: Problem,
    readonly effort: Effort,
  ) {
    this.tables = problem.sheets.map((sheet) => [false, true].map((across) => new StripTable(problem, sheet, across)));
  }

  best(sheet: number, values: readonly number[], most: readonly number[]): Priced | null {
    let best: Priced | null = null;
    for (const table of this.tables[sheet]!) {
      const steps = table.steps(table.heights, most);
      if (!this.effort.has(1, steps)) return null;
      this.effort.spend(steps);
      const planned = table.plan(table.heights, table.width, values, most);
      if (best && planned.value <= best.value) continue;
      const strips = planned.heights.map((height) => table.planned(height, values, most));
      best = { value: planned.value, pattern: patternOf(this.problem, sheet, table.across, strips) };
    }
    return best;
  }

  fill(sheet: number, values: readonly number[], most: readonly number[], steps: number): Priced | null {
    let best: Priced | null = null;
    for (const table of this.tables[sheet]!) {
      const pattern = this.effort.has(1)
        ? this.filled(sheet, table, values, most, steps)
        : this.firstFit(sheet, table, most);
      const value = pattern.takes.reduce((sum, count, kind) => sum + count * values[kind]!, 0);
      if (value > (best?.value ?? 0)) best = { value, pattern };
    }
    return best;
  }

  /** Without the effort for anything better. */
  private firstFit(sheet: number, table: StripTable, most: readonly number[]): Pattern {
    const left = [...most];
    const strips: Strip[] = [];
    let room = table.width;
    for (let sections = table.firstFit(room, left); sections.length > 0; sections = table.firstFit(room, left)) {
      strips.push(sections);
      for (const { kind } of sections.flat()) left[kind]! -= 1;
      room -= tallest(sections);
    }
    return patternOf(this.problem, sheet, table.across, strips);
  }

  /** Strips as the table plans them; where a strip lacks parts that one before it took, the rest is planned anew. */
  private filled(
    sheet: number,
    table: StripTable,
    values: readonly number[],
    most: readonly number[],
    steps: number,
  ): Pattern {
    const left = [...most];
    const strips: Strip[] = [];
    let room = table.width;
    for (let again = true; again; ) {
      again = false;
      const heights = table.fewHeights(room, table.heightsFor(steps, left), left);
      this.effort.spend(table.steps(heights, left));
      const planned = table.plan(heights, room, values, left);
      for (const height of planned.heights) {
        const { sections, value } = table.strip(height, values, left);
        if (sections.length === 0) break;
        strips.push(sections);
        for (const { kind } of sections.flat()) left[kind]! -= 1;
        room -= tallest(sections);
        again = value < planned.strips.get(height)!;
        if (again) break;
      }
    }
    return patternOf(this.problem, sheet, table.across, strips);
  }
}

const tallest = (sections: readonly Section[]): number =>
  Math.max(...sections.map((section) => section.reduce((sum, { across }) => sum + across, 0)));
