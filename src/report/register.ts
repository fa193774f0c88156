/** register.xlsx: a row for each penetration, a row for each finding, one for each run that must resist, and what a reader has to know about them. */
import type { ElementRef } from '../model.js';
import { OUTCOME_WORDS, STATUS_WORDS } from '../words/values.js';
import { accessWords } from './access-words.js';
import { concessionsInBrief, concessionWords } from './concession-words.js';
import { findingsByPenetration, relate } from './penetration-outcome.js';
import {
  ACCESS_COLUMNS,
  EVIDENCE_COLUMNS,
  type EvidenceRow,
  FINDING_COLUMNS,
  type FindingRow,
  type PenetrationRow,
  REGISTER_COLUMNS,
  STRATEGY_COLUMNS,
  SUPPORT_COLUMNS,
} from './register-columns.js';
import { takeoffNotes, takeoffTables } from './register-takeoff.js';
import { unsolvedWords } from './remedy-words.js';
import type { Report, ReportFinding } from './schema.js';
import { strategyWords } from './strategy-words.js';
import { SUPPORT_CAUTIONS } from './support-words.js';
import { codeWords, DEMONSTRATION, sourceWords } from './words.js';
import { cell, heading, type Table, table, type Value, writeWorkbook } from './workbook.js';

export async function writeRegister(report: Report): Promise<Uint8Array> {
  const stamp = report.demonstration ? DEMONSTRATION : null;
  return writeWorkbook(
    [
      table('Register', REGISTER_COLUMNS, penetrationRows(report), stamp),
      table('Findings', FINDING_COLUMNS, findingRows(report), stamp),
      table('Strategy', STRATEGY_COLUMNS, strategyWords(report), stamp),
      table('Supports', SUPPORT_COLUMNS, report.supports, stamp),
      table('Access', ACCESS_COLUMNS, accessWords(report), stamp),
      table('Evidence', EVIDENCE_COLUMNS, evidenceRows(report), stamp),
      ...takeoffTables(report, stamp),
      readMe(report, stamp),
    ],
    report.createdAt,
  );
}

export function penetrationRows(report: Report): PenetrationRow[] {
  const { revision } = report;
  const tags = new Map(report.penetrations.map((p) => [p.id, p.tag]));
  const files = fileNames(report);
  const findings = findingsByPenetration(report);
  return report.penetrations.map((penetration) => {
    const failed = (findings.get(penetration.id) ?? []).filter(({ outcome }) => outcome === 'failed');
    const remedies = [...new Set(failed.flatMap(({ remedy }) => remedy ?? []))];
    return { penetration, tags, files, revision, remedies };
  });
}

const evidenceRows = ({ penetrations }: Report): EvidenceRow[] =>
  penetrations.flatMap((penetration) =>
    (penetration.treatment.chosen?.scope ?? []).map((line) => ({ penetration, line })),
  );

function findingRows(report: Report): FindingRow[] {
  const checks = new Map(report.checks.map((check) => [check.id, check]));
  const barriers = new Map(report.barriers.map((barrier) => [keyOf(barrier), barrier]));
  const concerned = relate(report.penetrations);
  const files = fileNames(report);
  return report.findings.map((finding) => {
    const penetrations = concerned(finding);
    const barrier = penetrations[0]?.barrier ?? barrierOf(finding, barriers);
    // A finding on a barrier with one penetration still is no finding on that penetration.
    const penetration = finding.subject.type === 'penetration' ? penetrations[0] : undefined;
    return { finding, check: checks.get(finding.check), penetration, barrier, penetrations, files };
  });
}

const keyOf = (ref: ElementRef): string => `${ref.model}/${ref.globalId}`;
const fileNames = (report: Report) => new Map(report.models.map((model) => [model.id, model.file]));

function barrierOf<B>({ subject }: ReportFinding, barriers: ReadonlyMap<string, B>): B | undefined {
  if (subject.type !== 'barrier') return undefined;
  return subject.elements.map((ref) => barriers.get(keyOf(ref))).find((barrier) => barrier !== undefined);
}

function readMe(report: Report, stamp: string | null): Table {
  const { summary } = report;
  const outcomes = (['failed', 'cantTell', 'passed', 'inapplicable', 'untested'] as const).map(
    (outcome) => [OUTCOME_WORDS[outcome], summary.penetrationOutcomes[outcome], summary.outcomes[outcome]] as const,
  );
  const unsolved = unsolvedWords(report);
  const rows: (readonly Value[])[] = [
    ...report.cautions.map((caution) => ['Caution', caution]),
    ...SUPPORT_CAUTIONS.map((caution) => ['Caution on supports', caution]),
    ...(unsolved === '' ? [] : [['Caution on remedies', unsolved]]),
    [],
    ['Created', report.createdAt],
    ['Revision', report.revision],
    ['Tool', report.tool],
    ['Brief', report.brief ? report.brief.file : 'the default brief'],
    ['Brief, SHA-256', report.brief?.sha256 ?? null],
    ...(report.concessions.length === 0 ? [] : [[], ['Concessions', concessionsInBrief(report)]]),
    ...report.concessions.map((one) => [one.key, concessionWords(one)]),
    ...takeoffNotes(report),
    [],
    ['Penetrations', summary.penetrations],
    ['Barriers crossed', summary.barriersCrossed],
    ['Elements not read', summary.elementsSkipped],
    ['Elements not classified', summary.unclassified],
    [],
    ['Outcome', 'Penetrations', 'Results of all checks'],
    ...outcomes,
    ["Can't tell, but meets a limit that proves nothing", null, summary.wouldPass],
    [],
    ['Check', 'Title', 'Failed', "Can't tell", 'Passed', 'Inapplicable', 'Untested', 'Source', 'Status', 'Code'],
    ...report.checks.map(({ id, title, outcomes: o, basis }) => [
      id,
      title,
      ...[o.failed, o.cantTell, o.passed, o.inapplicable, o.untested],
      sourceWords(basis),
      STATUS_WORDS[basis.status],
      codeWords(basis),
    ]),
    [],
    ['Rules', 'File', 'Version', 'Status', 'Source'],
    ...report.rules.map((rule) => [rule.id, rule.file, rule.version, STATUS_WORDS[rule.status], rule.source]),
    [],
    ['Model', 'File', 'Schema', 'Length unit', 'Written by', 'Not read', 'Not classified', 'Project', 'SHA-256'],
    ...report.models.map((m) => [
      ...[m.id, m.file, m.schema, m.lengthUnit, m.application, m.counts.skipped, m.counts.unclassified],
      ...[m.projectGlobalId, m.sha256],
    ]),
    [],
    ['Model', 'What was not read', 'Code', 'GlobalId'],
    ...report.models.flatMap((m) => m.problems.map((p) => [m.id, p.message, p.code, p.globalId])),
  ];
  const top = [heading(stamp ?? 'How to read this register')];
  return {
    name: 'Read me',
    widths: [28, 60, 18, 18, 18, 14, 14, 26, 30, 30],
    frozen: 1,
    rows: [top, ...rows.map((row) => row.map((value, i) => (i === 0 ? firstCell(value) : cell(value))))],
  };
}

const firstCell = (value: Value) => (typeof value === 'string' ? heading(value) : cell(value));
