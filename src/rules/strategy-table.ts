/** The strategy table: for each run what is asked of it, what is there, what would do, and what contradicts it. */
import { compareTexts, fileUnder } from '../collect.js';
import { nameOf, refsOf } from '../element-refs.js';
import type {
  Finding,
  RuleStatus,
  StrategyLapse,
  StrategyRow,
  StretchPart,
  TestedDetail,
  TestedFor,
} from '../model.js';
import { withPassage } from '../strategy/airways.js';
import type { Lapse } from '../strategy/lapses.js';
import type { RunStrategy } from './run-strategy.js';

type ByPenetration = ReadonlyMap<string, TestedFor>;

/** One row for each run, or part of it between fire dampers, that passes a rated barrier; in the order of the runs. */
export function strategyTable(
  strategies: readonly RunStrategy[],
  tested: ByPenetration,
  findings: readonly Finding[],
): StrategyRow[] {
  const failed = new Map<string, Placed[]>();
  for (const [place, finding] of findings.entries())
    if (finding.outcome === 'failed') fileUnder(failed, finding.subject.id, { place, finding });
  return strategies.map((strategy) => rowOf(strategy, tested, failed));
}

/** A finding with its place in the list. */
interface Placed {
  readonly place: number;
  readonly finding: Finding;
}

function rowOf(
  strategy: RunStrategy,
  tested: ByPenetration,
  failed: ReadonlyMap<string, readonly Placed[]>,
): StrategyRow {
  const { run, ordinal, airway, demand, required, mustResist, continuity } = strategy;
  const { served, needed, lapses } = continuity;
  const links = [...airway.inner, ...airway.shut];
  const crossings = links.map(({ penetration }) => penetration).sort((a, b) => compareTexts(a.id, b.id));
  const leadsThrough = new Set(airway.stretches.flatMap(({ compartment }) => compartment ?? []));
  const own = new Set(airway.stretches.flatMap(({ parts }) => parts.map(nameOf)));
  const isAbout = ({ subject }: Finding): boolean =>
    subject.type === 'run' ? subject.elements.some((one) => own.has(nameOf(one))) : subject.type === 'penetration';
  return {
    run: run.id,
    part: ordinal,
    system: run.system,
    service: demand.service,
    mustResist: mustResist ?? null,
    required: { integrity: required.integrity ?? null, insulation: required.insulation ?? null },
    fire: demand.fire,
    reasons: demand.reasons,
    serves: served.compartments,
    passes: [...leadsThrough].filter((id) => !served.compartments.includes(id)).sort(compareTexts),
    reachesOutside: airway.stretches.some(({ parts }) => parts.some(({ outside }) => outside === true)),
    crossings: crossings.map(({ id, treatment }) => ({ penetration: id, treatment: treatment.kind })),
    there: mustResist === true ? thereIn(needed) : [],
    stretches: airway.stretches.map(({ id }) => id),
    testedSystem: settledBy(crossings.flatMap(({ id }) => tested.get(id)?.chosen ?? [])),
    wouldFit: fitsAll(withPassage(airway, 'open').map(({ id }) => tested.get(id)?.feasible ?? [])),
    lapses: mustResist === false ? [] : lapses.map(printed),
    contradictions: [run.id, ...crossings.map(({ id }) => id)]
      .flatMap((id) => failed.get(id) ?? [])
      .filter(({ finding }) => isAbout(finding))
      .sort((a, b) => a.place - b.place)
      .map(({ finding }) => finding.id),
  };
}

/** The one tested system of several barriers, and its fixing where that is one too; null: none, or several. */
export function settledBy(chosen: readonly TestedDetail[]): StrategyRow['testedSystem'] {
  const [systems, fixings] = [new Set(chosen.map((one) => one.system)), new Set(chosen.map((one) => one.fixing))];
  const [id] = systems;
  if (id === undefined || systems.size > 1) return null;
  return { id, fixing: fixings.size === 1 ? [...fixings][0]! : null };
}

/** By kind and evidence, the longest first. */
function thereIn(parts: readonly StretchPart[]): StrategyRow['there'] {
  const found = new Map<string, { kind: StretchPart['protection']['kind']; evidence: string | null; length: number }>();
  for (const { protection, length } of parts) {
    const { kind, evidence } = protection;
    const key = `${kind} ${evidence ?? ''}`;
    found.set(key, { kind, evidence, length: (found.get(key)?.length ?? 0) + length });
  }
  return [...found]
    .sort(([a, p], [b, q]) => q.length - p.length || compareTexts(a, b))
    .map(([, one]) => ({ ...one, length: Number(one.length.toFixed(1)) }));
}

/** Systems that are among all lists. */
function fitsAll(lists: readonly TestedFor['feasible'][]): StrategyRow['wouldFit'] {
  const [first = [], ...rest] = lists;
  const statuses = new Map<string, RuleStatus>(first.map(({ system, status }) => [system, status]));
  return [...statuses]
    .filter(([id]) => rest.every((list) => list.some(({ system }) => system === id)))
    .map(([system, status]) => ({ system, status }))
    .sort((a, b) => compareTexts(a.system, b.system));
}

const printed = ({ kind, length, from, to, compartments, parts, doubts }: Lapse): StrategyLapse => ({
  kind,
  length,
  from,
  to,
  compartments,
  elements: refsOf(parts),
  doubtful: doubts.length > 0,
});
