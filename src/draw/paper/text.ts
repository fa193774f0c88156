/** Text of known size: measured by the metrics of the typeface that the papers carry with them. */
import { oneLine } from '../../words/text.js';
import { ASCENT, BOLD, CAP_HEIGHT, DESCENT, REGULAR, type WidthTable } from './font-metrics.js';

/** Lettering heights of ISO 3098-1, millimetres: the height of a capital. */
export const LETTERING = { small: 1.8, normal: 2.5, large: 3.5, title: 5 } as const;
export type Lettering = keyof typeof LETTERING;

export interface Style {
  readonly lettering: Lettering;
  readonly bold?: boolean;
}

export const fontSize = ({ lettering }: Style): number => LETTERING[lettering] / CAP_HEIGHT;
/** From the baseline of one line to the next. */
export const lineHeight = (style: Style): number => fontSize(style) * (ASCENT + DESCENT);
/** Above and below the baseline. */
export const ascent = (style: Style): number => fontSize(style) * ASCENT;
export const descent = (style: Style): number => fontSize(style) * DESCENT;

/**
 * Millimetres. A character that the typeface has not comes from another one; a square is as wide as any is drawn.
 */
export function textWidth(text: string, style: Style): number {
  const table = style.bold ? BOLD : REGULAR;
  let width = 0;
  for (const character of text) width += characterWidth(character.codePointAt(0)!, table);
  return width * fontSize(style);
}

const SQUARE = 1;

function characterWidth(code: number, table: WidthTable): number {
  for (const { from, widths } of table) {
    const width = widths[code - from];
    if (width !== undefined && code >= from) return width > 0 ? width / 1000 : SQUARE;
  }
  return SQUARE;
}

/** On one line, no wider than `width`: what does not fit ends in an ellipsis. */
export function fitted(text: string, width: number, style: Style): string {
  const characters = [...oneLine(text.slice(0, LONGEST))];
  const whole = characters.join('');
  if (text.length <= LONGEST && textWidth(whole, style) <= width) return whole;
  while (characters.length > 0 && textWidth(`${characters.join('')}…`, style) > width) characters.pop();
  return `${characters.join('').trimEnd()}…`;
}

/** No sheet holds more characters than these on a line or in a note. */
const LONGEST = 500;

/** Lines no wider than `width`, at most `most` of them; words too long for a line are broken. */
export function wrapped(text: string, width: number, most: number, style: Style): string[] {
  const lines: string[] = [];
  const cut = text.length > LONGEST;
  let rest = [...oneLine(text.slice(0, LONGEST))].join('') + (cut ? '…' : '');
  while (rest !== '' && lines.length < most) {
    if (lines.length === most - 1) return [...lines, fitted(rest, width, style)];
    const end = lineEnd(rest, width, style);
    lines.push(rest.slice(0, end).trimEnd());
    rest = rest.slice(end).trimStart();
  }
  return lines;
}

/** After the last blank that fits; where there is none, after the last character that does. */
function lineEnd(text: string, width: number, style: Style): number {
  let end = 0;
  let blank = 0;
  let wide = 0;
  for (const character of text) {
    wide += textWidth(character, style);
    if (wide > width && end > 0) return blank > 0 ? blank : end;
    end += character.length;
    if (character === ' ') blank = end;
  }
  return text.length;
}
