/** Pages of a fixed size from pieces of known height: nothing is cut, and what goes on is headed again. */

import { type Attributes, escapeText } from '../../draw/paper/svg.js';
import { fontSize, lineHeight, type Style, wrapped } from '../../draw/paper/text.js';
import { brief } from '../../words/text.js';
import { tag } from '../html-markup.js';

/** Height in millimetres on paper; never torn apart. */
export interface Piece {
  readonly markup: string;
  readonly height: number;
}

/** Rows under a head that stands again where they go on. */
export interface Block {
  readonly headHeight: number;
  readonly rows: readonly Piece[];
  /** All on one page, wherever one holds them. */
  readonly isWhole?: boolean;
  /** Head and some of the rows. */
  readonly markup: (rows: readonly Piece[], isContinued: boolean) => string;
}

/** @param room millimetres of a page. @returns the markup of each page */
export function pagesOf(blocks: readonly Block[], room: number): string[] {
  const pages: string[][] = [[]];
  let left = room;
  for (const { headHeight, rows, isWhole = false, markup } of blocks) {
    let from = 0;
    while (from < rows.length) {
      const fit = countThatFits(rows.slice(from), left - headHeight);
      if (fit < (isWhole ? rows.length - from : 1) && left < room) {
        pages.push([]);
        left = room;
        continue;
      }
      // A piece that is higher than a page stands alone on one.
      const taken = rows.slice(from, from + Math.max(1, fit));
      pages.at(-1)!.push(markup(taken, from > 0));
      left -= headHeight + heightOf(taken);
      from += taken.length;
    }
  }
  return pages.map((page) => page.join('\n'));
}

export const heightOf = (pieces: readonly Piece[]): number => pieces.reduce((sum, { height }) => sum + height, 0);

function countThatFits(rows: readonly Piece[], room: number): number {
  let used = 0;
  const over = rows.findIndex(({ height }) => {
    used += height;
    return used > room;
  });
  return over < 0 ? rows.length : over;
}

/** Longer texts are in report.json whole. */
const LONGEST = 480;
/** Of the width: browsers round the widths of letters. */
const SURE = 0.97;

export interface Part {
  readonly text: string;
  readonly style: Style;
  readonly className?: string;
}

/** A text that the browser breaks into no more lines than it is given height for. */
export function textPiece({ text, style, className }: Part, width: number): Piece {
  const cut = brief(text, LONGEST);
  const lines = Math.max(1, wrapped(cut, width * SURE, Infinity, style).length);
  const classes = [style.lettering, ...(style.bold ? ['bold'] : []), ...(className ? [className] : [])];
  return {
    markup: tag('p', { class: classes.join(' ') }, tag('bdi', {}, escapeText(cut))),
    height: lines * lineHeight(style),
  };
}

export interface Column {
  readonly width: number;
  readonly head: string;
}
export type Cell = readonly (Part | Piece)[];

export const PADDING = { x: 1, y: 0.5 } as const;
/** Of the lines between rows. */
const RULE_WIDTH = 0.25;

export function tableRow(columns: readonly Column[], cells: readonly Cell[], attributes: Attributes = {}): Piece {
  const pieces = cells.map((cell, i) =>
    cell.map((one) => ('markup' in one ? one : textPiece(one, columns[i]!.width - 2 * PADDING.x))),
  );
  return {
    markup: tag('tr', attributes, ...pieces.map((cell) => tag('td', {}, ...cell.map(({ markup }) => markup)))),
    height: Math.max(...pieces.map(heightOf)) + 2 * PADDING.y + RULE_WIDTH,
  };
}

const HEADING: Style = { lettering: 'large', bold: true };
const HEAD: Style = { lettering: 'small', bold: true };
/** Above a heading. */
const ABOVE = 2;

/** @param title null: its head row says it */
export function tableBlock(
  title: string | null,
  className: string,
  columns: readonly Column[],
  rows: readonly Piece[],
): Block {
  const width = columns.reduce((sum, column) => sum + column.width, 0);
  const heading = (text: string): Piece => textPiece({ text, style: HEADING }, width);
  const heads = tableRow(
    columns,
    columns.map(({ head: text }) => [{ text, style: HEAD }]),
  );
  const cols = columns.map((column) => `<col style="width:${column.width}mm">`).join('');
  return {
    headHeight: (title === null ? 0 : ABOVE + heading(`${title}, continued`).height) + heads.height,
    rows,
    markup: (some, isContinued) =>
      [
        ...(title === null ? [] : [tag('h3', {}, heading(isContinued ? `${title}, continued` : title).markup)]),
        tag(
          'table',
          { class: className },
          cols,
          tag('thead', {}, heads.markup),
          tag('tbody', {}, some.map(({ markup }) => markup).join('\n')),
        ),
      ].join('\n'),
  };
}

/** Pieces without a head. */
export const plainBlock = (...rows: readonly Piece[]): Block => ({
  headHeight: 0,
  rows,
  markup: (some) => some.map(({ markup }) => markup).join('\n'),
});

/** Rules of the classes that texts are set in. */
export const textRules = (): string =>
  (['small', 'normal', 'large', 'title'] as const)
    .map((lettering) => {
      const style: Style = { lettering };
      return `p.${lettering} { margin: 0; font-size: ${fontSize(style).toFixed(3)}mm; line-height: ${lineHeight(style).toFixed(3)}mm }`;
    })
    .join('\n');
