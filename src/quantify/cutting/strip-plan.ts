/**
 * Plans in two steps: parts into strips, strips into stock (Gilmore and Gomory 1965). One linear programme has columns for
 * both, made as they pay. Its strips are settled first, the likeliest before others, until every part lies in one; then how
 * the stock is cut into them.
 */
import type { Highs } from 'highs';
import { fileUnder } from '../../collect.js';
import type { Effort } from './effort.js';
import { type Pattern, patternOf, type Solution, type Strip, solutionOf, takesKey } from './pattern.js';
import type { Problem } from './problem.js';
import { Covering } from './solver.js';
import { type Bed, type Pool, poolsOf } from './strip-pools.js';

interface StripColumn {
  readonly pool: Pool;
  readonly height: number;
  readonly strip: Strip;
  readonly takes: ReadonlyMap<number, number>;
}

interface BedColumn {
  readonly bed: Bed;
  readonly heights: readonly number[];
}

/** Rounds of new columns before anything is settled, and between. */
const ROUNDS = 300;
const FEW_ROUNDS = 6;
const ROUNDS_AGAIN = 10;
/** Share of the strips in use that is settled at once where none is used a whole number of times. */
const AT_ONCE = 0.3;
const PAYS = 1e-7;

/**
 * Undefined where its strips can't hold every part, or it is given up.
 *
 * @param share of the effort after which it is given up
 */
export function planByStrips(highs: Highs, problem: Problem, effort: Effort, share: number): Solution | undefined {
  const master = new Master(highs, problem, effort, share);
  try {
    if (!master.generate(ROUNDS)) return undefined;
    while (master.left.some((count) => count > 0)) if (!master.settle() || !master.cutStock()) return undefined;
    return solutionOf(problem, [...master.cuts.values()]);
  } finally {
    master.dispose();
  }
}

type Column = { readonly strip: StripColumn } | { readonly bed: BedColumn } | { readonly lower: true };

class Master {
  private readonly pools: readonly Pool[];
  private readonly columns: Column[] = [];
  private readonly known = new Set<string>();
  private readonly covering: Covering;
  /** Parts of each kind that lie in no strip yet, and strips that are settled. */
  readonly left: number[];
  readonly cuts = new Map<string, { readonly pattern: Pattern; times: number }>();
  private readonly settled: StripColumn[] = [];
  /** By row of the heights. */
  private readonly needed = new Map<number, number>();
  private readonly used: number[];
  private times: readonly number[] = [];

  constructor(
    highs: Highs,
    private readonly problem: Problem,
    private readonly effort: Effort,
    private readonly share: number,
  ) {
    const { kinds, sheets } = problem;
    this.left = kinds.map(({ count }) => count);
    this.used = sheets.map(() => 0);
    this.pools = poolsOf(problem, effort, kinds.length + sheets.length);
    const heights = this.pools.reduce((sum, { heights }) => sum + heights.length, 0);
    const onHand = sheets.map(({ onHand }) => -onHand);
    this.covering = new Covering(highs, effort, [...this.left, ...onHand, ...new Array<number>(heights).fill(0)]);
    for (const pool of this.pools) {
      for (const alone of pool.stripsOfOne(this.left)) this.addStrip(pool, alone);
      // A strip may be lower than its place.
      for (let i = 1; i < pool.heights.length; i++) {
        const [lower, higher] = [pool.rowOf(pool.heights[i - 1]!), pool.rowOf(pool.heights[i]!)];
        this.add(
          0,
          new Map([
            [lower, 1],
            [higher, -1],
          ]),
          { lower: true },
        );
      }
      for (const bed of pool.beds)
        for (const height of pool.heights)
          if (height <= bed.size) this.addBed(bed, new Array<number>(Math.floor(bed.size / height)).fill(height));
    }
  }

  generate(rounds: number): boolean {
    for (let round = 0; round < rounds; round++) {
      const solved = this.covering.solve();
      if (!solved) return false;
      this.times = solved.times;
      if (!this.effort.has(this.share)) return false;
      const before = this.columns.length;
      for (const pool of this.pools) {
        for (const strip of pool.payingStrips(solved.values, this.left, PAYS)) this.addStrip(pool, strip);
        for (const bed of pool.beds) {
          const { cost } = this.problem.sheets[bed.sheet]!;
          const heights = pool.bestCut(bed, solved.values, cost + solved.values[this.rowOf(bed.sheet)]! + PAYS);
          if (heights) this.addBed(bed, heights);
        }
      }
      if (this.columns.length === before) break;
    }
    return true;
  }

  /** Puts every part into a strip. */
  settle(): boolean {
    while (this.left.some((count) => count > 0)) {
      const used = this.columns.flatMap((column, i) => {
        const times = this.times[i] ?? 0;
        return 'strip' in column && times > NOISE ? [{ column: column.strip, times }] : [];
      });
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
      for (const [row, count] of this.needed) this.covering.ask(row, count);
      if (!this.generate(FEW_ROUNDS)) return false;
    }
    return true;
  }

