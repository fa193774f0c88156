/** The only place that touches HiGHS: linear programmes with columns that are added, and integer programmes. */
import highsLoader, { type Highs, type Model } from 'highs';
import type { Effort } from './effort.js';
import { type Pattern, type Solution, solutionOf, takesKey } from './pattern.js';
import type { Problem } from './problem.js';

// The package is an ES module whose types are written as if it were CommonJS.
const loadHighs = highsLoader as unknown as typeof highsLoader.default;

let loaded: Promise<Highs> | undefined;

/** Loaded once: it is 3.5 MB. Its wasm file is found beside the package's script, which bundlers see and bring along. */
export function loadSolver(): Promise<Highs> {
  loaded ??= loadHighs().catch((error: unknown) => {
    loaded = undefined;
    throw error;
  });
  return loaded;
}

const OPTIONS = { output_flag: false, random_seed: 0 } as const;

export interface Relaxed {
  readonly cost: number;
  /** By pattern, in the order that they were added in. */
  readonly times: Float64Array;
  /** What one more part of each kind costs. */
  readonly values: readonly number[];
  /** What one more piece of each stock on hand would save. */
  readonly spared: readonly number[];
}

/** How often patterns have to be cut where parts of a cut can be made: rows are kinds, then stocks. */
export class Relaxation {
  /** Each once, in the order of the columns. */
  readonly patterns: Pattern[] = [];
  private readonly known = new Set<string>();
  private readonly model: Model;

  constructor(
    highs: Highs,
    private readonly problem: Problem,
    private readonly effort: Effort,
  ) {
    this.model = highs.createModel();
    this.model.options.set({ ...OPTIONS, presolve: 'off', solver: 'simplex', simplex_strategy: 4 });
    for (const { count } of problem.kinds) this.model.addRow(count, Infinity, { indices: [], values: [] });
    for (const { onHand } of problem.sheets) this.model.addRow(-Infinity, onHand, { indices: [], values: [] });
  }

  /** @returns how many were new */
  add(patterns: readonly Pattern[]): number {
    const before = this.patterns.length;
    for (const pattern of patterns) {
      const key = takesKey(pattern);
      if (this.known.has(key)) continue;
      this.known.add(key);
      this.patterns.push(pattern);
      this.model.addCol(this.problem.sheets[pattern.sheet]!.cost, 0, Infinity, column(this.problem, pattern));
    }
    return this.patterns.length - before;
  }

  /** Changes what is still to be cut, and from how many pieces on hand. */
  ask(counts: readonly number[], onHand: readonly number[]): void {
    counts.forEach((count, kind) => {
      this.model.changeRowBounds(kind, count, Infinity);
    });
    onHand.forEach((pieces, sheet) => {
      this.model.changeRowBounds(counts.length + sheet, -Infinity, pieces);
    });
  }

  /** Undefined where the patterns can't make what is asked. */
  solve(): Relaxed | undefined {
    this.effort.spend(STEPS_EACH * this.problem.kinds.length * this.patterns.length);
    this.model.run();
    const { colValue, rowDual } = this.model.getSolution();
    if (this.model.getModelStatus() !== OPTIMAL) return undefined;
    const kinds = this.problem.kinds.length;
    return {
      cost: this.model.getObjectiveValue(),
      times: Float64Array.from(colValue),
      values: this.problem.kinds.map((_, i) => Math.max(0, rowDual[i]!)),
      spared: this.problem.sheets.map((_, i) => Math.max(0, -rowDual[kinds + i]!)),
    };
  }

  dispose(): void {
    this.model.dispose();
  }
}

/** Sums of columns that have to reach what is asked of each row; columns and what is asked may change between solutions. */
export class Covering {
  private readonly model: Model;
  private columns = 0;

  constructor(
    highs: Highs,
    private readonly effort: Effort,
    private readonly asked: readonly number[],
  ) {
    this.model = highs.createModel();
    this.model.options.set({ ...OPTIONS, presolve: 'off', solver: 'simplex', simplex_strategy: 4 });
    for (const least of asked) this.model.addRow(least, Infinity, { indices: [], values: [] });
  }

