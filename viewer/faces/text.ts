/** Widths of text on screen, by the metrics of the typeface that the papers are printed in. */
import { fitted, fontSize, type Style, textWidth } from '../../src/draw/paper/text.js';

const style = (bold: boolean): Style => ({ lettering: 'normal', bold });

/** px. @param size of the font, px */
export const widthOf = (text: string, size: number, bold = false): number =>
  (textWidth(text, style(bold)) / fontSize(style(bold))) * size;

/** On one line, no wider than so many px: what does not fit ends in an ellipsis. */
export const fittedTo = (text: string, width: number, size: number, bold = false): string =>
  fitted(text, (width / size) * fontSize(style(bold)), style(bold));
