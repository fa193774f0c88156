/** The plate beside the rim: the mark, the tag and the outcome's word. In pixels of the picture. */
import type { Outcome, Vec2 } from '../model.js';
import { lettering } from './lettering.js';
import { DOT_RADIUS, MARK_GRID, MARKS } from './marks.js';
import { EDGE, INK, OUTCOME_COLOURS, type Rgb, SECONDARY, SHEET } from './palette.js';
import { type Canvas, fillBox, OVERSAMPLING, stamp } from './raster.js';

export interface PlateText {
  readonly tag: string;
  readonly word: string;
  readonly outcome: Outcome;
  /** Across the foot of the picture. */
  readonly stamp: string | null;
}

const MARK = 48;
const TAG = 20;
const WORD = 12;
const PADDING = 10;
/** Between the rim and the plate. */
const LEADER = 26;
const MARGIN = 12;

export function drawLabel(
  canvas: Canvas,
  rim: { readonly min: Vec2; readonly max: Vec2 },
  { tag, word, outcome, stamp: foot }: PlateText,
): void {
  const size = { width: canvas.width / OVERSAMPLING, height: canvas.height / OVERSAMPLING };
  const [tagText, wordText] = [lettering(tag, TAG), lettering(word, WORD)];
  const width = PADDING + MARK + Math.max(tagText.width, wordText.width) + 2 * PADDING;
  const height = MARK + 2 * PADDING;
  // To the right of the rim and above it, else as near to there as the picture allows.
  const fits = rim.max[0] + LEADER + width + MARGIN <= size.width;
  const x = fits ? rim.max[0] + LEADER : Math.max(MARGIN, rim.min[0] - LEADER - width);
  const y = Math.min(Math.max(rim.min[1] - LEADER - height / 2, MARGIN), size.height - height - MARGIN);
  const foothold: Vec2 = [fits ? x : x + width, y + height / 2];
  const corner: Vec2 = [fits ? rim.max[0] : rim.min[0], Math.max(rim.min[1], MARGIN)];
  drawStroke(canvas, [corner, foothold], OUTCOME_COLOURS[outcome], 1.5);
  fillBox(canvas, x - 1, y - 1, width + 2, height + 2, EDGE);
  fillBox(canvas, x, y, width, height, SHEET);
  drawMark(canvas, outcome, x + PADDING / 2, y + PADDING);
  const left = x + PADDING + MARK;
  drawText(canvas, tagText, left, y + PADDING + 2, INK, 2.4);
  drawText(canvas, wordText, left, y + PADDING + TAG + 12, OUTCOME_COLOURS[outcome], 1.6);
  if (foot === null) return;
  const footText = lettering(foot, WORD);
  const footHeight = WORD + 2 * PADDING;
  fillBox(canvas, 0, size.height - footHeight, size.width, footHeight, SHEET);
  drawText(canvas, footText, MARGIN, size.height - footHeight + PADDING, SECONDARY, 1.6);
}

function drawMark(canvas: Canvas, outcome: Outcome, x: number, y: number): void {
  const k = MARK / MARK_GRID;
  const colour = OUTCOME_COLOURS[outcome];
  const { boxes, dots } = MARKS[outcome];
  for (const [left, top, width, height] of boxes)
    fillBox(canvas, x + left * k, y + top * k, width * k, height * k, colour);
  for (const [cx, cy] of dots)
    stamp(canvas, (x + cx * k) * OVERSAMPLING, (y + cy * k) * OVERSAMPLING, DOT_RADIUS * k * OVERSAMPLING, colour);
}

function drawText(
  canvas: Canvas,
  { strokes }: ReturnType<typeof lettering>,
  x: number,
  y: number,
  colour: Rgb,
  thickness: number,
): void {
  for (const stroke of strokes)
    drawStroke(
      canvas,
      stroke.map(([sx, sy]) => [x + sx, y + sy]),
      colour,
      thickness,
    );
}

function drawStroke(canvas: Canvas, points: readonly Vec2[], colour: Rgb, thickness: number): void {
  const radius = (thickness * OVERSAMPLING) / 2;
  points.slice(1).forEach((to, i) => {
    const from = points[i]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) * OVERSAMPLING));
    for (let s = 0; s <= steps; s++) {
      const t = s / steps;
      const [x, y] = [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
      stamp(canvas, x * OVERSAMPLING, y * OVERSAMPLING, radius, colour);
    }
  });
}