  add(cost: number, entries: ReadonlyMap<number, number>): void {
    this.columns += 1;
    this.model.addCol(cost, 0, Infinity, { indices: [...entries.keys()], values: [...entries.values()] });
  }

  ask(row: number, least: number): void {
    this.model.changeRowBounds(row, least, Infinity);
  }

  /** What one more of each row costs, and how often each column is used; undefined where they can't reach it. */
  solve(): { readonly times: readonly number[]; readonly values: readonly number[] } | undefined {
    this.effort.spend(STEPS_AGAIN * this.asked.length * this.columns);
    this.model.run();
    if (this.model.getModelStatus() !== OPTIMAL) return undefined;
    const { colValue, rowDual } = this.model.getSolution();
    return { times: Array.from(colValue), values: Array.from(rowDual, (value) => Math.max(0, value)) };
  }

  dispose(): void {
    this.model.dispose();
  }
}

const OPTIMAL = 7;
/** What a solution takes for each row and column, about, measured against the other steps. */
const STEPS_EACH = 12;
/** Where few columns are new. */
const STEPS_AGAIN = 4;

function column(problem: Problem, { takes, sheet }: Pattern): { indices: number[]; values: number[] } {
  const kinds = takes.flatMap((count, kind) => (count > 0 ? [kind] : []));
  return { indices: [...kinds, problem.kinds.length + sheet], values: [...kinds.map((kind) => takes[kind]!), 1] };
}

export interface Best {
  /** Undefined where none was found that is better than what was to be beaten. */
  readonly solution: Solution | undefined;
  /** Whether these patterns have been shown to allow nothing better. */
  readonly proven: boolean;
}

/**
 * The least cost of whole cuts of these patterns. Costs are whole numbers, so that less than one above the bound is best.
 *
 * @param beat only what costs less is looked for
 * @param iterations of the simplex method that it may take
 */
export function bestOf(
  highs: Highs,
  problem: Problem,
  patterns: readonly Pattern[],
  beat: number,
  iterations: number,
): Best {
  const rows = problem.kinds.length + problem.sheets.length;
  return highs.withModel((model): Best => {
    model.options.set({ ...OPTIONS, mip_abs_gap: 0.999, mip_rel_gap: 0, objective_bound: beat - 0.5 });
    model.passModel({
      numCols: patterns.length,
      numRows: rows + 1,
      colCost: patterns.map(({ sheet }) => problem.sheets[sheet]!.cost),
      colLower: patterns.map(() => 0),
      colUpper: patterns.map(() => Infinity),
      rowLower: [...problem.kinds.map(({ count }) => count), ...problem.sheets.map(() => -Infinity), -Infinity],
      rowUpper: [...problem.kinds.map(() => Infinity), ...problem.sheets.map(({ onHand }) => onHand), beat - 1],
      matrix: {
        format: 'csc',
        numRows: rows + 1,
        numCols: patterns.length,
        ...columnsWithCost(problem, patterns, rows),
      },
      integrality: Int32Array.from(patterns, () => 1),
    });
    model.run({
      [highs.constants.callbackType.mipInterrupt](event) {
        if (Number(event.data.mip_total_lp_iterations ?? 0) > iterations) event.interrupt();
        return undefined;
      },
    });
    const status = model.getModelStatus();
    const { infeasible, optimal } = highs.constants.modelStatus;
    const found = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
    return {
      proven: status === optimal || status === infeasible,
      solution: found ? whole(problem, patterns, model.getSolution().colValue) : undefined,
    };
  });
}

/** The last row keeps the cost below what is to be beaten. */
function columnsWithCost(problem: Problem, patterns: readonly Pattern[], row: number) {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const pattern of patterns) {
    const entries = column(problem, pattern);
    indices.push(...entries.indices, row);
    values.push(...entries.values, problem.sheets[pattern.sheet]!.cost);
    starts.push(indices.length);
  }
  return { starts, indices, values };
}

function whole(problem: Problem, patterns: readonly Pattern[], times: ArrayLike<number>): Solution {
  const cuts = patterns.flatMap((pattern, i) => {
    const count = Math.round(times[i]!);
    return count > 0 ? [{ pattern, times: count }] : [];
  });
  return solutionOf(problem, cuts);
}
