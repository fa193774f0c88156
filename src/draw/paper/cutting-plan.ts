/** A cutting plan as sheets of paper: every pattern to one scale, what does not fit into its part in a legend. */
import type { CuttingPlan } from '../../quantify/cutting/types.js';
import { counted, listed, number } from '../../words/text.js';
import { CAPTION, drawPattern, type Numbers, patternHeight, sizeWords, toNumber } from './cutting-pattern.js';
import { drawingOf } from './drawing.js';
import { drawText } from './label.js';
import { drawScaleBar } from './scale-bar.js';
import { ascent, fitted, lineHeight, type Style, wrapped } from './text.js';
import { scaleFor } from './view.js';

export interface CuttingPlanInput {
  readonly plan: CuttingPlan;
  /** What is cut, in words. */
  readonly title: string;
  /** CSS with the typeface, where a drawing has to carry its own; see `fontFaces`. */
  readonly style?: string;
}

/** An A4 sheet less its margins. */
export const PLAN_WIDTH = 180;
export const PLAN_HEIGHT = 257;
const EDGE = 1;
const LEFT = EDGE + CAPTION;
/** Room for a piece of stock. */
const ROOM = { width: PLAN_WIDTH - LEFT - EDGE, height: 110 };
const FOOT = 8;
const COLUMNS = 3;
const TITLE: Style = { lettering: 'large', bold: true };
const NORMAL: Style = { lettering: 'normal' };
const SMALL: Style = { lettering: 'small' };

/** One SVG for each sheet of paper; none where nothing is cut. */
export function drawCuttingPlan(input: CuttingPlanInput): string[] {
  const { plan } = input;
  if (plan.patterns.length === 0) return [];
  const scale = Math.max(...plan.patterns.map(({ stock }) => scaleFor(stock.length, stock.width ?? 0, ROOM)));
  const head = headOf(input);
  const numbers = numbersOf(plan, scale);
  const pages = paginated(plan, scale, PLAN_HEIGHT - head.height - FOOT);
  return pages.map((patterns, i) => {
    const of = pages.length > 1 ? `sheet ${i + 1} of ${pages.length}` : '';
    return drawPage(input, { patterns, of }, scale, numbers, head);
  });
}

interface Page {
  readonly patterns: CuttingPlan['patterns'];
  /** Which sheet of how many, in words. */
  readonly of: string;
}

interface Head {
  readonly lines: readonly { readonly text: string; readonly style: Style }[];
  readonly height: number;
}

function drawPage(input: CuttingPlanInput, page: Page, scale: number, numbers: Numbers, head: Head): string {
  let top = head.height;
  const drawn = page.patterns.map((pattern) => {
    const markup = drawPattern(pattern, { left: LEFT, top, scale }, numbers);
    top += patternHeight(pattern, scale);
    return markup;
  });
  const legend = drawLegend(legendOf(page.patterns, scale), numbers, top);
  const title = fitted(`Cutting plan of ${input.title}`, PLAN_WIDTH, NORMAL);
  return drawingOf(
    { width: PLAN_WIDTH, height: PLAN_HEIGHT, title, style: input.style },
    drawLines(head.lines),
    ...drawn,
    legend,
    drawFoot(input.plan, scale, page.of),
  );
}

function headOf({ plan, title }: CuttingPlanInput): Head {
  const used = plan.used.map(({ stock, pieces }) => `${counted(pieces, stock.form)} of ${sizeWords(stock)} mm`);
  const facts = `${listed(used)}; ${percent(plan.waste)} waste. ${gapWords(plan)}`;
  const width = PLAN_WIDTH - 2 * EDGE;
  const lines = [
    { text: fitted(title, width, TITLE), style: TITLE },
    ...wrapped(facts, width, 3, NORMAL).map((text) => ({ text, style: NORMAL })),
  ];
  return { lines, height: lines.reduce((sum, { style }) => sum + lineHeight(style), EDGE) + 3 };
}

const percent = (share: number): string => `${number(Math.round(share * 1000) / 10)} %`;

function gapWords({ gap, boundHoldsFor, method, lowerBound }: CuttingPlan): string {
  if (lowerBound === 0) return 'Nothing has to be bought.';
  const of = boundHoldsFor === 'every plan' ? 'No plan' : 'No plan of three cutting stages';
  return gap === 0
    ? `${of} buys less, proven ${method}.`
    : `${of} buys ${percent(gap / (1 + gap))} less or more, proven ${method}.`;
}

function drawLines(lines: Head['lines']): string {
  let top = EDGE;
  return lines
    .map(({ text, style }) => {
      const drawn = drawText(text, [EDGE, top + ascent(style)], style);
      top += lineHeight(style);
      return drawn;
    })
    .join('');
}

/** As many patterns on a sheet as there is room for with their legend, at least one. */
function paginated({ patterns }: CuttingPlan, scale: number, room: number): CuttingPlan['patterns'][] {
  const pages: CuttingPlan['patterns'][number][][] = [];
  for (const pattern of patterns) {
    const page = pages.at(-1);
    const longer = [...(page ?? []), pattern];
    const height = longer.reduce((sum, each) => sum + patternHeight(each, scale), 0);
    if (page && height + legendHeight(legendOf(longer, scale).length) <= room) page.push(pattern);
    else pages.push([pattern]);
  }
  return pages;
}

function numbersOf({ patterns }: CuttingPlan, scale: number): Numbers {
  return new Map(legendOf(patterns, scale).map((text, i) => [text, i + 1]));
}

const legendOf = (patterns: CuttingPlan['patterns'], scale: number): string[] => [
  ...new Set(patterns.flatMap((pattern) => toNumber(pattern, scale))),
];

const legendHeight = (entries: number): number => Math.ceil(entries / COLUMNS) * lineHeight(SMALL);

/** Down the columns, so that numbers are found in their order. */
function drawLegend(entries: readonly string[], numbers: Numbers, top: number): string {
  const width = (PLAN_WIDTH - 2 * EDGE) / COLUMNS;
  const rows = Math.ceil(entries.length / COLUMNS);
  return [...entries]
    .sort((a, b) => numbers.get(a)! - numbers.get(b)!)
    .map((text, i) => {
      const x = EDGE + Math.floor(i / rows) * width;
      const y = top + (i % rows) * lineHeight(SMALL) + ascent(SMALL);
      return drawText(fitted(`${numbers.get(text)}  ${text}`, width - 2, SMALL), [x, y], SMALL);
    })
    .join('');
}

function drawFoot({ patterns }: CuttingPlan, scale: number, of: string): string {
  const bars = patterns.every(({ stock }) => stock.width === undefined);
  const texts = [`1:${number(scale)}, all in mm${bars ? '; only lengths are to scale' : ''}`, 'crossed: scrap', of];
  const note = texts.filter((text) => text !== '').join('; ');
  return drawScaleBar(scale, { x: EDGE, y: PLAN_HEIGHT - 6, width: PLAN_WIDTH, height: 6 }, note);
}
