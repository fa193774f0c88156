/** The lines of the table, and what a filter asks of them: one for each listed finding, and for each penetration without one. */
import { needsAttention } from '../../src/attention.js';
import type { HoldPoint, Outcome, Rating } from '../../src/model.js';
import { HOLD_LINE, type HoldStep, isReady, stopsAt, toSettle, unlistedWords } from '../../src/report/hold-points.js';
import type { Report, ReportBarrier, ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { oneLine } from '../../src/words/text.js';
import { type Building, barrierKey } from './building.js';

/** A tick of the hold-point line, or what comes after the last of them. */
export type StopsAt = HoldStep['id'] | 'handover';

export interface Row {
  /** `F-0001`, or `P-0001` of a penetration without findings. */
  readonly id: string;
  readonly finding: ReportFinding | null;
  readonly penetration: ReportPenetration | null;
  /** Tag of the penetration, or the run's id; `''`: of neither. */
  readonly tag: string;
  readonly outcome: Outcome;
  /** The finding's sentence; without a finding what is missing all the same, `''` where nothing is. */
  readonly message: string;
  /** `''`: of no check. */
  readonly check: string;
  readonly checkTitle: string;
  /** Key of `Building.storeys`; `''`: none. */
  readonly storey: string;
  readonly storeyName: string;
  readonly elevation: number;
  readonly system: string;
  /** Key of `Building.barriers`; `''`: none, or one that nothing passes. */
  readonly barrier: string;
  readonly barrierName: string;
  /** As it stands in the model, e.g. `EI 120`; `''`: not stated. */
  readonly rating: string;
  /** The earliest hold point that it would stop; null: none. */
  readonly stops: StopsAt | null;
  readonly margin: number | null;
  /** null: none. One that has lapsed concedes nothing any more. */
  readonly concession: 'inForce' | 'lapsed' | null;
  /** Lower case, what a search looks through. */
  readonly text: string;
}

export function rowsOf(report: Report, building: Building): Row[] {
  const { lookup } = building;
  const runs = new Map(report.runs.map((run) => [run.id, run]));
  const barriers = new Map(report.barriers.map((barrier) => [`${barrier.model}/${barrier.globalId}`, barrier]));
  const place = placesOf(report);
  const rows = report.findings.map((finding): Row => {
    const { subject } = finding;
    const p = place(finding);
    const check = lookup.checks.get(finding.check);
    const run = subject.type === 'run' ? runs.get(subject.id) : undefined;
    // A barrier that nothing passes has findings too.
    const [barrier] = subject.elements.flatMap((one) => barriers.get(`${one.model}/${one.globalId}`) ?? []);
    return rowOf(building, p, p ?? { barrier, storey: barrier?.storey ?? null }, {
      ...{ id: finding.id, finding, outcome: finding.outcome, message: finding.message, check: finding.check },
      ...{ checkTitle: check?.title ?? finding.check, margin: finding.margin },
      concession: finding.concession?.state ?? null,
      tag: p?.tag ?? (subject.type === 'run' ? subject.id : ''),
      system: oneLine(p?.duct.system ?? run?.system ?? ''),
      stops: stepStopped(check?.stops ?? null, finding),
    });
  });
  const spoken = new Set(rows.flatMap(({ penetration }) => penetration?.id ?? []));
  const silent = report.penetrations.filter(
    ({ id }) => !spoken.has(id) && (lookup.findings.get(id) ?? []).length === 0,
  );
  return [
    ...rows,
    ...silent.map((p) =>
      rowOf(building, p, p, {
        ...{
          id: p.id,
          finding: null,
          outcome: p.outcome,
          check: '',
          checkTitle: '',
          margin: null,
          concession: null,
        },
        ...{ message: unlistedWords(p, toSettle(p, lookup)) ?? '', tag: p.tag },
        ...{ system: oneLine(p.duct.system ?? ''), stops: earliestStop(p, building) },
      }),
    ),
  ];
}

type Said = Omit<
  Row,
  'penetration' | 'storey' | 'storeyName' | 'elevation' | 'barrier' | 'barrierName' | 'rating' | 'text'
>;

interface Place {
  readonly barrier: Pick<ReportBarrier, 'name' | 'rating'> | undefined;
  readonly storey: ReportBarrier['storey'];
}

function rowOf(building: Building, p: ReportPenetration | null, { barrier, storey }: Place, said: Said): Row {
  const barrierName = oneLine(barrier?.name ?? '');
  const storeyName = oneLine(storey?.name ?? '');
  const texts = [said.tag, said.message, said.checkTitle, said.system, barrierName, storeyName, p?.duct.name];
  return {
    ...said,
    ...{ penetration: p, barrierName, storeyName },
    storey: building.storeyOf(storey?.globalId),
    elevation: storey?.elevation ?? -Infinity,
    barrier: p ? barrierKey(p) : '',
    rating: barrier ? ratingWords(barrier.rating) : '',
    text: texts.join(' ').toLowerCase(),
  };
}

/** The penetration that a finding is about first of all; none for runs and models. */
function placesOf(report: Report): (finding: ReportFinding) => ReportPenetration | null {
  const byId = new Map(report.penetrations.map((p) => [p.id, p]));
  const byElement = new Map<string, ReportPenetration>();
  for (const p of report.penetrations)
    for (const { model, globalId } of [...p.elements, p.barrier, ...(p.opening?.globalId ? [p.opening] : [])]) {
      const key = `${model}/${globalId}`;
      if (!byElement.has(key)) byElement.set(key, p);
    }
  return ({ subject }) => {
    if (subject.type === 'penetration') return byId.get(subject.id) ?? null;
    if (subject.type === 'run' || subject.type === 'model') return null;
    return subject.elements.map(({ model, globalId }) => byElement.get(`${model}/${globalId}`)).find((p) => p) ?? null;
  };
}

export const ratingWords = ({ state, text }: Pick<Rating, 'state' | 'text'>): string =>
  state === 'unstated' ? '' : oneLine(text ?? '');

/** What a finding stops; what a document does not say is taken as the earliest, as on the cards. */
function stepStopped(stops: HoldPoint | null, finding: ReportFinding): StopsAt | null {
  if (!needsAttention(finding)) return null;
  if (stops === null) return HOLD_LINE[0]!.id;
  if (stops === 'handover') return stops;
  return HOLD_LINE.find(({ stoppedBy }) => stoppedBy === stops)?.id ?? null;
}

/** The first tick of the hold-point line that something is known against. */
export function earliestStop(p: ReportPenetration, { lookup }: Building): HoldStep['id'] | null {
  const settle = toSettle(p, lookup);
  if (isReady(p, settle)) return null;
  return HOLD_LINE.find((step) => stopsAt(p, step, settle) > 0)?.id ?? null;
}
