/** The mark of an outcome in SVG. Told apart by shape alone; the colour only helps. */
import type { Outcome, Vec2 } from '../../model.js';
import { DOT_RADIUS, MARK_GRID, MARKS } from '../marks.js';
import { OUTCOME_COLOURS } from './palette.js';
import { element } from './svg.js';

/** On the grid of {@link MARK_GRID} units. */
function shape(outcome: Outcome): string {
  const { boxes, dots } = MARKS[outcome];
  const bars = boxes.map(([x, y, width, height]) => `M${x} ${y}h${width}v${height}h${-width}Z`).join('');
  const fill = OUTCOME_COLOURS[outcome];
  return [
    ...(bars === '' ? [] : [element('path', { d: bars, fill })]),
    ...dots.map(([cx, cy]) => element('circle', { cx, cy, r: DOT_RADIUS, fill })),
  ].join('');
}

/** Upright, as beside text; a square of `size` with its upper left corner at the place. */
export function mark(outcome: Outcome, [x, y]: Vec2, size: number): string {
  const at = `translate(${x.toFixed(2)} ${y.toFixed(2)}) scale(${(size / MARK_GRID).toFixed(4)})`;
  return element('g', { transform: at }, shape(outcome));
}

/** Along a direction on paper, as a barrier runs on plan: the bar of the mark is the barrier. */
export function markAlong(outcome: Outcome, [x, y]: Vec2, size: number, along: Vec2): string {
  // An upright bar turns no further than it must, so that broken ones break the same way on parallel walls.
  const turn = Math.atan2(along[1], along[0]) * (180 / Math.PI) - 90;
  const least = turn - 180 * Math.round(turn / 180);
  const at = `translate(${x.toFixed(2)} ${y.toFixed(2)}) rotate(${least.toFixed(1)}) scale(${(size / MARK_GRID).toFixed(4)}) translate(${-MARK_GRID / 2} ${-MARK_GRID / 2})`;
  return element('g', { transform: at }, shape(outcome));
}

/** As a picture of its own, e.g. in a line of text. */
export function markPicture(outcome: Outcome): string {
  const viewBox = `0 0 ${MARK_GRID} ${MARK_GRID}`;
  return element('svg', { class: 'mark', viewBox, 'aria-hidden': 'true' }, shape(outcome));
}
