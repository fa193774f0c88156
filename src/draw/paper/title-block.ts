/** The column beside the drawing: what was found, and below it the title block with the tag first. */
import type { Outcome, Rating } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';
import { openingWords, ratingWords, sectionWords } from '../../report/words.js';
import { number } from '../../words/text.js';
import { OUTCOME_WORDS, valueWords } from '../../words/values.js';
import { MEDIUM, THIN } from './dimension.js';
import { drawText } from './label.js';
import type { Box } from './layout.js';
import { mark } from './mark.js';
import { INK, OUTCOME_COLOURS, RULE, SECONDARY } from './palette.js';
import { element, line } from './svg.js';
import { ascent, fitted, lineHeight, type Style, wrapped } from './text.js';

export interface Note {
  readonly outcome: Outcome;
  readonly text: string;
}

const PADDING = 1.5;
const TITLE: Style = { lettering: 'title', bold: true };
const WORD: Style = { lettering: 'large', bold: true };
const VALUE: Style = { lettering: 'normal' };
const CAPTION: Style = { lettering: 'small' };
const CAPTION_WIDTH = 12.5;
const HEAD = lineHeight(TITLE) + lineHeight(WORD) + 2 * PADDING;
const ROW = lineHeight(VALUE) + 1;

export interface TitleBlock {
  readonly penetration: ReportPenetration;
  readonly scale: number;
  readonly revision: string | null;
}

/** A row with a long value takes a second line. */
interface Row {
  readonly caption: string;
  readonly lines: readonly string[];
}

export function drawTitleBlock(block: TitleBlock, column: Box): { readonly markup: string; readonly height: number } {
  const { penetration: p, revision } = block;
  const rows = rowsOf(block, column.width - CAPTION_WIDTH - 2 * PADDING);
  const height = HEAD + rows.reduce((sum, row) => sum + rowHeight(row), 0);
  const left = column.x + PADDING;
  let top = column.y + column.height - height;
  const parts = [
    element('rect', {
      ...{ x: column.x, y: top, width: column.width, height, fill: 'none', stroke: INK, 'stroke-width': MEDIUM },
    }),
    headOf(p, revision, left, top, column),
  ];
  top += HEAD;
  for (const row of rows) {
    parts.push(
      rule(column, top),
      drawText(row.caption, [left, top + 0.5 + ascent(VALUE)], { ...CAPTION, colour: SECONDARY }),
    );
    row.lines.forEach((text, i) => {
      const baseline = top + 0.5 + i * lineHeight(VALUE) + ascent(VALUE);
      parts.push(drawText(text, [left + CAPTION_WIDTH, baseline], VALUE));
    });
    top += rowHeight(row);
  }
  return { markup: parts.join(''), height };
}

const rowHeight = ({ lines }: Row): number => ROW + (lines.length - 1) * lineHeight(VALUE);

const rule = ({ x, width }: Box, y: number): string =>
  element('path', { d: line([x, y], [x + width, y]), stroke: RULE, 'stroke-width': THIN });

/** The tag leads, with its revision; below it the outcome as mark and word. */
function headOf(p: ReportPenetration, revision: string | null, left: number, top: number, column: Box): string {
  const size = lineHeight(WORD);
  const baseline = top + PADDING + ascent(TITLE);
  const label = fitted(revision === null ? p.tag : `${p.tag} ${revision}`, column.width - 2 * PADDING, TITLE);
  const second = top + PADDING + lineHeight(TITLE);
  return [
    drawText(label, [left, baseline], TITLE),
    mark(p.outcome, [left, second], size),
    drawText(OUTCOME_WORDS[p.outcome], [left + size + 0.6, second + ascent(WORD)], {
      ...WORD,
      colour: OUTCOME_COLOURS[p.outcome],
    }),
  ].join('');
}

function rowsOf({ penetration: p, scale }: TitleBlock, width: number): Row[] {
  const { barrier, opening, duct } = p;
  const one = (caption: string, text: string): Row => ({ caption, lines: [fitted(text, width, VALUE)] });
  const two = (caption: string, text: string): Row => ({ caption, lines: wrapped(text, width, 2, VALUE) });
  const thickness = barrier.thickness === null ? 'thickness unknown' : number(barrier.thickness);
  const construction = barrier.construction === 'unknown' ? 'construction unknown' : valueWords(barrier.construction);
  const kind = barrier.kind.charAt(0).toUpperCase() + barrier.kind.slice(1);
  return [
    two(kind, barrier.name || 'without a name'),
    one('Built of', `${construction}, ${thickness}`),
    two('Rating', statedRating(barrier.rating)),
    one('Storey', p.storey?.name || 'not stated'),
    one('Duct', `${duct.system ?? (duct.name || 'unnamed')}, ${sectionWords(duct)}`),
    one('Opening', openingWords(opening)),
    one('Scale', `1:${number(scale)}, all in mm`),
  ];
}

const statedRating = (rating: Rating): string =>
  rating.state === 'stated' && rating.text !== null ? rating.text : ratingWords(rating);

/** As many notes as there is room for, the last line saying how many there are more. */
export function drawNotes(notes: readonly Note[], column: Box): string {
  const style: Style = { lettering: 'normal' };
  const size = lineHeight(style);
  const bottom = column.y + column.height - lineHeight(style);
  let top = column.y;
  const parts: string[] = [];
  for (const [i, { outcome, text }] of notes.entries()) {
    const lines = wrapped(text, column.width - size - 1, notes.length === 1 ? LINES_OF_ONE : LINES_OF_SEVERAL, style);
    if (top + lines.length * lineHeight(style) > bottom) {
      const more = `and ${notes.length - i} more`;
      return [
        ...parts,
        drawText(more, [column.x + size + 1, top + ascent(style)], { ...style, colour: SECONDARY }),
      ].join('');
    }
    parts.push(mark(outcome, [column.x, top], size));
    lines.forEach((each, n) => {
      parts.push(drawText(each, [column.x + size + 1, top + n * lineHeight(style) + ascent(style)], style));
    });
    top += lines.length * lineHeight(style) + 1.5;
  }
  return parts.join('');
}

const LINES_OF_ONE = 8;
const LINES_OF_SEVERAL = 4;
