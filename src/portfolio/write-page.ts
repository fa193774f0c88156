/** portfolio.html: what a portfolio came to, on one page that prints. */
import type { FontFace } from '../draw/paper/font-face.js';
import { markPicture } from '../draw/paper/mark.js';
import { htmlFile, list, paragraph, sentence, table, tag, text } from '../report/html-markup.js';
import { styleSheet } from '../report/html-style.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from '../report/words.js';
import { counted } from '../words/text.js';
import type { Portfolio, PortfolioProject, PortfolioRow, Trend } from './summary.js';

const HEADS = [
  'Project',
  'Revision',
  'Job',
  'Penetrations',
  'Failed',
  "Can't tell",
  'Since the revision before',
  'How',
];

export function writePortfolioPage(portfolio: Portfolio, fonts: readonly FontFace[]): Uint8Array {
  const { id, createdAt, tool, demonstration, cautions, projects } = portfolio;
  const running = {
    project: id,
    edition: createdAt.slice(0, 10),
    stamp: demonstration ? DEMONSTRATION.split(':')[0]! : null,
    caution: CAUTION_IN_BRIEF,
  };
  const section = tag(
    'section',
    { class: 'wide' },
    ...(demonstration ? [paragraph(DEMONSTRATION, 'stamp')] : []),
    tag('h1', {}, text(id)),
    paragraph(`${totalsWords(portfolio)} ${tool}, ${createdAt}.`),
    table('portfolio', HEADS.map(sentence), projects.flatMap(rowsOf)),
    tag('h2', {}, 'Cautions'),
    list('ul', cautions.map(sentence)),
  );
  return htmlFile(`Portfolio ${id}`, `${styleSheet(running, fonts)}\n${STYLE}`, [section]);
}

const STYLE = `
section { page: wide }
h1 { margin-top: 0 }
td svg.mark { width: 4mm; height: 4mm; vertical-align: -0.8mm }
.stamp { font-weight: bold }`;

/** `40 jobs: 39 done, 1 dead. In the latest revisions 12 results failed and 3 can't be told.` */
export function totalsWords({ totals: { jobs, done, dead, failed, cantTell } }: Portfolio): string {
  const ended = [`${done} done`, ...(dead > 0 ? [`${dead} dead`] : [])].join(', ');
  return `${counted(jobs, 'job')}: ${ended}. In the latest revisions ${counted(failed, 'result')} failed and ${cantTell} can't be told.`;
}

const rowsOf = ({ project, rows }: PortfolioProject): string[][] =>
  rows.map((row, i) => [i === 0 ? text(project) : '', text(row.revision ?? ''), text(row.job), ...cellsOf(row)]);

function cellsOf({ result, trend, fault, attempts, wasDone }: PortfolioRow): string[] {
  const tries = attempts > 1 ? `, ${attempts} tries` : '';
  if (!result) return ['', '', '', '', sentence(`Dead${tries}: ${fault ?? ''}`)];
  const { failed, cantTell } = result.outcomes;
  return [
    String(result.penetrations),
    `${failed > 0 ? markPicture('failed') : ''} ${failed}`,
    `${cantTell > 0 ? markPicture('cantTell') : ''} ${cantTell}`,
    trend ? sentence(trendWords(trend)) : '',
    sentence(wasDone ? 'Done before, from the same files' : `${result.seconds.toFixed(1)} s${tries}`),
  ];
}

/** `3 fewer failed, 1 more can't be told, 2 more penetrations`; `no count changed`. */
export function trendWords({ failed, cantTell, penetrations }: Trend): string {
  const words = [
    moreOrFewer(failed, 'failed'),
    moreOrFewer(cantTell, "can't be told"),
    moreOrFewer(penetrations, Math.abs(penetrations) === 1 ? 'penetration' : 'penetrations'),
  ].filter((word) => word !== '');
  return words.length === 0 ? 'no count changed' : words.join(', ');
}

const moreOrFewer = (difference: number, what: string): string =>
  difference === 0 ? '' : `${Math.abs(difference)} ${difference > 0 ? 'more' : 'fewer'} ${what}`;
