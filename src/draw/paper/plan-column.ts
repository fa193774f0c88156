/** The column beside a plan: how to read it, tags that found no place on it, title block. */
import type { Outcome } from '../../model.js';
import type { StoreyPlan } from '../../scene/storey-plan.js';
import { brief, capital, counted, listed as inWords, number } from '../../words/text.js';
import { OUTCOME_WORDS } from '../../words/values.js';
import { MEDIUM, THIN } from './dimension.js';
import { HATCHES, type Hatch } from './hatch.js';
import { drawText } from './label.js';
import type { Box } from './layout.js';
import { mark } from './mark.js';
import { INK, OUTCOME_COLOURS, RULE, SECONDARY } from './palette.js';
import { CUT, ratingText, wallHatch } from './plan-content.js';
import { drawSymbol, type Listed, SYMBOL, tagText } from './plan-marks.js';
import type { PlanSheet } from './plan-sheets.js';
import { element, line } from './svg.js';
import { ascent, fitted, fontSize, lineHeight, type Style, wrapped } from './text.js';

const TITLE: Style = { lettering: 'large', bold: true };
const VALUE: Style = { lettering: 'normal' };
const SMALL: Style = { lettering: 'small' };
const HEAD: Style = { lettering: 'small', bold: true };
const PADDING = 1.5;
const CAPTION_WIDTH = 16;

export interface PlanStamp {
  /** ISO 8601, of the review. */
  readonly createdAt: string;
  readonly revision: string | null;
  /** null: the review is not of demonstration data. */
  readonly stamp: string | null;
  readonly caution: string;
}

/** `Ground floor`, else its height. */
export const planName = ({ names, elevation }: StoreyPlan): string =>
  names[0] === undefined ? `Storey at ${heightWords(elevation)}` : names.slice(0, 2).join(', ');

/** `+3.600 m`, as levels are written on drawings. */
export const heightWords = (height: number): string =>
  `${height < 0 ? '\u2212' : '+'}${Math.abs(height / 1000).toFixed(3)} m`;

/** @param paper what the scale holds on */
export function drawPlanTitle(plan: StoreyPlan, sheet: PlanSheet, given: PlanStamp, paper: string, column: Box): Drawn {
  const width = column.width - 2 * PADDING;
  const [own, all] = [sheet.penetrations.length, plan.penetrations.length];
  const rows: [string, string][] = [
    ['Level', heightWords(plan.elevation)],
    ['Marked', own === all ? counted(all, 'penetration') : `${own} of ${counted(all, 'penetration')}`],
    ['Scale', `1:${number(sheet.view.scale)} on ${paper}`],
    ['Sheet', `${sheet.number} of ${sheet.of}`],
    ['Revision', given.revision ?? 'not stated'],
    ['Date', given.createdAt.slice(0, 10)],
  ];
  const title = wrapped(`Plan of ${planName(plan)}`, width, 2, TITLE);
  const caution = wrapped(given.caution, width, 4, SMALL);
  const stamp = given.stamp === null ? [] : wrapped(given.stamp, width, 3, HEAD);
  const row = lineHeight(VALUE) + 0.6;
  const texts = (caution.length + stamp.length) * lineHeight(SMALL);
  const height = 2 * PADDING + title.length * lineHeight(TITLE) + rows.length * row + texts + 2 * PADDING;
  const [left, top] = [column.x + PADDING, column.y + column.height - height];
  let y = top + PADDING;
  const parts = [
    element('rect', {
      ...{ x: column.x, y: top, width: column.width, height, fill: 'none', stroke: INK, 'stroke-width': MEDIUM },
    }),
  ];
  const put = (text: string, style: Style, colour?: string): void => {
    parts.push(drawText(text, [left, y + ascent(style)], { ...style, ...(colour === undefined ? {} : { colour }) }));
    y += lineHeight(style);
  };
  const rule = (): void => {
    const d = line([column.x, y], [column.x + column.width, y]);
    parts.push(element('path', { d, stroke: RULE, 'stroke-width': THIN }));
  };
  for (const text of title) put(text, TITLE);
  for (const [caption, value] of rows) {
    rule();
    const baseline = y + 0.3 + ascent(VALUE);
    parts.push(drawText(caption, [left, baseline], { ...SMALL, colour: SECONDARY }));
    parts.push(drawText(fitted(value, width - CAPTION_WIDTH, VALUE), [left + CAPTION_WIDTH, baseline], VALUE));
    y += row;
  }
  rule();
  y += PADDING;
  for (const text of stamp) put(text, HEAD, OUTCOME_COLOURS.failed);
  for (const text of caution) put(text, SMALL);
  return { markup: parts.join(''), height };
}

interface Drawn {
  readonly markup: string;
  readonly height: number;
}

const HATCH_WORDS: { readonly [H in Hatch]: string } = {
  wide: 'below 90 min',
  medium: '90 min and more',
  close: '120 min and more',
  dotted: 'rating not readable',
};
const SWATCH = { width: 9, height: 3.2 };
const OUTCOMES_SHOWN: readonly Outcome[] = ['failed', 'cantTell', 'passed', 'untested', 'inapplicable'];

