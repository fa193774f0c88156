/** The summary that `check` prints: what a coordinator needs to know before opening anything. */

import { counted, oneLine, wrap } from '../words/text.js';
import { assumedWords } from './assumed-words.js';
import { concessionsInBrief, concessionWords } from './concession-words.js';
import { relate } from './penetration-outcome.js';
import { type PlaceWords, placeWords } from './place-words.js';
import { unsolvedWords } from './remedy-words.js';
import type { Report, ReportFinding } from './schema.js';
import { unknownGroups } from './summary-unknown.js';
import { takeoffLine } from './takeoff-words.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from './words.js';

export interface SummaryOptions {
  /** Paths of what was written, as the reader can open them. */
  readonly files: readonly string[];
  /** In characters; 96 when left out. */
  readonly width?: number;
}

/** More than these nobody reads on a terminal; the register has them all. */
const MOST_FINDINGS = 12;
const MOST_GROUPS = 10;

export function writeSummary(report: Report, { files, width = 96 }: SummaryOptions): string {
  const elsewhere = whereTheRestIs(files);
  const sections = [
    headLines(report, width),
    failedLines(report, width, elsewhere),
    unknownLines(report, width, elsewhere),
    concessionLines(report, width),
    report.takeoff === null ? [] : wrap(takeoffLine(report.takeoff), width),
    assumedLines(report, width),
    files.length === 0 ? [] : ['Written', ...files.map((file) => `  ${file}`)],
    wrap(CAUTION_IN_BRIEF, width),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function whereTheRestIs(files: readonly string[]): string {
  return files.some((file) => /(^|[\\/])register\.xlsx$/.test(file)) ? 'register.xlsx' : 'report.json';
}

function headLines(report: Report, width: number): string[] {
  const { summary } = report;
  const { penetrationOutcomes: at, outcomes, crossings } = summary;
  const odd = [
    crossings.endsInside > 0 ? `${crossings.endsInside} ending inside the barrier` : '',
    crossings.partial > 0 ? `${crossings.partial} leaving by another face` : '',
  ].filter((part) => part !== '');
  const parts = [
    `${at.failed} failed`,
    `${at.cantTell} can't tell`,
    ...(at.passed > 0 ? [`${at.passed} passed`] : []),
    ...(at.inapplicable > 0 ? [`${at.inapplicable} inapplicable`] : []),
    ...(at.untested > 0 ? [`${at.untested} untested`] : []),
  ];
  const unread = [
    `${counted(summary.elementsSkipped, 'element')} not read`,
    ...(summary.unclassified > 0 ? [`${summary.unclassified} not classified`] : []),
  ];
  const penetrations = counted(summary.penetrations, 'penetration') + (odd.length > 0 ? ` (${odd.join(', ')})` : '');
  const checks =
    outcomes.failed > 0
      ? `Results of all checks: ${outcomes.failed} failed, ${outcomes.cantTell} could not be told, ${outcomes.passed} passed.`
      : `No check failed. ${outcomes.cantTell} could not be told.`;
  const wouldPass =
    summary.wouldPass > 0
      ? ` Of those that could not be told, ${summary.wouldPass} ${summary.wouldPass === 1 ? 'meets' : 'meet'} a limit that proves nothing: counted, not listed.`
      : '';
  return [
    ...(report.demonstration ? wrap(DEMONSTRATION, width) : []),
    ...(report.revision === null ? [] : wrap(`Revision ${oneLine(report.revision)}`, width)),
    ...wrap(`${penetrations}: ${parts.join(', ')}. ${unread.join(', ')}.`, width),
    ...wrap(checks + wouldPass, width),
  ];
}

function failedLines(report: Report, width: number, elsewhere: string): string[] {
  const failed = report.findings.filter((finding) => finding.outcome === 'failed');
  if (failed.length === 0) return [];
  const shown = failed.slice(0, MOST_FINDINGS);
  const more = failed.length - shown.length;
  const unsolved = unsolvedWords(report);
  return [
    'Failed',
    ...byPlace(report, shown).flatMap(({ place, findings }) => [
      ...wrap(place.text, width, `  ${place.lead}`, '      '),
      ...findings.flatMap((finding) => findingLines(finding, width)),
    ]),
    ...(more > 0 ? [`  and ${more} more in ${elsewhere}`] : []),
    ...(unsolved === '' ? [] : wrap(unsolved, width, '  ')),
  ];
}

function findingLines({ message, remedy, concession }: ReportFinding, width: number): string[] {
  return [
    ...wrap(oneLine(message), width, '    '),
    ...(remedy === null ? [] : wrap(`Remedy: ${oneLine(remedy)}`, width, '    ', '      ')),
    ...(concession === null ? [] : wrap(concessionWords(concession), width, '    ', '      ')),
  ];
}

/** One heading for all findings of a place, in the order of the worst of each. */
function byPlace(
  report: Report,
  findings: readonly ReportFinding[],
): { place: PlaceWords; findings: ReportFinding[] }[] {
  const concerned = relate(report.penetrations);
  const places = new Map<string, { place: PlaceWords; findings: ReportFinding[] }>();
  for (const finding of findings) {
    const { type, id } = finding.subject;
    const key = `${type} ${id}`;
    const place = places.get(key) ?? { place: placeWords(report, finding, concerned(finding)), findings: [] };
    place.findings.push(finding);
    places.set(key, place);
  }
  return [...places.values()];
}

/** Those beside no finding that is shown here have to be told somewhere. */
function concessionLines(report: Report, width: number): string[] {
  const odd = report.concessions.filter(({ state }) => state !== 'inForce');
  return [
    ...(report.concessions.length === 0 ? [] : wrap(concessionsInBrief(report), width)),
    ...odd.flatMap((one) => wrap(`${one.key}: ${concessionWords(one)}`, width, '  - ', '    ')),
  ];
}

/** It comes last and says of itself what it is, so that nobody takes it for the review. */
function assumedLines({ assumed }: Report, width: number): string[] {
  if (assumed === null) return [];
  const { choices, counts, goes, comes } = assumedWords(assumed);
  const some = (heading: string, findings: readonly string[]): string[] =>
    findings.length === 0
      ? []
      : [
          `  ${heading}`,
          ...findings.slice(0, MOST_FINDINGS).flatMap((one) => wrap(oneLine(one), width, '  - ', '    ')),
          ...(findings.length > MOST_FINDINGS ? [`  and ${findings.length - MOST_FINDINGS} more in report.json`] : []),
        ];
  return [
    ...wrap(assumed.note, width),
    ...choices.flatMap((one) => wrap(`If ${oneLine(one)}:`, width, '  ')),
    ...counts.flatMap((one) => wrap(one, width, '  ')),
    ...some('Would go or change', goes),
    ...some('Would come or change', comes),
  ];
}

function unknownLines(report: Report, width: number, elsewhere: string): string[] {
  const groups = unknownGroups(report);
  const more = groups.length - MOST_GROUPS;
  const lines = groups
    .slice(0, MOST_GROUPS)
    .flatMap(({ what, remedy }) => [
      ...wrap(what, width, '  - ', '    '),
      ...(remedy === null ? [] : wrap(remedy, width, '    ')),
    ]);
  if (more > 0) lines.push(`  and ${counted(more, 'more reason', 'more reasons')} in ${elsewhere}`);
  return lines.length === 0 ? [] : ["Can't tell", ...lines];
}
