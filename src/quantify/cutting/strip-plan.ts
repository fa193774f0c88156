/**
 * Plans in two steps: parts into strips, strips into stock (Gilmore and Gomory 1965). One linear programme has columns for
 * both. What it uses whole is cut, and what is left planned by a programme of its own, until nothing is whole. Then strips
 * are settled, the likeliest before others, until every part lies in one; then how the stock is cut into them.
 */
import type { Highs } from 'highs';
import { fileUnder } from '../../collect.js';
import type { Effort } from './effort.js';
import { type Left, leftOf, nothingLeft, problemOfLeft } from './left.js';
import { type Pattern, patternOf, type Solution, takesKey } from './pattern.js';
import type { Problem } from './problem.js';
import { type Pool, withinCounts } from './strip-pools.js';
import {
  type BedColumn,
  type InUse,
  type Known,
  NOISE,
  type StripColumn,
  StripProgramme,
  takesOf,
} from './strip-programme.js';

/** Rounds of new columns before anything is settled, and between. */
const ROUNDS = 300;
const FEW_ROUNDS = 6;
const ROUNDS_AGAIN = 10;
/** Share of the strips in use that is settled at once where none is used a whole number of times. */
const AT_ONCE = 0.3;

export interface StripPlan {
  readonly cuts: Solution['cuts'];
  /** What strips can't hold, or what was not come to. */
  readonly left: Left;
}

const NONE: Known = { strips: [], beds: [] };

/** @param share of the effort after which nothing more is planned */
export function planByStrips(highs: Highs, problem: Problem, effort: Effort, share: number, known = NONE): StripPlan {
  const programme = new StripProgramme(highs, problem, effort, share, known);
  const planner = new Planner(problem, programme);
  let next: Known | undefined;
  try {
    if (programme.generate(ROUNDS, planner.left.counts)) {
      // What is left of many parts is few: a programme of its own is much smaller.
      if (planner.cutWhole()) next = programme.known();
      else planner.cutAll();
    }
  } finally {
    programme.dispose();
  }
  const { left } = planner;
  const cuts = [...planner.cuts.values()];
  if (!next || nothingLeft(left)) return { cuts, left };
  const rest = planByStrips(highs, problemOfLeft(problem, left), effort, share, next);
  return { cuts: [...cuts, ...rest.cuts], left: rest.left };
}

class Planner {
  /** Without the parts in strips that are settled. */
  readonly left: Left;
  readonly cuts = new Map<string, { readonly pattern: Pattern; times: number }>();
  private readonly settled: StripColumn[] = [];
  /** Strips that are settled, by row of their height. */
  private readonly needed = new Map<number, number>();

  constructor(
    private readonly problem: Problem,
    private readonly programme: StripProgramme,
  ) {
    this.left = leftOf(problem);
  }

  /** Cuts what is wholly used of strips that are, as long as they fill it. @returns whether there is any */
  cutWhole(): boolean {
    for (const { column, times } of this.programme.strips()) this.take(column, Math.floor(times + NOISE));
    this.cutBeds(this.programme.beds().filter(isWhole), true);
    return this.cuts.size > 0;
  }

  /** As far as strips hold the parts and the effort goes. */
  cutAll(): void {
    while (!nothingLeft(this.left)) if (!this.settle() || !this.cutStock()) break;
    this.release(this.settled);
  }

  /** Puts every part into a strip. */
  private settle(): boolean {
    while (!nothingLeft(this.left)) {
      const used = this.programme.strips();
      let some = false;
      for (const { column, times } of used) some = this.take(column, Math.floor(times + NOISE)) > 0 || some;
      const fractions = used
        .map(({ column, times }) => ({ column, part: times - Math.floor(times + NOISE) }))
        .sort((a, b) => b.part - a.part);
      let atOnce = Math.max(1, fractions.length * AT_ONCE);
      for (const { column } of fractions)
        if (atOnce >= 1 && this.take(column, 1) > 0) {
          atOnce -= 1;
          some = true;
        }
      if (!some && !fractions.some(({ column }) => this.take(this.trimmed(column), 1) > 0)) return false;
      this.askForLeft();
      for (const [row, count] of this.needed) this.programme.ask(row, count);
      if (!this.programme.generate(FEW_ROUNDS, this.left.counts)) return false;
    }
    return true;
  }

