/** The tables at the end of report.html: register, strategy, checks, models. */
import { number } from '../words/text.js';
import { STATUS_WORDS, valueWords } from '../words/values.js';
import { accessWords } from './access-words.js';
import { outcomeMarkup } from './html-front.js';
import { paragraph, sentence, table, tag, text } from './html-markup.js';
import type { Report, ReportFinding, ReportPenetration } from './schema.js';
import { strategyWords } from './strategy-words.js';
import { SUPPORT_CAUTIONS, supportWords } from './support-words.js';
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

/** What is there and what would do stand in columns of their own: nothing that would do is there for that. */
export function strategyTable(report: Report): string {
  const rows = strategyWords(report);
  const lines = (items: readonly string[]): string => (items.length > 0 ? items : ['none']).map(sentence).join('<br>');
  return [
    tag('h2', {}, 'Fire strategy of the ductwork'),
    paragraph(
      rows.length === 0
        ? 'No run is known to have to hold back fire by itself: see the register for dampers and what is not known.'
        : 'Runs, and parts of runs between fire dampers, that must hold back fire by themselves. Lengths along the ducts.',
    ),
    ...(rows.length === 0
      ? []
      : [
          table(
            'small',
            [
              'Run',
              'From – to',
              'Asked for',
              'Because',
              'Said to be there',
              'Would do',
              'Barriers',
              'Lapses',
              'Contradictions',
            ],
            rows.map((row) => [
              lines([row.run, row.system, row.service].filter((part) => part !== '')),
              lines([row.from, row.to].filter((part) => part !== '')),
              lines([row.required, row.fire]),
              lines(row.reasons),
              lines(row.there),
              lines(row.wouldFit),
              lines(row.crossings),
              lines(row.lapses),
              lines(row.contradictions),
            ]),
          ),
        ]),
  ].join('\n');
}

const lines = (items: readonly string[]): string => items.map(sentence).join('<br>');

export function supportsTable(report: Report): string {
  const rows = supportWords(report);
  return [
    tag('h2', {}, 'Support schedule'),
    paragraph(
      rows.length === 0
        ? 'No protected ductwork is known to have to hold back fire by itself, so there is nothing to support in a fire.'
        : 'Straight ductwork that must hold back fire by itself and is protected, by stretch and section.',
    ),
    ...(rows.length === 0
      ? []
      : [
          ...SUPPORT_CAUTIONS.map((caution) => paragraph(caution)),
          table(
            'small',
            [
              ...['Stretch', 'Duct (mm)', 'Length', 'Holds', 'Mass', 'Support', 'Greatest spacing', 'Load and stress'],
              ...['First from a barrier', 'Rods', 'Supports', 'Basis'],
            ],
            rows.map((row) => [
              ...[row.where, row.section, row.length, row.time].map(sentence),
              lines(row.masses),
              sentence(row.support),
              lines(row.spacing),
              lines(row.load),
              sentence(row.first),
              lines(row.rodLength),
              ...[row.count, row.basis].map(sentence),
            ]),
          ),
        ]),
  ].join('\n');
}

/** What is proposed is not there, and says so in a column of its own. */
export function accessTable(report: Report): string {
  const rows = accessWords(report);
  return [
    tag('h2', {}, 'Access to the ductwork for cleaning'),
    paragraph(
      'Access panels that are modelled, and where further ones would have to be for what is asked: as few as do, clear of joints, barriers and local build-ups.',
    ),
    table(
      'small',
      ['Run', 'Is', 'What', 'x, y, z (mm)', 'Side', 'Size (mm)', 'Where, why', 'Shown by, asked by'],
      rows.map((row) => [row.run, row.state, row.what, row.at, row.side, row.size, row.why, row.source].map(sentence)),
    ),
  ].join('\n');
}

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
