/** The cutting lists in report.html: what is cut from what, and for where. */
import { drawCuttingPlan } from '../draw/paper/cutting-plan.js';
import { counted, number } from '../words/text.js';
import { paragraph, said, sentence, shortened, tag } from './html-markup.js';
import type { Report, ReportTakeoff } from './schema.js';
import { type CutRow, cutRows, materialsById } from './takeoff-rows.js';
import { percent, placesWords, proofWords, stockWords } from './takeoff-words.js';

const MOST_PLACES = 24;

export function cuttingSection(report: Report, takeoff: ReportTakeoff): string {
  return [
    tag('h2', {}, 'Cutting lists'),
    paragraph(
      'Sizes in mm, as they are cut. Equal parts stand for each other: which place each goes to makes no difference.',
    ),
    ...takeoff.cutting.map((cutting) => planMarkup(report, takeoff, cutting)),
  ].join('\n');
}

/** More of one plan than these are only listed. */
const MOST_DRAWN = 60;

/** The plans as pictures, one for each sheet of paper. */
export function cuttingSheets(takeoff: ReportTakeoff): string[] {
  const materials = materialsById(takeoff);
  return takeoff.cutting.flatMap(({ material, plan }) => {
    const drawn = { ...plan, patterns: plan.patterns.slice(0, MOST_DRAWN) };
    const sheets = drawCuttingPlan({ plan: drawn, title: materials.get(material)!.name });
    const more = plan.patterns.length - drawn.patterns.length;
    const left = `${counted(more, 'more pattern')} of this plan: the cutting lists have them all.`;
    return sheets.map(
      (sheet, n) => tag('figure', {}, sheet) + (more > 0 && n === sheets.length - 1 ? paragraph(left) : ''),
    );
  });
}

function planMarkup(report: Report, takeoff: ReportTakeoff, cutting: ReportTakeoff['cutting'][number]): string {
  const { plan, material } = cutting;
  const rows = cutRows(report, takeoff, cutting);
  return [
    tag('h3', {}, said(`${materialsById(takeoff).get(material)!.name}: ${stockWords(plan)}`)),
    paragraph(`${percent(plan.waste)} of it is waste. ${proofWords(plan)}`),
    partsTable(cutting, rows),
    patternsTable(rows),
  ].join('\n');
}

function partsTable({ parts }: ReportTakeoff['cutting'][number], rows: readonly CutRow[]): string {
  const places = new Map(rows.map((row) => [row.part, row.places]));
  return shortened(
    'small parts',
    ['Part', 'Size (mm)', 'Number', 'For'],
    parts.map((one) => [
      sentence(one.part),
      sentence(sizeWords(one)),
      sentence(one.lengths === 1 ? String(one.count) : `${one.count}, ${one.lengths} for one piece`),
      said(placesWords(places.get(one.part) ?? [], MOST_PLACES)),
    ]),
  );
}

function patternsTable(rows: readonly CutRow[]): string {
  const patterns = [...new Set(rows.map(({ pattern }) => pattern))].map((n) =>
    rows.filter(({ pattern }) => pattern === n),
  );
  const together = (own: readonly CutRow[], row: CutRow['row'], words: (one: CutRow) => string): string =>
    own
      .filter((one) => one.row === row)
      .map((one) => `${one.each} × ${words(one)}${one.turned ? ' turned' : ''}`)
      .join(', ');
  return shortened(
    'small patterns',
    ['Pattern', 'Times', 'Stock', 'Parts in each', 'Offcuts to keep (mm)'],
    patterns.map((own) => {
      const { pattern, times, stock } = own[0]!;
      const words = [
        ...[String(pattern), String(times), stock],
        together(own, 'piece', ({ part }) => part ?? ''),
        together(own, 'offcut to keep', ({ length, width }) => `(${sizeWords({ length, width })})`),
      ];
      return words.map(sentence);
    }),
  );
}

const sizeWords = ({ length, width }: Pick<CutRow, 'length' | 'width'>): string =>
  `${number(length)}${width === null ? '' : ` × ${number(width)}`}`;