  /** Settles a strip as often as all of it is still needed. */
  private take(column: StripColumn, most: number): number {
    const whole = [...column.takes].map(([kind, take]) => Math.floor(this.left.counts[kind]! / take));
    const times = Math.min(most, ...whole);
    if (times <= 0 || column.takes.size === 0) return 0;
    for (const [kind, take] of column.takes) this.left.counts[kind]! -= take * times;
    const row = column.pool.rowOf(column.height);
    this.needed.set(row, (this.needed.get(row) ?? 0) + times);
    for (let n = 0; n < times; n++) this.settled.push(column);
    return times;
  }

  private trimmed({ pool, height, strip }: StripColumn): StripColumn {
    const kept = withinCounts(strip, this.left.counts);
    return { pool, height, strip: kept, takes: takesOf(kept) };
  }

  /** Cuts stock wherever it is wholly used, else the likeliest piece; the parts of the other strips are left again. */
  private cutStock(): boolean {
    const used = this.programme.beds();
    const whole = used.filter(isWhole);
    if (used.length === 0) return false;
    this.cutBeds(whole.length > 0 ? whole : [likeliest(used)], false);
    for (const row of this.needed.keys()) this.programme.ask(row, 0);
    this.needed.clear();
    this.askForLeft();
    return this.programme.generate(ROUNDS_AGAIN, this.left.counts);
  }

  /** @param filled only while a strip waits for every height; else a place may stay empty or take a lower one */
  private cutBeds(beds: readonly InUse<BedColumn>[], filled: boolean): void {
    const waiting = new Map<number, StripColumn[]>();
    for (const column of this.settled) fileUnder(waiting, column.pool.rowOf(column.height), column);
    for (const { column, times } of beds)
      for (let n = 0; n < Math.max(1, Math.floor(times + NOISE)); n++) {
        const { bed, heights } = column;
        if (this.left.onHand[bed.sheet] === 0 || (filled && !areWaiting(bed.pool, heights, waiting))) break;
        const strips = heights.flatMap((height) => {
          const next = tallest(bed.pool, height, waiting);
          return next ? [next.strip] : [];
        });
        if (strips.length === 0) break;
        this.cut(patternOf(this.problem, bed.sheet, bed.pool.across, strips));
      }
    this.release([...waiting.values()].flat());
  }

  /** Of all strips that are settled these are cut from nothing. */
  private release(strips: readonly StripColumn[]): void {
    for (const { takes } of strips) for (const [kind, take] of takes) this.left.counts[kind]! += take;
    this.settled.length = 0;
  }

  private cut(pattern: Pattern): void {
    const { sheet } = pattern;
    this.left.onHand[sheet]! -= 1;
    this.programme.ask(this.programme.rowOf(sheet), -this.left.onHand[sheet]!);
    const same = this.cuts.get(takesKey(pattern));
    if (same) same.times += 1;
    else this.cuts.set(takesKey(pattern), { pattern, times: 1 });
  }

  private askForLeft(): void {
    this.left.counts.forEach((count, kind) => {
      this.programme.ask(kind, count);
    });
  }
}

const isWhole = ({ times }: InUse<unknown>): boolean => times >= 1 - NOISE;

function likeliest<T extends InUse<unknown>>(used: readonly T[]): T {
  return used.reduce((best, each) => (each.times > best.times + NOISE ? each : best));
}

/** Whether strips of just these heights wait. */
function areWaiting({ rowOf }: Pool, heights: readonly number[], waiting: ReadonlyMap<number, unknown[]>): boolean {
  const asked = new Map<number, number>();
  for (const height of heights) asked.set(height, (asked.get(height) ?? 0) + 1);
  return [...asked].every(([height, times]) => (waiting.get(rowOf(height))?.length ?? 0) >= times);
}

/** Of the strips that wait, the tallest that there is room for. */
function tallest({ heights, rowOf }: Pool, room: number, waiting: Map<number, StripColumn[]>): StripColumn | undefined {
  for (let i = heights.indexOf(room); i >= 0; i--) {
    const strip = waiting.get(rowOf(heights[i]!))?.shift();
    if (strip) return strip;
  }
  return undefined;
}
