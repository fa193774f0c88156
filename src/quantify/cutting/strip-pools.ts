/** Strips that are alike for all stock that they can be cut from, and how that stock is cut into them. */
import type { Effort } from './effort.js';
import { fillTable, itemsOf, type Points, pointsOf } from './knapsack.js';
import type { Strip } from './pattern.js';
import { coarseUnit, type Lie, liesOn, type Problem } from './problem.js';

/** A kind of stock, cut one way. */
export interface Bed {
  readonly pool: Pool;
  readonly sheet: number;
  /** Room for heights of strips beside each other. */
  readonly size: number;
}

/** @param firstRow of a linear programme that counts strips by their height */
export function poolsOf(problem: Problem, effort: Effort, firstRow: number): Pool[] {
  const unit = coarseUnit(problem);
  const beds = new Map<string, { across: boolean; length: number; sheets: { sheet: number; size: number }[] }>();
  for (const [sheet, { length, width, kerf }] of problem.sheets.entries())
    for (const across of [true, false]) {
      const [along, beside] = across ? [width, length] : [length, width];
      const key = `${across} ${along} ${kerf}`;
      const bed = beds.get(key) ?? { across, length: Math.floor((along + kerf) / unit), sheets: [] };
      bed.sheets.push({ sheet, size: Math.floor((beside + kerf) / unit) });
      beds.set(key, bed);
    }
  const pools: Pool[] = [];
  for (const { across, length, sheets } of beds.values()) {
    const pool: Pool = new Pool(problem, effort, across, length, sheets, unit, firstRow);
    firstRow += pool.heights.length;
    pools.push(pool);
  }
  return pools;
}

interface Sized {
  readonly lie: Lie;
  readonly along: number;
  readonly across: number;
}

export class Pool {
  readonly beds: readonly Bed[];
  /** Ascending. */
  readonly heights: readonly number[];
  private readonly lies: readonly Sized[];
  private readonly rows: ReadonlyMap<number, number>;
  private readonly points: Points;

  constructor(
    problem: Problem,
    private readonly effort: Effort,
    /** Whether strips run across the stock; else along it. */
    readonly across: boolean,
    private readonly length: number,
    sheets: readonly { readonly sheet: number; readonly size: number }[],
    private readonly unit: number,
    firstRow: number,
  ) {
    this.beds = sheets.map((sheet) => ({ pool: this, ...sheet }));
    const largest = sheets.reduce((a, b) => (b.size > a.size ? b : a));
    this.lies = liesOn(problem, problem.sheets[largest.sheet]!)
      .filter(({ kind }) => problem.kinds[kind]!.count > 0)
      .map((lie) => (across ? { ...lie, along: lie.across, across: lie.along } : lie))
      .map((lie) => ({ lie, along: Math.ceil(lie.along / unit), across: Math.ceil(lie.across / unit) }))
      .filter((lie) => lie.along <= length && lie.across <= largest.size)
      .sort((a, b) => a.across - b.across);
    this.heights = [...new Set(this.lies.map((lie) => lie.across))];
    this.rows = new Map(this.heights.map((height, i) => [height, firstRow + i]));
    this.points = pointsOf(largest.size, this.heights);
  }

  readonly rowOf = (height: number): number => this.rows.get(height)!;

  readonly heightOf = (strip: Strip): number =>
    Math.max(...strip.flat().map(({ across }) => Math.ceil(across / this.unit)));

  /** As many parts of one kind as a strip takes. */
  stripsOfOne(counts: readonly number[]): Strip[] {
    return this.lies.map(({ lie, along }) => {
      const times = Math.min(Math.floor(this.length / along), counts[lie.kind]!);
      return Array.from({ length: times }, () => [lie]);
    });
  }

  /** Of each height the strip that is worth most, if it pays. A part that may turn can be in it both ways. */
  payingStrips(values: readonly number[], left: readonly number[], least: number): Strip[] {
    const best = new Float64Array(this.length + 1);
    const lots: { readonly lie: Lie; readonly times: number; readonly size: number; readonly taken: Uint8Array }[] = [];
    const paying: Strip[] = [];
    this.lies.forEach(({ lie, along, across }, i) => {
      const value = values[lie.kind]!;
      let rest = value > least ? Math.min(left[lie.kind]!, Math.floor(this.length / along)) : 0;
      for (let next = 1; rest > 0; next *= 2) {
        const times = Math.min(next, rest);
        rest -= times;
        lots.push({ lie, times, size: times * along, taken: taking(best, times * along, times * value) });
      }
      if (this.lies[i + 1]?.across === across || best[this.length]! <= values[this.rowOf(across)]! + least) return;
      const strip: Lie[][] = [];
      let room = this.length;
      for (let l = lots.length - 1; l >= 0; l--) {
        const { taken, size, times, lie: chosen } = lots[l]!;
        if (!taken[room]) continue;
        room -= size;
        for (let n = 0; n < times; n++) strip.push([chosen]);
      }
      paying.push(withinCounts(strip, left));
    });
    this.effort.spend(lots.length * this.length);
    return paying;
  }

  /** The heights that are worth most together, if it is more than `least`. */
  bestCut(bed: Bed, values: readonly number[], least: number): number[] | undefined {
    const worth = this.heights.filter((height) => height <= bed.size && values[this.rowOf(height)]! > 0);
    const of = worth.map((height) => values[this.rowOf(height)]!);
    this.effort.spend(worth.length * this.points.at.length);
    const table = fillTable(this.points, worth, of);
    if (table.best[this.points.floor[bed.size]!]! <= least) return undefined;
    return itemsOf(this.points, table, worth, bed.size).map((i) => worth[i]!);
  }
}

/** Adds an item to a table of best values by capacity. @returns where it was taken */
function taking(best: Float64Array, size: number, value: number): Uint8Array {
  const taken = new Uint8Array(best.length);
  for (let room = best.length - 1; room >= size; room--) {
    const filled = best[room - size]! + value;
    if (filled <= best[room]! + NOISE) continue;
    best[room] = filled;
    taken[room] = 1;
  }
  return taken;
}

/** Gains below this are noise of sums. */
const NOISE = 1e-12;

/** Without the parts that are more than are asked. */
export function withinCounts(strip: Strip, counts: readonly number[]): Strip {
  const left = [...counts];
  return strip.filter(([lie]) => left[lie!.kind]!-- > 0);
}
