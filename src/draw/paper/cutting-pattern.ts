/** One pattern of a cutting plan: how often, from what, and the piece of stock to scale with its parts and offcuts. */
import type { Cut, CutPattern, Offcut } from '../../quantify/cutting/types.js';
import { number } from '../../words/text.js';
import { MEDIUM, THICK, THIN } from './dimension.js';
import { drawLabel, drawText, type Label, labelSize } from './label.js';
import { type Box, centred, middleOf, Sheet } from './layout.js';
import { INK, RULE, SECONDARY, SHEET } from './palette.js';
import { stripes } from './stripes.js';
import { element, line } from './svg.js';
import { ascent, fitted, lineHeight, type Style, wrapped } from './text.js';

/** How high bars are drawn, whose second size a plan does not know. */
const BAR = 9;
/** Below every pattern, for numbers that stand outside their part. */
const BELOW = 5;
/** Left of the piece of stock. */
export const CAPTION = 27;
const TIMES: Style = { lettering: 'large', bold: true };
const NORMAL: Style = { lettering: 'normal' };
const SMALL: Style = { lettering: 'small' };

/** Where a pattern stands on paper, and at which scale. */
export interface Place {
  readonly left: number;
  readonly top: number;
  readonly scale: number;
}

/** Numbers by which the legend names parts. */
export type Numbers = ReadonlyMap<string, number>;

export const sizeWords = ({ length, width }: { readonly length: number; readonly width?: number }): string =>
  width === undefined ? number(length) : `${number(length)} × ${number(width)}`;

/** Parts of one name and size have one number. */
const legendText = (cut: Cut): string => `${cut.part}, ${sizeWords(cut)}`;

export const patternHeight = ({ stock }: CutPattern, scale: number): number =>
  Math.max(stock.width === undefined ? BAR : stock.width / scale, captionHeight()) + BELOW;

const captionHeight = (): number => lineHeight(TIMES) + 3 * lineHeight(SMALL);

/** What can't be written into its part. */
export const toNumber = ({ cuts }: CutPattern, scale: number): string[] =>
  cuts.filter((cut) => !labelIn(cut, boxOf(cut, { left: 0, top: 0, scale }))).map(legendText);

export function drawPattern(pattern: CutPattern, place: Place, numbers: Numbers): string {
  const { stock, cuts, offcuts, times } = pattern;
  const whole = boxOf({ x: 0, y: 0, ...sizesOf(stock) }, place);
  const band = { x: whole.x, y: whole.y + whole.height, width: whole.width, height: BELOW };
  const below = { sheet: new Sheet(band), y: middleOf(band)[1] };
  const outline = { ...whole, fill: SHEET, stroke: INK, 'stroke-width': THICK };
  return [
    drawCaption(`${number(times)} ×`, `${stock.form} ${sizeWords(stock)}`, place),
    element('rect', outline),
    ...offcuts.map((offcut) => drawOffcut(offcut, place)),
    ...cuts.map((cut) => element('rect', { ...boxOf(cut, place), fill: SHEET, stroke: INK, 'stroke-width': MEDIUM })),
    ...offcuts.map((offcut) => offcutLabel(offcut, place)),
    ...cuts.map((cut) => drawCutLabel(cut, boxOf(cut, place), numbers, below)),
  ].join('');
}

const sizesOf = ({ length, width }: { readonly length: number; readonly width?: number }) =>
  width === undefined ? { length } : { length, width };

function boxOf(
  { x, y, length, width }: { readonly x: number; readonly y: number; readonly length: number; readonly width?: number },
  { left, top, scale }: Place,
): Box {
  const height = width === undefined ? BAR : width / scale;
  return { x: left + x / scale, y: top + y / scale, width: length / scale, height };
}

function drawCaption(times: string, stock: string, { left, top }: Place): string {
  const x = left - CAPTION;
  const first = drawText(fitted(times, CAPTION - 2, TIMES), [x, top + ascent(TIMES)], TIMES);
  const lines = wrapped(stock, CAPTION - 2, 3, SMALL).map((text, i) =>
    drawText(text, [x, top + lineHeight(TIMES) + i * lineHeight(SMALL) + ascent(SMALL)], {
      ...SMALL,
      colour: SECONDARY,
    }),
  );
  return [first, ...lines].join('');
}

/** Name and size on two lines or one, as large as they go in; undefined where they don't. */
function labelIn(cut: Cut, box: Box): Label | undefined {
  const size = sizeWords(cut);
  return [NORMAL, SMALL]
    .flatMap((style): Label[] => [
      {
        lines: [
          { ...style, text: cut.part },
          { ...style, text: size },
        ],
      },
      { lines: [{ ...style, text: `${cut.part}, ${size}` }] },
    ])
    .find((label) => fitsIn(label, box));
}

const MARGIN = 0.4;

function fitsIn(label: Label, box: Box): boolean {
  const { width, height } = labelSize(label);
  return width + MARGIN <= box.width && height + MARGIN <= box.height;
}

/** Where numbers stand that don't go into their parts. */
interface Below {
  readonly sheet: Sheet;
  readonly y: number;
}

/** In the part; else its number, in it or below the stock with a line to it. Where there is no room the legend alone names it. */
function drawCutLabel(cut: Cut, box: Box, numbers: Numbers, below: Below): string {
  const own = labelIn(cut, box);
  if (own) return drawLabel(own, inMiddle(own, box));
  const label: Label = { lines: [{ ...SMALL, text: String(numbers.get(legendText(cut))) }] };
  if (fitsIn(label, box)) return drawLabel(label, inMiddle(label, box));
  const { width, height } = labelSize(label);
  const [x, y] = middleOf(box);
  const placed = below.sheet.place([centred([x, below.y], width, height)]);
  if (!placed) return '';
  const d = line([middleOf(placed)[0], placed.y], [x, y]);
  return element('path', { d, stroke: RULE, 'stroke-width': THIN }) + drawLabel(label, placed);
}

function inMiddle(label: Label, box: Box): Box {
  const { width, height } = labelSize(label);
  return centred(middleOf(box), width, height);
}

/** Scrap is crossed, what is kept is hatched one way and far apart. */
function drawOffcut(offcut: Offcut, place: Place): string {
  const { x, y, width, height } = boxOf(offcut, place);
  const outline = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ] as const;
  const rising = [Math.SQRT1_2, Math.SQRT1_2] as const;
  const falling = [Math.SQRT1_2, -Math.SQRT1_2] as const;
  const lines = offcut.kept
    ? stripes(outline, rising, 3)
    : [...stripes(outline, rising, 1.6), ...stripes(outline, falling, 1.6)];
  const hatch = { d: lines.join(''), stroke: RULE, 'stroke-width': THIN, fill: 'none' };
  return [
    lines.length === 0 ? '' : element('path', hatch),
    element('rect', { x, y, width, height, fill: 'none', stroke: INK, 'stroke-width': THIN }),
  ].join('');
}

/** What is kept says how large it is, where there is room; scrap says nothing. */
function offcutLabel(offcut: Offcut, place: Place): string {
  if (!offcut.kept) return '';
  const box = boxOf(offcut, place);
  const label = [NORMAL, SMALL]
    .flatMap((style): Label[] => [
      { lines: [{ ...style, text: `keep ${sizeWords(offcut)}` }] },
      {
        lines: [
          { ...style, text: 'keep' },
          { ...style, text: sizeWords(offcut) },
        ],
      },
    ])
    .find((each) => fitsIn(each, box));
  return label ? drawLabel(label, inMiddle(label, box)) : '';
}
