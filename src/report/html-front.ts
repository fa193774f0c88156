/** Cover and summary of report.html. */
import { markPicture } from '../draw/paper/mark.js';
import { OUTCOMES, type Outcome } from '../model.js';
import { counted, listed } from '../words/text.js';
import { OUTCOME_WORDS } from '../words/values.js';
import { assumedWords } from './assumed-words.js';
import { commentWords, saidOf } from './comments.js';
import { concessionsInBrief, concessionWords } from './concession-words.js';
import { list, paragraph, sentence, table, tag, text } from './html-markup.js';
import { type OpeningRequests, requestSize } from './opening-requests.js';
import { relate } from './penetration-outcome.js';
import { placeWords } from './place-words.js';
import { unsolvedWords } from './remedy-words.js';
import type { Assumed, Report, ReportFinding } from './schema.js';
import { unknownGroups } from './summary-unknown.js';

/** The outcome as mark and word. */
export const outcomeMarkup = (outcome: Outcome): string =>
  tag('span', { class: `outcome ${outcome}` }, markPicture(outcome), sentence(OUTCOME_WORDS[outcome]));

export function cover(report: Report, revision: string | null): string {
  const facts: [string, string][] = [
    [
      'Models',
      list(
        'ul',
        report.models.map((m) => text(m.file)),
      ),
    ],
    ...(revision === null ? [] : [['Revision', text(revision)] as [string, string]]),
    ['Project brief', report.brief ? text(report.brief.file) : 'the default brief'],
    ['Reviewed', sentence(report.createdAt.replace('T', ', ').replace('Z', ' UTC'))],
    ['Tool', text(report.tool)],
  ];
  return [
    tag('h1', {}, 'Fire separation of ductwork: review of the models'),
    tag('table', { class: 'cover' }, rows(facts)),
    tag(
      'div',
      { class: 'cautions' },
      tag('h3', {}, 'What this report is not'),
      list('ul', report.cautions.map(sentence)),
    ),
  ].join('\n');
}

const rows = (facts: readonly (readonly [string, string])[]): string =>
  tag(
    'tbody',
    {},
    ...facts.map(([name, value]) => tag('tr', {}, tag('th', { scope: 'row' }, name), tag('td', {}, value))),
  );

/** @param pages which penetrations have pages of their own */
export function summaryPage(report: Report, pages: string): string {
  const { summary } = report;
  const unsolved = unsolvedWords(report);
  return [
    tag('h2', {}, 'Summary'),
    paragraph(
      `${counted(summary.penetrations, 'penetration')} through ${counted(summary.barriersCrossed, 'barrier')}. ` +
        `${counted(summary.elementsSkipped, 'element')} not read, ${summary.unclassified} not classified. ` +
        (summary.wouldPass > 0
          ? `Of the results that could not be told, ${summary.wouldPass} meet a limit that proves nothing.`
          : ''),
    ),
    table(
      'counts',
      ['Outcome', 'Penetrations', 'Results of all checks'],
      OUTCOME_ORDER.map((o) => [outcomeMarkup(o), String(summary.penetrationOutcomes[o]), String(summary.outcomes[o])]),
    ),
    paragraph(pages),
    tag('h3', {}, 'What failed, by storey'),
    failedByStorey(report),
    failedElsewhere(report),
    ...(unsolved === '' ? [] : [paragraph(unsolved)]),
    tag('h3', {}, "What can't be told, and what is needed"),
    cantTell(report),
    concessionList(report),
    strayComments(report),
  ].join('\n');
}

const OUTCOME_ORDER: readonly Outcome[] = [
  'failed',
  'cantTell',
  ...OUTCOMES.filter((o) => o !== 'failed' && o !== 'cantTell'),
];

function failedByStorey(report: Report): string {
  const titles = new Map(report.checks.map((check) => [check.id, check.title]));
  const concerned = relate(report.penetrations);
  const storeys = new Map<
    string,
    { name: string; elevation: number; failed: Set<string>; checks: Map<string, number> }
  >();
  const failed = report.findings.filter((f) => f.outcome === 'failed');
  for (const finding of failed) {
    const [penetration] = concerned(finding);
    if (!penetration) continue;
    const { storey } = penetration;
    const key = storey ? storey.globalId : '';
    const row = storeys.get(key) ?? {
      ...{ name: storey?.name ?? 'storey not stated', elevation: storey?.elevation ?? -Infinity },
      ...{ failed: new Set<string>(), checks: new Map<string, number>() },
    };
    storeys.set(key, row);
    for (const { id } of concerned(finding)) row.failed.add(id);
    const title = titles.get(finding.check) ?? finding.check;
    row.checks.set(title, (row.checks.get(title) ?? 0) + 1);
  }
  if (storeys.size === 0) return paragraph(failed.length === 0 ? 'No check failed.' : 'Nothing at a penetration.');
  const highestFirst = [...storeys.values()].sort((a, b) => b.elevation - a.elevation);
  return table(
    'storeys',
    ['Storey', 'Penetrations', 'Failed checks'],
    highestFirst.map((row) => [
      text(row.name),
      String(row.failed.size),
      list(
        'ul',
        [...row.checks].sort((a, b) => b[1] - a[1]).map(([title, count]) => sentence(`${title}: ${count}`)),
      ),
    ]),
  );
}

