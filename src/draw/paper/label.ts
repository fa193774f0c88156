/** Lines of text with an outcome's mark beside them, as one box. */
import type { Outcome, Vec2 } from '../../model.js';
import type { Box } from './layout.js';
import { mark } from './mark.js';
import { INK, SHEET } from './palette.js';
import { element, escapeText } from './svg.js';
import { ascent, fontSize, lineHeight, type Style, textWidth } from './text.js';

export interface LabelLine extends Style {
  readonly text: string;
  readonly colour?: string;
}

export interface Label {
  readonly lines: readonly LabelLine[];
  readonly mark?: Outcome;
}

const PADDING = 0.5;
const MARK_GAP = 0.6;

const markSize = (label: Label): number => (label.mark ? fontSize(label.lines[0]!) : 0);
/** The mark stands before the first line. */
const indent = (label: Label, i: number): number => (label.mark && i === 0 ? markSize(label) + MARK_GAP : 0);

export function labelSize(label: Label): { readonly width: number; readonly height: number } {
  return {
    width: Math.max(...label.lines.map((l, i) => textWidth(l.text, l) + indent(label, i))) + 2 * PADDING,
    height: label.lines.reduce((sum, l) => sum + lineHeight(l), 0) + 2 * PADDING,
  };
}

/** On a ground of its own, so that hatches and lines do not run through the text. */
export function drawLabel(label: Label, box: Box, ground: string = SHEET): string {
  let top = box.y + PADDING;
  const lines = label.lines.map((l, i) => {
    const drawn = drawText(l.text, [box.x + PADDING + indent(label, i), top + ascent(l)], l);
    top += lineHeight(l);
    return drawn;
  });
  return [
    element('rect', { x: box.x, y: box.y, width: box.width, height: box.height, fill: ground }),
    ...(label.mark ? [mark(label.mark, [box.x + PADDING, box.y + PADDING + MARK_GAP], markSize(label))] : []),
    ...lines,
  ].join('');
}

/** One line of text from its left end; the place is on the baseline. */
export function drawText(text: string, [x, y]: Vec2, style: Style & { readonly colour?: string }): string {
  return element(
    'text',
    {
      x,
      y,
      'font-size': fontSize(style),
      'font-weight': style.bold ? 700 : undefined,
      fill: style.colour ?? INK,
    },
    escapeText(text),
  );
}
