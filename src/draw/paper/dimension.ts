/** Dimension lines after ISO 129-1: thin, with oblique strokes at their ends as on building drawings. */
import type { Vec2 } from '../../model.js';
import { drawLabel, type Label, labelSize } from './label.js';
import { type Box, centred, middleOf, type Sheet } from './layout.js';
import { element, line } from './svg.js';

/** Line widths of ISO 128, millimetres. */
export const THIN = 0.18;
export const MEDIUM = 0.25;
export const THICK = 0.5;
const STROKE = 0.9;
/** How far the line runs on beyond its ends. */
const BEYOND = 1.5;
const CLEAR = 0.8;

/** @param side length on paper of the duct's side that the dimension stands on */
export function drawDimension(from: Vec2, to: Vec2, label: Label, colour: string, sheet: Sheet, side = 0): string {
  const box = sheet.place(dimensionPlaces(from, to, label, side));
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return [
    ...(box ? [leader(box, middle, colour)] : []),
    dimensionLine(from, to, colour, label.mark ? MEDIUM : THIN),
    ...(box ? [drawLabel(label, box)] : []),
  ].join('');
}

function dimensionLine(from: Vec2, to: Vec2, colour: string, width = THIN): string {
  const along = direction(from, to);
  const beyond = (p: Vec2, by: number): Vec2 => [p[0] + along[0] * by, p[1] + along[1] * by];
  const square: Vec2 = [-along[1], along[0]];
  const oblique = (p: Vec2): string => {
    const by: Vec2 = [(along[0] + square[0]) * STROKE * 0.7, (along[1] + square[1]) * STROKE * 0.7];
    return line([p[0] - by[0], p[1] - by[1]], [p[0] + by[0], p[1] + by[1]]);
  };
  const d = line(beyond(from, -BEYOND), beyond(to, BEYOND)) + oblique(from) + oblique(to);
  return element('path', { d, stroke: colour, 'stroke-width': width, fill: 'none' });
}

/** Unit vector; to the right where both ends are one. */
function direction(from: Vec2, to: Vec2): Vec2 {
  const size = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return size < 1e-6 ? [1, 0] : [(to[0] - from[0]) / size, (to[1] - from[1]) / size];
}

/**
 * Where a dimension's text may stand, best first: between its ends if it fits, beyond them, outside past the end of the
 * side that it stands on, beside it.
 */
function dimensionPlaces(from: Vec2, to: Vec2, label: Label, side: number): Box[] {
  const { width, height } = labelSize(label);
  const along = direction(from, to);
  const square: Vec2 = [-along[1], along[0]];
  const middle: Vec2 = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  /** Half of the box as seen along a direction. */
  const half = (d: Vec2): number => (Math.abs(d[0]) * width + Math.abs(d[1]) * height) / 2;
  const off = (p: Vec2, d: Vec2, by: number): Box => centred([p[0] + d[0] * by, p[1] + d[1] * by], width, height);
  const room = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const fits = room >= 2 * half(along) + 2 * CLEAR;
  const beyond = half(along) + BEYOND + CLEAR;
  const beside = half(square) + CLEAR;
  const past = side / 2 + half(square) + BEYOND;
  const outside: Vec2 = [to[0] + along[0] * beyond, to[1] + along[1] * beyond];
  return [
    ...(fits ? [centred(middle, width, height)] : []),
    off(to, along, beyond),
    off(to, along, beyond + height),
    ...(side > 0 ? [off(outside, square, past), off(outside, square, -past)] : []),
    off(middle, square, beside),
    off(middle, square, -beside),
    off(from, along, -beyond),
  ];
}

/** From a text that stands far away to what it speaks of. */
function leader(box: Box, to: Vec2, colour: string): string {
  const [cx, cy] = middleOf(box);
  const near = Math.abs(to[0] - cx) <= box.width / 2 + REACH && Math.abs(to[1] - cy) <= box.height / 2 + REACH;
  if (near) return '';
  return element('path', { d: line([cx, cy], to), stroke: colour, 'stroke-width': THIN, fill: 'none' });
}

const REACH = 5;
