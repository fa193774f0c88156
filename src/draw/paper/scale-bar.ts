/** A ruled bar that stays true however large the drawing is shown. */
import { number } from '../../words/text.js';
import { MEDIUM } from './dimension.js';
import { drawText } from './label.js';
import type { Box } from './layout.js';
import { INK, SHEET } from './palette.js';
import { element } from './svg.js';
import { ascent, type Style, textWidth } from './text.js';

const STYLE: Style = { lettering: 'small' };
const PARTS = 5;
const HEIGHT = 1.4;
/** Millimetres on paper of one part. */
const PART = 10;

/**
 * @param note stands beside it
 * @param isNamed the scale stands under the bar, since no title block says it
 */
export function drawScaleBar(scale: number, { x, y }: Box, note: string, isNamed = false): string {
  const baseline = y + HEIGHT + 0.6 + ascent(STYLE);
  const left = x + 1;
  const bars = Array.from({ length: PARTS }, (_, i) =>
    element('rect', {
      ...{ x: left + i * PART, y: y + 0.5, width: PART, height: HEIGHT },
      ...{ fill: i % 2 === 0 ? INK : SHEET, stroke: INK, 'stroke-width': MEDIUM },
    }),
  );
  const at = [0, PARTS].map((i) => ({ text: i === 0 ? '0' : `${number(i * PART * scale)} mm`, x: left + i * PART }));
  if (isNamed) at.push({ text: `1:${number(scale)}`, x: left + (PARTS * PART) / 2 });
  return [
    ...bars,
    ...at.map(({ text, x: middle }) =>
      drawText(text, [Math.max(x, middle - textWidth(text, STYLE) / 2), baseline], STYLE),
    ),
    drawText(note, [left + PARTS * PART + 16, baseline], STYLE),
  ].join('');
}
