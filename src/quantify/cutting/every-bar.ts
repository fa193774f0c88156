/**
 * All patterns of bars that a better plan could use: by the values that proved the bound, any other would cost more than
 * there is between the bound and what is to be beaten. Whole cuts of these that cost less are all there are.
 */
import { barPattern } from './bars.js';
import { leastWorth, type Proof } from './bounds.js';
import type { Candidates, Pattern } from './pattern.js';
import { type Lie, liesOn, type Problem } from './problem.js';

/** Patterns, numbers kept and steps beyond which it is given up. */
const PATTERNS = 20_000;
const KEPT = 4e6;
const STEPS = 4e6;

export function everyBar(problem: Problem, proof: Proof, beat: number): Candidates {
  const patterns: Pattern[] = [];
  let steps = STEPS;
  for (const [sheet, least] of leastWorth(problem, proof, beat).entries()) {
    const bars = new Bars(problem, sheet, proof.values, least, steps, PATTERNS - patterns.length);
    const complete = bars.run();
    patterns.push(...bars.found);
    if (!complete) return { patterns, complete };
    steps = bars.steps;
  }
  return { patterns, complete: true };
}

/** The patterns of one stock that are worth at least so much. */
class Bars {
  readonly found: Pattern[] = [];
  private readonly lies: readonly Lie[];
  private readonly capacity: number;
  private readonly smallest: number;
  /** The most that lies from one on are worth, by capacity. */
  private readonly rest: Float64Array[] = [];
  private readonly picks: number[];

  constructor(
    private readonly problem: Problem,
    private readonly sheet: number,
    private readonly values: readonly number[],
    private readonly least: number,
    public steps: number,
    private readonly most: number,
  ) {
    const { length, kerf } = problem.sheets[sheet]!;
    this.lies = liesOn(problem, problem.sheets[sheet]!);
    this.capacity = length + kerf;
    this.smallest = Math.min(...this.lies.map(({ along }) => along));
    this.picks = this.lies.map(() => 0);
  }

  /** Whether all were found. */
  run(): boolean {
    if ((this.lies.length + 1) * (this.capacity + 1) > KEPT) return false;
    let rest: Float64Array = new Float64Array(this.capacity + 1);
    this.rest[this.lies.length] = rest;
    for (let i = this.lies.length - 1; i >= 0; i--) {
      rest = this.with(i, rest);
      this.rest[i] = rest;
    }
    return this.from(0, this.capacity, 0);
  }

  /** As many of a lie as one likes: no less than with its number, which is all that is asked of it. */
  private with(i: number, rest: Float64Array): Float64Array {
    const { along, kind } = this.lies[i]!;
    const best = rest.slice();
    for (let c = along; c < best.length; c++) best[c] = Math.max(best[c]!, best[c - along]! + this.values[kind]!);
    return best;
  }

  private from(i: number, room: number, value: number): boolean {
    this.steps -= 1;
    if (this.steps < 0) return false;
    if (value + this.rest[i]![room]! < this.least) return true;
    if (i === this.lies.length) return this.keep(room);
    const { along, kind } = this.lies[i]!;
    for (let n = Math.min(Math.floor(room / along), this.problem.kinds[kind]!.count); n >= 0; n--) {
      this.picks[i] = n;
      if (!this.from(i + 1, room - n * along, value + n * this.values[kind]!)) return false;
    }
    return true;
  }

  /** Only where nothing more fits in: the others are parts of these. */
  private keep(room: number): boolean {
    const more = (lie: Lie, i: number) => lie.along <= room && this.picks[i]! < this.problem.kinds[lie.kind]!.count;
    if (room >= this.smallest && this.lies.some(more)) return true;
    this.found.push(barPattern(this.problem, this.sheet, this.lies, this.picks));
    return this.found.length <= this.most;
  }
}
