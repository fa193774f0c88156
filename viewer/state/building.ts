/** The report as somebody sees it who walks through the building: storeys, barriers, penetrations in walking order. */
import { compareNumbers, compareTexts, fileUnder } from '../../src/collect.js';
import { dot } from '../../src/geometry/vector.js';
import type { BarrierKind, Outcome, Storey } from '../../src/model.js';
import { sameStoreys } from '../../src/quantify/storeys.js';
import { type Lookup, lookupOf } from '../../src/report/lookup.js';
import { countOutcomes } from '../../src/report/outcome-counts.js';
import type { OutcomeCounts, Report, ReportPenetration } from '../../src/report/schema.js';

export interface BuildingStorey {
  /** GlobalId of the storey that stands for all of the same name and height; `''`: no storey is said. */
  readonly key: string;
  readonly name: string;
  /** mm; null: no storey is said. */
  readonly elevation: number | null;
  /** In walking order, those that something passes. */
  readonly barriers: readonly BuildingBarrier[];
  /** Penetrations by their outcome. */
  readonly outcomes: OutcomeCounts;
}

export interface BuildingBarrier {
  /** `model/globalId`. */
  readonly key: string;
  readonly name: string;
  readonly kind: BarrierKind;
  readonly storey: string;
  readonly barrier: ReportPenetration['barrier'];
  /** As seen from side A, from left to right. */
  readonly penetrations: readonly ReportPenetration[];
  readonly outcomes: OutcomeCounts;
}

export interface Building {
  /** From the top down, as a section is drawn. */
  readonly storeys: readonly BuildingStorey[];
  readonly barriers: ReadonlyMap<string, BuildingBarrier>;
  readonly lookup: Lookup;
  /** The storey that stands for one of the models', by its GlobalId. */
  readonly storeyOf: (globalId: string | null | undefined) => string;
}

export const barrierKey = ({ barrier }: Pick<ReportPenetration, 'barrier'>): string =>
  `${barrier.model}/${barrier.globalId}`;

export function buildingOf(report: Report): Building {
  const storeys = storeysOf(report);
  const same = sameStoreys(storeys);
  const storeyOf = (globalId: string | null | undefined): string =>
    globalId === null || globalId === undefined ? '' : (same.get(globalId)?.globalId ?? globalId);
  const byBarrier = new Map<string, ReportPenetration[]>();
  for (const p of report.penetrations) fileUnder(byBarrier, barrierKey(p), p);
  const barriers = new Map(
    [...byBarrier].map(([key, list]) => {
      const storey = storeyOf(list[0]!.storey?.globalId);
      return [key, barrierOf(key, storey, list)] as const;
    }),
  );
  const named = new Map([...same.values()].map((storey) => [storey.globalId, storey]));
  const onStorey = new Map<string, BuildingBarrier[]>([...named.keys()].map((key) => [key, []]));
  for (const barrier of barriers.values()) fileUnder(onStorey, barrier.storey, barrier);
  return {
    barriers,
    storeyOf,
    lookup: lookupOf(report),
    storeys: [...onStorey]
      .map(([key, list]) => ({
        ...{ key, name: named.get(key)?.name ?? '', elevation: named.get(key)?.elevation ?? null },
        barriers: list.sort(inWalkingOrder),
        outcomes: countOutcomes(list.flatMap(({ penetrations }) => penetrations.map(({ outcome }) => outcome))),
      }))
      .sort((a, b) => compareNumbers(b.elevation ?? -Infinity, a.elevation ?? -Infinity)),
  };
}

/** Of barriers and penetrations; those on which nothing lies that the report speaks about it does not know. */
function storeysOf({ penetrations, barriers }: Report): Storey[] {
  const said = [...barriers, ...penetrations].flatMap(({ storey }) => storey ?? []);
  return [...new Map(said.map((storey) => [storey.globalId, storey])).values()];
}

function barrierOf(key: string, storey: string, list: readonly ReportPenetration[]): BuildingBarrier {
  const { barrier, frame } = list[0]!;
  const along = (p: ReportPenetration): number => dot(p.position, frame.right);
  return {
    ...{ key, storey, barrier, name: barrier.name, kind: barrier.kind },
    penetrations: [...list].sort((a, b) => compareNumbers(along(a), along(b)) || compareTexts(a.id, b.id)),
    outcomes: countOutcomes(list.map(({ outcome }) => outcome)),
  };
}

/** Walls before floors; walls from the south-west on, in bands of the length of a stride across the plan. */
function inWalkingOrder(a: BuildingBarrier, b: BuildingBarrier): number {
  const [p, q] = [a.penetrations[0]!.position, b.penetrations[0]!.position];
  return (
    Number(a.kind !== 'wall') - Number(b.kind !== 'wall') ||
    compareNumbers(Math.floor(p[1] / BAND), Math.floor(q[1] / BAND)) ||
    compareNumbers(p[0], q[0]) ||
    compareTexts(a.key, b.key)
  );
}
/** mm. */
const BAND = 6000;

/** Worst first. */
const SERIOUSNESS: readonly Outcome[] = ['failed', 'cantTell', 'untested', 'passed', 'inapplicable'];
export const seriousness = (outcome: Outcome): number => SERIOUSNESS.indexOf(outcome);

/** What a mark shows that stands for several. */
export const worstOf = (counts: OutcomeCounts): Outcome | null =>
  SERIOUSNESS.find((outcome) => counts[outcome] > 0) ?? null;