/** What failed on barriers, runs and models where no penetration is at fault. */
function failedElsewhere(report: Report): string {
  const concerned = relate(report.penetrations);
  const elsewhere = report.findings.filter((f) => f.outcome === 'failed' && concerned(f).length === 0);
  if (elsewhere.length === 0) return '';
  const shown = elsewhere.slice(0, MOST).map((f) => findingItem(report, f));
  const more = elsewhere.length > MOST ? [sentence(`and ${elsewhere.length - MOST} more in report.json`)] : [];
  return tag('h3', {}, 'What failed elsewhere') + list('ul', [...shown, ...more]);
}

function findingItem(report: Report, finding: ReportFinding): string {
  const { key, message, remedy, concession } = finding;
  const parts = [
    `${placeWords(report, finding, []).text}: ${message}`,
    ...(remedy === null ? [] : [`Remedy: ${remedy}`]),
    ...(concession === null ? [] : [`${concessionWords(concession)}.`]),
    ...saidOf(finding).map((one) => `${commentWords(one)}.`),
    `Key ${key}.`,
  ];
  return sentence(parts.join(' '));
}

/** More lines than these are no summary. */
const MOST = 40;

function cantTell(report: Report): string {
  const groups = unknownGroups(report);
  if (groups.length === 0) return paragraph('Nothing that was looked at.');
  const more = groups.length > MOST ? [sentence(`and ${groups.length - MOST} more reasons in report.json`)] : [];
  return list('ul', [
    ...groups
      .slice(0, MOST)
      .map(({ what, remedy }) => sentence(what) + (remedy === null ? '' : `<br>${sentence(remedy)}`)),
    ...more,
  ]);
}

/** What was said of a finding that is no longer listed has to be seen somewhere. */
function strayComments({ comments }: Report): string {
  const stray = comments.filter(({ finding }) => finding === null);
  if (stray.length === 0) return '';
  const items = stray.map((one) => `key ${one.key}: ${commentWords(one)}`);
  return [tag('h3', {}, 'Comments on findings that are not listed'), list('ul', items.map(sentence))].join('\n');
}

/** All of them: one that stands beside no finding has to be seen somewhere. */
function concessionList(report: Report): string {
  if (report.concessions.length === 0) return '';
  const items = report.concessions.map(
    (one) => `${one.finding === null ? '' : `${one.finding}, `}key ${one.key}: ${concessionWords(one)}`,
  );
  return [tag('h3', {}, 'Concessions'), paragraph(concessionsInBrief(report)), list('ul', items.map(sentence))].join(
    '\n',
  );
}

/** What was tried out, stamped so that no page of it can be taken for the review. */
export function assumedPage(assumed: Assumed): string {
  const { choices, counts, goes, comes } = assumedWords(assumed);
  const some = (heading: string, findings: readonly string[]): string => {
    const more = findings.length > MOST ? [`and ${findings.length - MOST} more in report.json`] : [];
    const items = [...findings.slice(0, MOST), ...more].map(sentence);
    return items.length === 0 ? '' : tag('h3', {}, heading) + list('ul', items);
  };
  return [
    tag('h2', {}, 'Assumption: what would change'),
    paragraph(assumed.note, 'stamp'),
    list(
      'ul',
      choices.map((one) => sentence(`If ${one}`)),
    ),
    ...counts.map((one) => paragraph(one)),
    some('Would go or change', goes),
    some('Would come or change', comes),
  ].join('\n');
}

/** Which openings are asked for, and for which that are wrong none can be. */
export function openingsList({ requests, withheld }: OpeningRequests): string {
  if (requests.length + withheld.length === 0) return '';
  const items = [
    ...requests.map(
      (r) =>
        `${r.penetration.tag}: ${requestSize(r)} mm in ${r.penetration.barrier.name}, ${r.basis}. Structural engineer to agree.`,
    ),
    ...withheld.map(({ penetration, why }) => `${penetration.tag}: none asked for, since ${why}.`),
  ];
  const more = items.length > MOST ? [`and ${items.length - MOST} more`] : [];
  return tag('h3', {}, 'Openings asked for') + list('ul', [...items.slice(0, MOST), ...more].map(sentence));
}

/** `architecture.ifc and services.ifc`. */
export const projectWords = (report: Report): string => listed(report.models.map((m) => m.file));
