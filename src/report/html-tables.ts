/** The tables at the end of report.html: register, checks, models. */
import { number } from '../words/text.js';
import { STATUS_WORDS, valueWords } from '../words/values.js';
import { outcomeMarkup } from './html-front.js';
import { sentence, table, tag, text } from './html-markup.js';
import type { Report, ReportFinding, ReportPenetration } from './schema.js';
import { basisWords, gapWords, openingWords, ratingWords, sectionWords } from './words.js';

export function registerTable(report: Report, findings: ReadonlyMap<string, readonly ReportFinding[]>): string {
  const row = (p: ReportPenetration): string[] => [
    tag('b', {}, text(p.tag)),
    outcomeMarkup(p.outcome),
    text(p.storey?.name ?? ''),
    `${text(p.barrier.name)}, ${sentence(valueWords(p.barrier.construction))}`,
    sentence(ratingWords(p.barrier.rating)),
    `${text(p.duct.system ?? p.duct.name)}, ${sentence(sectionWords(p.duct))}`,
    sentence(openingWords(p.opening)),
    sentence(gapWords(p.gaps)),
    sentence(number(p.skew)),
    sentence(valueWords(p.treatment.kind)),
    sentence(remedyOf(findings.get(p.id) ?? [])),
  ];
  return [
    tag('h2', {}, 'Register'),
    table(
      'small',
      [
        'Tag',
        'Outcome',
        'Storey',
        'Barrier',
        'Rating',
        'Duct (mm)',
        'Opening (mm)',
        'Gaps (mm)',
        'Skew (°)',
        'Treatment',
        'First remedy',
      ],
      report.penetrations.map(row),
    ),
  ].join('\n');
}

const remedyOf = (findings: readonly ReportFinding[]): string =>
  findings.find((f) => f.outcome === 'failed' && f.remedy !== null)?.remedy ?? '';

export function checksTable({ checks, rules }: Report): string {
  return [
    tag('h2', {}, 'Checks and their sources'),
    table(
      'small',
      ['Check', 'About', 'Failed', "Can't tell", 'Passed', 'Inapplicable', 'Basis'],
      checks.map(({ title, about, outcomes: o, basis }) => [
        ...[sentence(title), about, String(o.failed), String(o.cantTell), String(o.passed), String(o.inapplicable)],
        sentence(basisWords(basis)),
      ]),
    ),
    tag('h3', {}, 'Rule documents'),
    table(
      'small',
      ['Document', 'Version', 'File', 'Status', 'Source'],
      rules.map((r) => [text(r.id), text(r.version), text(r.file), STATUS_WORDS[r.status], sentence(r.source)]),
    ),
  ].join('\n');
}

/** A file with thousands of faults would bury the rest; report.json has them all. */
const MOST_PROBLEMS = 100;

export function modelsTable({ models, brief }: Report): string {
  const problems = models.flatMap((m) =>
    m.problems.map((p) => [text(m.file), sentence(p.message), text(p.globalId ?? '')]),
  );
  const more = problems.length - MOST_PROBLEMS;
  return [
    tag('h2', {}, 'Models'),
    table(
      'small',
      [
        'File',
        'Schema',
        'Length unit',
        'Written by',
        'Ducts',
        'Barriers',
        'Openings',
        'Not read',
        'Not classified',
        'SHA-256',
      ],
      models.map((m) => [
        ...[text(m.file), text(m.schema), text(m.lengthUnit), text(m.application ?? '')],
        ...[m.counts.ducts, m.counts.barriers, m.counts.openings, m.counts.skipped, m.counts.unclassified].map(String),
        hash(m.sha256),
      ]),
    ),
    ...(brief ? [table('small', ['Project brief', 'SHA-256'], [[text(brief.file), hash(brief.sha256)]])] : []),
    ...(problems.length === 0
      ? []
      : [
          tag('h3', {}, 'What was not read'),
          table('small', ['File', 'What', 'GlobalId'], problems.slice(0, MOST_PROBLEMS)),
          ...(more > 0 ? [tag('p', {}, sentence(`and ${more} more in report.json`))] : []),
        ]),
  ].join('\n');
}

const hash = (sha256: string): string => tag('span', { class: 'mono' }, text(sha256));
