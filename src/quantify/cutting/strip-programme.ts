/**
 * A linear programme of parts in strips and strips in stock, whose columns are made as they pay. Rows: parts by kind, stock
 * on hand, strips by height.
 */
import type { Highs } from 'highs';
import type { Effort } from './effort.js';
import type { Strip } from './pattern.js';
import type { Problem } from './problem.js';
import { Covering } from './solver.js';
import { type Bed, type Pool, poolsOf, withinCounts } from './strip-pools.js';

export interface StripColumn {
  readonly pool: Pool;
  readonly height: number;
  readonly strip: Strip;
  readonly takes: ReadonlyMap<number, number>;
}

/** Stock cut into strips. */
export interface BedColumn {
  readonly bed: Bed;
  readonly heights: readonly number[];
}

export interface InUse<T> {
  readonly column: T;
  /** As the solution has it. */
  readonly times: number;
}

/** Columns that a programme of more parts used, by the order of its pools and their beds. */
export interface Known {
  readonly strips: readonly { readonly pool: number; readonly strip: Strip }[];
  readonly beds: readonly { readonly pool: number; readonly bed: number; readonly heights: readonly number[] }[];
}

type Column = { readonly strip: StripColumn } | { readonly bed: BedColumn } | { readonly lower: true };

const PAYS = 1e-7;
/** A solver's 3 may be 2.9999999. */
export const NOISE = 1e-6;

export class StripProgramme {
  private readonly pools: readonly Pool[];
  private readonly columns: Column[] = [];
  private readonly keys = new Set<string>();
  private readonly covering: Covering;
  private times: readonly number[] = [];

  /** @param share of the effort after which no more columns are made */
  constructor(
    highs: Highs,
    private readonly problem: Problem,
    private readonly effort: Effort,
    private readonly share: number,
    known: Known,
  ) {
    const { kinds, sheets } = problem;
    const counts = kinds.map(({ count }) => count);
    this.pools = poolsOf(problem, effort, kinds.length + sheets.length);
    const heights = this.pools.reduce((sum, { heights }) => sum + heights.length, 0);
    const onHand = sheets.map(({ onHand }) => -onHand);
    this.covering = new Covering(highs, effort, [...counts, ...onHand, ...new Array<number>(heights).fill(0)]);
    for (const pool of this.pools) this.addPlain(pool, counts);
    for (const { pool, strip } of known.strips) this.addStrip(this.pools[pool]!, withinCounts(strip, counts));
    for (const { pool, bed, heights } of known.beds) {
      const { beds, heights: there } = this.pools[pool]!;
      this.addBed(
        beds[bed]!,
        heights.filter((height) => there.includes(height)),
      );
    }
  }

  /** What it begins with: strips of one kind, stock of one height, strips that are lower than their place. */
  private addPlain(pool: Pool, counts: readonly number[]): void {
    for (const alone of pool.stripsOfOne(counts)) this.addStrip(pool, alone);
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

  /** @returns false where what is asked can't be reached, or the effort ends */
  generate(rounds: number, left: readonly number[]): boolean {
    for (let round = 0; round < rounds; round++) {
      const solved = this.covering.solve();
      if (!solved) return false;
      this.times = solved.times;
      if (!this.effort.has(this.share)) return false;
      const before = this.columns.length;
      for (const pool of this.pools) {
        for (const strip of pool.payingStrips(solved.values, left, PAYS)) this.addStrip(pool, strip);
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

  strips(): InUse<StripColumn>[] {
    return this.inUse((column) => ('strip' in column ? column.strip : undefined));
  }

  beds(): InUse<BedColumn>[] {
    return this.inUse((column) => ('bed' in column ? column.bed : undefined));
  }

  private inUse<T>(only: (column: Column) => T | undefined): InUse<T>[] {
    return this.columns.flatMap((each, i) => {
      const [column, times] = [only(each), this.times[i] ?? 0];
      return column && times > NOISE ? [{ column, times }] : [];
    });
  }

  known(): Known {
    const at = (pool: Pool): number => this.pools.indexOf(pool);
    return {
      strips: this.strips().map(({ column: { pool, strip } }) => ({ pool: at(pool), strip })),
      beds: this.beds().map(({ column: { bed, heights } }) => {
        return { pool: at(bed.pool), bed: bed.pool.beds.indexOf(bed), heights };
      }),
    };
  }

  /** @param row a kind, a stock by {@link rowOf}, or a height by its pool */
  ask(row: number, least: number): void {
    this.covering.ask(row, least);
  }

  readonly rowOf = (sheet: number): number => this.problem.kinds.length + sheet;

  dispose(): void {
    this.covering.dispose();
  }

  private addStrip(pool: Pool, strip: Strip): void {
    if (strip.length === 0) return;
    const [height, takes] = [pool.heightOf(strip), takesOf(strip)];
    this.add(0, new Map([...takes, [pool.rowOf(height), -1]]), { strip: { pool, height, strip, takes } });
  }

  private addBed(bed: Bed, heights: readonly number[]): void {
    const entries = new Map<number, number>([[this.rowOf(bed.sheet), -1]]);
    for (const height of heights) entries.set(bed.pool.rowOf(height), (entries.get(bed.pool.rowOf(height)) ?? 0) + 1);
    this.add(this.problem.sheets[bed.sheet]!.cost, entries, { bed: { bed, heights } });
  }

  private add(cost: number, entries: Map<number, number>, column: Column): void {
    const key = [...entries].sort(([a], [b]) => a - b).join();
    if (this.keys.has(key)) return;
    this.keys.add(key);
    this.columns.push(column);
    this.covering.add(cost, entries);
  }
}

export function takesOf(strip: Strip): Map<number, number> {
  const takes = new Map<number, number>();
  for (const { kind } of strip.flat()) takes.set(kind, (takes.get(kind) ?? 0) + 1);
  return takes;
}
