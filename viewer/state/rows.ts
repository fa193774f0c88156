/** The lines of the table, and what a filter asks of them: one for each listed finding, and for each penetration without one. */
import { isOpen } from '../../src/attention.js';
import type { Outcome, Rating } from '../../src/model.js';
import { HOLD_LINE, type HoldStep, isReady, stopsAt, toSettle } from '../../src/report/hold-points.js';
import type { Report, ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { oneLine } from '../../src/words/text.js';
import { type Building, barrierKey } from './building.js';

export interface Row {
  /** `F-0001`, or `P-0001` of a penetration without findings. */
  readonly id: string;
  readonly finding: ReportFinding | null;
  readonly penetration: ReportPenetration | null;
  /** Tag of the penetration, or the run's id; `''`: of the model. */
  readonly tag: string;
  readonly outcome: Outcome;
  readonly message: string;
  readonly check: string;
  readonly checkTitle: string;
  readonly storey: string;
  readonly storeyName: string;
  readonly elevation: number;
  readonly system: string;
  /** Key of `Building.barriers`; `''`: none. */
  readonly barrier: string;
  readonly barrierName: string;
  /** As it stands in the model, e.g. `EI 120`; `''`: not stated. */
  readonly rating: string;
  /** The earliest hold point that it would stop; null: none, or nobody says. */
  readonly stops: HoldStep['id'] | null;
  readonly margin: number | null;
  readonly hasConcession: boolean;
  /** Lower case, what a search looks through. */
  readonly text: string;
}

export function rowsOf(report: Report, building: Building): Row[] {
  const { lookup } = building;
  const runs = new Map(report.runs.map((run) => [run.id, run]));
  const place = placesOf(report);
  const rows = report.findings.map((finding): Row => {
    const p = place(finding);
    const check = lookup.checks.get(finding.check);
    const run = finding.subject.type === 'run' ? runs.get(finding.subject.id) : undefined;
    return rowOf(building, p, {
      ...{ id: finding.id, finding, outcome: finding.outcome, message: finding.message, check: finding.check },
      ...{
        checkTitle: check?.title ?? finding.check,
        margin: finding.margin,
        hasConcession: finding.concession !== null,
      },
      tag: p?.tag ?? (finding.subject.type === 'model' ? '' : finding.subject.id),
      system: p?.duct.system ?? run?.system ?? '',
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
      rowOf(building, p, {
        ...{
          id: p.id,
          finding: null,
          outcome: p.outcome,
          check: '',
          checkTitle: '',
          margin: null,
          hasConcession: false,
        },
        ...{ message: '', tag: p.tag, system: p.duct.system ?? '', stops: earliestStop(p, building) },
      }),
    ),
  ];
}

type Said = Omit<
  Row,
  'penetration' | 'storey' | 'storeyName' | 'elevation' | 'barrier' | 'barrierName' | 'rating' | 'text'
>;

function rowOf(building: Building, p: ReportPenetration | null, said: Said): Row {
  const storey = p ? building.storeyOf(p.storey?.globalId) : '';
  const barrierName = p ? oneLine(p.barrier.name) : '';
  const texts = [
    said.tag,
    said.message,
    said.checkTitle,
    said.system,
    barrierName,
    p?.storey?.name ?? '',
    p?.duct.name,
  ];
  return {
    ...said,
    ...{ penetration: p, storey, barrierName },
    storeyName: p?.storey?.name ?? '',
    elevation: p?.storey?.elevation ?? -Infinity,
    barrier: p ? barrierKey(p) : '',
    rating: p ? ratingWords(p.barrier.rating) : '',
    text: oneLine(texts.join(' ')).toLowerCase(),
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
function stepStopped(stops: string | null, finding: ReportFinding): HoldStep['id'] | null {
  if (finding.outcome !== 'failed' && finding.outcome !== 'untested' && !isOpen(finding)) return null;
  if (stops === null) return HOLD_LINE[0]!.id;
  return HOLD_LINE.find(({ stoppedBy }) => stoppedBy === stops)?.id ?? null;
}

/** The first tick of the hold-point line that something is known against. */
export function earliestStop(p: ReportPenetration, { lookup }: Building): HoldStep['id'] | null {
  const settle = toSettle(p, lookup);
  if (isReady(p, settle)) return null;
  return HOLD_LINE.find((step) => stopsAt(p, step, settle) > 0)?.id ?? null;
}