  /** Settles a strip as often as all of it is still needed. */
  private take(column: StripColumn, most: number): number {
    const whole = [...column.takes].map(([kind, take]) => Math.floor(this.left[kind]! / take));
    const times = Math.min(most, ...whole);
    if (times <= 0 || column.takes.size === 0) return 0;
    for (const [kind, take] of column.takes) this.left[kind]! -= take * times;
    const row = column.pool.rowOf(column.height);
    this.needed.set(row, (this.needed.get(row) ?? 0) + times);
    for (let n = 0; n < times; n++) this.settled.push(column);
    return times;
  }

  private trimmed({ pool, height, strip }: StripColumn): StripColumn {
    const left = [...this.left];
    const kept = strip.filter(([lie]) => left[lie!.kind]!-- > 0);
    return { pool, height, strip: kept, takes: takesOf(kept) };
  }

  /** Cuts stock wherever it is wholly used, else the likeliest piece; the parts of the other strips are left again. */
  cutStock(): boolean {
    const waiting = new Map<number, StripColumn[]>();
    for (const column of this.settled) fileUnder(waiting, column.pool.rowOf(column.height), column);
    const used = this.columns.flatMap((column, i) => {
      const times = this.times[i] ?? 0;
      return 'bed' in column && times > NOISE ? [{ ...column.bed, times }] : [];
    });
    const whole = used.filter(({ times }) => times >= 1 - NOISE);
    if (used.length === 0) return false;
    for (const { bed, heights, times } of whole.length > 0 ? whole : [likeliest(used)])
      for (let n = 0; n < Math.max(1, Math.floor(times + NOISE)); n++) {
        const strips = heights.flatMap((height) => {
          const column = tallest(bed.pool, height, waiting);
          return column ? [column.strip] : [];
        });
        if (!this.cut(patternOf(this.problem, bed.sheet, bed.pool.across, strips))) break;
      }
    for (const { takes } of [...waiting.values()].flat()) for (const [kind, take] of takes) this.left[kind]! += take;
    this.settled.length = 0;
    for (const row of this.needed.keys()) this.covering.ask(row, 0);
    this.needed.clear();
    this.askForLeft();
    return this.generate(ROUNDS_AGAIN);
  }

  private cut(pattern: Pattern): boolean {
    const { onHand } = this.problem.sheets[pattern.sheet]!;
    const used = this.used[pattern.sheet]!;
    if (pattern.strips.length === 0 || used === onHand) return false;
    this.used[pattern.sheet] = used + 1;
    this.covering.ask(this.rowOf(pattern.sheet), used + 1 - onHand);
    const same = this.cuts.get(takesKey(pattern));
    if (same) same.times += 1;
    else this.cuts.set(takesKey(pattern), { pattern, times: 1 });
    return true;
  }

  private askForLeft(): void {
    this.left.forEach((count, kind) => {
      this.covering.ask(kind, count);
    });
  }

  dispose(): void {
    this.covering.dispose();
  }

  private readonly rowOf = (sheet: number): number => this.problem.kinds.length + sheet;

  private addStrip(pool: Pool, { height, strip }: { readonly height: number; readonly strip: Strip }): void {
    const takes = takesOf(strip);
    this.add(0, new Map([...takes, [pool.rowOf(height), -1]]), { strip: { pool, height, strip, takes } });
  }

  private addBed(bed: Bed, heights: readonly number[]): void {
    const entries = new Map<number, number>([[this.rowOf(bed.sheet), -1]]);
    for (const height of heights) entries.set(bed.pool.rowOf(height), (entries.get(bed.pool.rowOf(height)) ?? 0) + 1);
    this.add(this.problem.sheets[bed.sheet]!.cost, entries, { bed: { bed, heights } });
  }

  private add(cost: number, entries: Map<number, number>, column: Column): void {
    const key = [...entries].sort(([a], [b]) => a - b).join();
    if (this.known.has(key)) return;
    this.known.add(key);
    this.columns.push(column);
    this.covering.add(cost, entries);
  }
}

/** Of the strips that wait, the tallest that there is room for. */
function tallest({ heights, rowOf }: Pool, room: number, waiting: Map<number, StripColumn[]>): StripColumn | undefined {
  for (let i = heights.indexOf(room); i >= 0; i--) {
    const strip = waiting.get(rowOf(heights[i]!))?.shift();
    if (strip) return strip;
  }
  return undefined;
}

function likeliest<T extends { readonly times: number }>(used: readonly T[]): T {
  return used.reduce((best, each) => (each.times > best.times + NOISE ? each : best));
}

const NOISE = 1e-6; // A solver's 3 may be 2.9999999.

function takesOf(strip: Strip): Map<number, number> {
  const takes = new Map<number, number>();
  for (const { kind } of strip.flat()) takes.set(kind, (takes.get(kind) ?? 0) + 1);
  return takes;
}
