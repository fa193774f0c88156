/** The cutting lists in report.html: what is cut from what, and for where. */
import { counted, number } from '../words/text.js';
import { paragraph, said, sentence, shortened, tag } from './html-markup.js';
import type { Report, ReportTakeoff } from './schema.js';
import { type CutRow, cutRows, materialsById } from './takeoff-rows.js';
import { placesWords } from './takeoff-words.js';

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
  const { plan, stock, material } = cutting;
  const { used, lowerBound, gap, waste, method } = plan;
  return [
    tag('h3', {}, said(`${materialsById(takeoff).get(material)!.name}: ${used} × ${stock}`)),
    paragraph(
      `${percent(waste)} of it is waste. No plan needs fewer than ${number(lowerBound)}` +
        `${gap === 0 ? ', so this one is the best' : `, so this one is within ${percent(gap)} of the best`} (${method}).`,
    ),
    shortened(
      'small',
      ['Pattern', 'Cut', 'Size (mm)', 'In each', 'Together', 'For'],
      cutRows(report, takeoff, cutting).map(rowMarkup),
    ),
  ].join('\n');
}

function rowMarkup({ row, pattern, times, length, width, each, turned, places }: CutRow): string[] {
  const size = `${number(length)}${width === null ? '' : ` × ${number(width)}`}${turned ? ', turned' : ''}`;
  const words = [`${pattern}, cut ${counted(times, 'time')}`, row, size, String(each), String(each * times)];
  return [...words.map(sentence), said(placesWords(places, MOST_PLACES))];
}

const percent = (part: number): string => `${number(part * 100)} %`;
