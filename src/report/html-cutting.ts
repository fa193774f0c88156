/** The cutting lists in report.html: what is cut from what, and for where. */
import { counted, number } from '../words/text.js';
import { paragraph, said, sentence, shortened, tag } from './html-markup.js';
import type { Report, ReportTakeoff } from './schema.js';
import { type CutRow, cutRows, materialsById } from './takeoff-rows.js';
import { percent, placesWords, proofWords, stockWords } from './takeoff-words.js';

const MOST_PLACES = 12;

export function cuttingSection(report: Report, takeoff: ReportTakeoff): string {
  return [
    tag('h2', {}, 'Cutting lists'),
    paragraph(
      'Sizes in mm, as they are cut. Equal pieces stand for each other: which place each goes to makes no difference.',
    ),
    ...takeoff.cutting.map((plan) => planMarkup(report, takeoff, plan)),
  ].join('\n');
}

function planMarkup(report: Report, takeoff: ReportTakeoff, cutting: ReportTakeoff['cutting'][number]): string {
  const { plan, material } = cutting;
  return [
    tag('h3', {}, said(`${materialsById(takeoff).get(material)!.name}: ${stockWords(plan)}`)),
    paragraph(`${percent(plan.waste)} of it is waste. ${proofWords(plan)}`),
    shortened(
      'small',
      ['Pattern', 'Stock', 'Part', 'Size (mm)', 'In each', 'Together', 'For'],
      cutRows(report, takeoff, cutting).map(rowMarkup),
    ),
  ].join('\n');
}

function rowMarkup({ row, part, pattern, stock, times, lengths, each, places, ...size }: CutRow): string[] {
  const words = [
    `${pattern}, cut ${counted(times, 'time')}`,
    stock,
    part ?? row,
    sizeWords(size),
    String(each),
    `${each * times}${lengths === 1 ? '' : `, ${lengths} for one piece`}`,
  ];
  return [...words.map(sentence), said(placesWords(places, MOST_PLACES))];
}

const sizeWords = ({ length, width, turned }: Pick<CutRow, 'length' | 'width' | 'turned'>): string =>
  `${number(length)}${width === null ? '' : ` × ${number(width)}`}${turned ? ', turned' : ''}`;