/** Only what is on this storey, so that the legend is read. */
export function drawLegend(plan: StoreyPlan, sheet: PlanSheet, id: string, column: Box): Drawn {
  const parts: string[] = [];
  const row = Math.max(SYMBOL + 0.6, lineHeight(SMALL));
  let y = column.y;
  const entry = (picture: string, words: string): void => {
    const lines = wrapped(words, column.width - SWATCH.width - 1.5, 2, SMALL);
    const first = y + Math.max(0, row - lines.length * lineHeight(SMALL)) / 2 + ascent(SMALL);
    parts.push(picture);
    for (const [i, text] of lines.entries())
      parts.push(drawText(text, [column.x + SWATCH.width + 1.5, first + i * lineHeight(SMALL)], SMALL));
    y += Math.max(row, lines.length * lineHeight(SMALL) + 0.6);
  };
  const middle = (): [number, number] => [column.x + SWATCH.width / 2, y + row / 2];
  const swatch = (fill: string, width: number): string =>
    element('rect', {
      ...{ x: column.x + 0.3, y: y + (row - SWATCH.height) / 2, ...SWATCH },
      ...{ fill, stroke: INK, 'stroke-width': width },
    });
  entry(
    northArrow(sheet.turn, middle()),
    plan.up === 'mapNorth' ? 'North of the map grid' : "North as in the models' plans (+y)",
  );
  for (const outcome of OUTCOMES_SHOWN.filter((o) => plan.penetrations.some((p) => p.outcome === o)))
    entry(drawSymbol({ outcome, kind: 'wall' }, middle(), [0, 1]), OUTCOME_WORDS[outcome]);
  if (plan.penetrations.some(({ kind }) => kind !== 'wall'))
    entry(drawSymbol({ outcome: 'inapplicable', kind: 'floor' }, middle(), [0, 1]), 'Square: in a floor or roof');
  const used = new Set(plan.walls.map(wallHatch));
  for (const hatch of HATCHES.filter((one) => used.has(one))) {
    const texts = new Set(
      plan.walls.filter((wall) => wallHatch(wall) === hatch).map(({ rating }) => ratingText(rating)),
    );
    const shown = [...texts].filter((text) => text !== '').slice(0, 4);
    const named = shown.length === 0 || hatch === 'dotted' ? '' : `: ${inWords(shown)}`;
    entry(swatch(`url(#${hatch}-${id})`, CUT), capital(`${HATCH_WORDS[hatch]}${named}`));
  }
  if (used.has('none')) entry(swatch('none', MEDIUM), 'Wall without a known rating');
  entry(ductSample(middle(), SECONDARY, MEDIUM), 'Duct over the cut');
  if (plan.ducts.some(({ lies }) => lies === 'below')) entry(ductSample(middle(), RULE, THIN), 'Duct under the cut');
  return { markup: parts.join(''), height: y - column.y };
}

function northArrow(turn: number, [x, y]: readonly [number, number]): string {
  const turned = `translate(${x.toFixed(2)} ${y.toFixed(2)}) rotate(${((-turn * 180) / Math.PI).toFixed(1)})`;
  return element('g', { transform: turned }, element('path', { d: 'M0 -2.4L1.4 2L0 1L-1.4 2Z', fill: INK }));
}

const ductSample = ([x, y]: readonly [number, number], stroke: string, width: number): string =>
  element('path', {
    d: `${line([x - 4, y - 1.1], [x + 4, y - 1.1])}${line([x - 4, y + 1.1], [x + 4, y + 1.1])}`,
    ...{ fill: 'none', stroke, 'stroke-width': width },
  });

interface ListLine {
  readonly text: string;
  readonly outcome: Outcome | null;
}

/** Tags that found no place on the drawing, by the numbers that stand there. */
export const listLines = (plan: StoreyPlan, listed: readonly Listed[]): ListLine[] =>
  listed.flatMap(({ number: no, members, isShown }) => [
    { text: `No ${no}${isShown ? '' : whereabouts(plan, members[0]!.at)}`, outcome: null },
    ...members.map((p) => ({ text: tagText(p), outcome: p.outcome })),
  ]);

const whereabouts = ({ origin }: StoreyPlan, [x, y]: readonly [number, number]): string =>
  `, at x ${((x + origin[0]) / 1000).toFixed(1)} m, y ${((y + origin[1]) / 1000).toFixed(1)} m`;

/** As many lines as there is room for, in columns of tags. @returns those left over */
export function drawList(
  lines: readonly ListLine[],
  box: Box,
): { readonly markup: string; readonly rest: readonly ListLine[] } {
  const columns = Math.max(1, Math.floor(box.width / LIST_WIDTH));
  const rows = Math.floor(box.height / lineHeight(SMALL));
  const room = Math.max(0, columns * rows);
  const width = box.width / columns;
  const markup = lines.slice(0, room).map(({ text, outcome }, i) => {
    const [x, y] = [box.x + Math.floor(i / rows) * width, box.y + (i % rows) * lineHeight(SMALL)];
    const size = fontSize(SMALL);
    const indent = outcome === null ? 0 : size + 0.4;
    const style = outcome === null ? HEAD : SMALL;
    const words = fitted(brief(text, 60), width - indent - 1, style);
    return (
      (outcome === null ? '' : mark(outcome, [x, y + 0.3], size)) +
      drawText(words, [x + indent, y + ascent(style)], style)
    );
  });
  return { markup: markup.join(''), rest: lines.slice(room) };
}
const LIST_WIDTH = 22;
