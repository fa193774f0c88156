/**
 * What may be changed, and what a change costs.
 *
 * The cost of a change, without unit, is
 *
 *     C = Σ F(work) + Σ r(work) · d + e · n + k · m
 *
 * - `F` a fixed part, once for each kind of work in the change: moving ductwork, cutting openings wider, building them up,
 *   making a new one;
 * - `d` how far, mm: of a moved duct straight to where it goes, of each edge of an opening, of the diameter of a round one; `r` for each mm;
 * - `n` how many elements go along with the first one, `e` for each of them;
 * - `m` how many become longer or shorter, `k` for each of them.
 *
 * A choice of the brief (`choices.ts`) mends what no work at the opening does, so the two never compete.
 *
 * Costs and reaches are common practice, no source; the brief's `choices.changes` says what its project has. Before
 * anything is built, to move a duct is a line in a model, an opening needs the structural engineer, and rated construction
 * that is built up has to be proven again.
 */
import type { AirElementKind, Side } from '../model.js';
import type { BriefChoices } from '../rules/index.js';

export interface Costs {
  readonly move: number;
  readonly movePerMm: number;
  readonly perElement: number;
  readonly perLength: number;
  readonly widen: number;
  readonly widenPerMm: number;
  readonly rebuild: number;
  readonly rebuildPerMm: number;
  readonly newOpening: number;
}

export interface MayChange {
  readonly ductBy: number;
  readonly ductWays: readonly ('up' | 'down' | 'level')[];
  readonly fixed: readonly AirElementKind[];
  readonly widenBy: number;
  readonly rebuildBy: number;
  readonly sides: readonly Side[];
  readonly newOpenings: boolean;
  readonly costs: Costs;
}

const USUAL: MayChange = {
  ductBy: 200,
  ductWays: ['up', 'down', 'level'],
  fixed: ['terminal', 'equipment', 'fan'],
  widenBy: 200,
  rebuildBy: 200,
  sides: ['top', 'bottom', 'left', 'right'],
  newOpenings: true,
  costs: {
    ...{ move: 20, movePerMm: 0.1, perElement: 10, perLength: 5 },
    ...{ widen: 40, widenPerMm: 0.2, rebuild: 60, rebuildPerMm: 0.4, newOpening: 80 },
  },
};

/** What the brief leaves out is usual. */
export function mayChange(choices: Pick<BriefChoices, 'changes'> | undefined): MayChange {
  const { costs, note: _, ...said } = choices?.changes ?? {};
  return { ...USUAL, ...stated(said), costs: { ...USUAL.costs, ...stated(costs ?? {}) } };
}

type Stated<T> = { [K in keyof T]?: Exclude<T[K], undefined> };

const stated = <T extends object>(given: T): Stated<T> =>
  Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as Stated<T>;
