/** What stands on the sheet of what is selected. */
import { needsAttention } from '../../src/attention.js';
import { compareNumbers } from '../../src/collect.js';
import type { ElementRef, Outcome } from '../../src/model.js';
import { relate } from '../../src/report/penetration-outcome.js';
import type { ReportBarrier, ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { ratingWords } from '../../src/report/words.js';
import { capital, oneLine } from '../../src/words/text.js';
import { seriousness } from '../state/building.js';
import type { OpenReport, Selection } from '../state/state.js';
import { WORDS } from '../words.js';

export interface TitleBlock {
  readonly reference: string;
  /** null, as for barrier and rating: there is none, as of a run. */
  readonly storey: string | null;
  readonly barrier: string | null;
  readonly rating: string | null;
  /** Of the penetration its most serious one, else that of the finding; null: of nothing that is judged. */
  readonly outcome: Outcome | null;
  readonly revision: string;
}

export interface SheetContent {
  readonly penetration: ReportPenetration | null;
  /** Whose notes are shown; null: none is listed here. */
  readonly finding: ReportFinding | null;
  /** All that needs attention here, with the finding that is shown; the most serious first. */
  readonly findings: readonly ReportFinding[];
  /** Passed, inapplicable, or without proof alone; listed only in reports of all findings. */
  readonly others: readonly ReportFinding[];
  /** Penetrations that a finding on something else names, or that pass the barrier. */
  readonly places: readonly ReportPenetration[];
  readonly title: TitleBlock;
}

/** null: nothing is selected, or nothing of this report. */
export function sheetContent(open: OpenReport, selection: Selection): SheetContent | null {
  const { lookup } = open.building;
  const penetration = selection.penetration === null ? undefined : lookup.penetrations.get(selection.penetration);
  if (penetration) return ofPenetration(open, penetration, selection.finding);
  const finding = open.rows.find((row) => row.finding !== null && row.id === selection.finding)?.finding;
  if (finding) return ofFinding(open, finding);
  if (selection.barrier !== null) return ofBarrier(open, selection.barrier);
  return selection.element === null ? null : ofElement(open, selection.element);
}

function ofPenetration(open: OpenReport, p: ReportPenetration, chosen: string | null): SheetContent {
  const all = open.building.lookup.findings.get(p.id) ?? [];
  const findings = all
    .filter((finding) => needsAttention(finding) || finding.id === chosen)
    .sort((a, b) => compareNumbers(seriousness(a.outcome), seriousness(b.outcome)));
  return {
    ...{ penetration: p, findings, places: [] },
    finding: findings.find(({ id }) => id === chosen) ?? findings[0] ?? null,
    others: all.filter((finding) => !findings.includes(finding)),
    title: titleOf(open, {
      reference: p.tag,
      barrier: p.barrier,
      storey: p.storey ?? p.barrier.storey,
      outcome: p.outcome,
    }),
  };
}

function ofFinding(open: OpenReport, finding: ReportFinding): SheetContent {
  const { report } = open;
  const { type, id, elements } = finding.subject;
  const barrier = type === 'barrier' ? report.barriers.find((b) => elements.some((one) => isSame(one, b))) : undefined;
  const places =
    type === 'run' ? report.penetrations.filter(({ duct }) => duct.run === id) : relate(report.penetrations)(finding);
  const run = type === 'run' ? report.runs.find((one) => one.id === id) : undefined;
  const reference =
    type === 'model'
      ? WORDS.sheet.models
      : run
        ? [run.system, id].filter((one) => one !== null).join(' ')
        : (barrier?.name ?? id);
  return {
    ...{ penetration: null, finding, findings: [finding], others: [], places },
    title: titleOf(open, { reference, barrier, storey: barrier?.storey ?? null, outcome: finding.outcome }),
  };
}

function ofBarrier(open: OpenReport, key: string): SheetContent | null {
  const known = open.building.barriers.get(key);
  if (!known) return null;
  const findings = open.report.findings.filter(
    (one) => one.subject.type === 'barrier' && one.subject.elements.some((ref) => isSame(ref, known.barrier)),
  );
  return {
    ...{ penetration: null, finding: findings[0] ?? null, findings, others: [], places: known.penetrations },
    title: titleOf(open, {
      reference: known.name,
      barrier: known.barrier,
      storey: known.barrier.storey,
      outcome: findings[0]?.outcome ?? null,
    }),
  };
}

/** Picked in the model; null: the report does not speak of it. */
function ofElement(open: OpenReport, element: ElementRef): SheetContent | null {
  const { penetrations, findings: all } = open.report;
  const isOf = (refs: readonly ElementRef[]): boolean => refs.some((ref) => isSame(ref, element));
  const findings = all.filter(({ subject }) => isOf(subject.elements));
  const places = penetrations.filter((p) => isOf([...p.elements, p.barrier]));
  if (findings.length + places.length === 0) return null;
  const [first] = places;
  const known =
    first && (isSame(first.duct, element) ? first.duct : isSame(first.barrier, element) ? first.barrier : null);
  return {
    ...{ penetration: null, finding: findings[0] ?? null, findings, others: [], places },
    title: titleOf(open, {
      reference: known?.name || element.globalId,
      ...{ barrier: undefined, storey: null, outcome: findings[0]?.outcome ?? null },
    }),
  };
}

interface Titled extends Pick<TitleBlock, 'reference' | 'outcome'> {
  readonly barrier: Pick<ReportBarrier, 'name' | 'rating'> | undefined;
  readonly storey: { readonly name: string } | null;
}

function titleOf({ building }: OpenReport, { reference, barrier, storey, outcome }: Titled): TitleBlock {
  const { notGiven } = WORDS.sheet;
  return {
    ...{ reference: oneLine(reference) || notGiven, outcome },
    storey: barrier ? oneLine(storey?.name ?? '') || notGiven : null,
    barrier: barrier ? oneLine(barrier.name) || notGiven : null,
    rating: barrier ? capital(ratingWords(barrier.rating)).replace(/^Rated "(.*)"/, '$1') : null,
    revision: building.lookup.revision ?? notGiven,
  };
}

const isSame = (a: ElementRef, b: ElementRef): boolean => a.model === b.model && a.globalId === b.globalId;
