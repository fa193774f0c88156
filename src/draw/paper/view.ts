/** From millimetres in the barrier's plane to millimetres on paper, at a scale that drawing offices use. */
import { bounds } from '../../geometry/polygon.js';
import type { Polygon, Vec2 } from '../../model.js';
import type { Box } from './layout.js';
import { middleOf } from './layout.js';

export interface View {
  /** n of 1:n. */
  readonly scale: number;
  readonly at: (p: Vec2) => Vec2;
  readonly outline: (p: Polygon) => Polygon;
  readonly window: Box;
}

/** ISO 5455: 1:1, 1:2, 1:5 and their multiples by ten. */
const STEPS = [1, 2, 5] as const;

/** n of the largest 1:n at which something so large goes into so much paper; never larger than it is. */
export function scaleFor(width: number, height: number, inside: Pick<Box, 'width' | 'height'>): number {
  const needed = Math.max(width / inside.width, height / inside.height, 1e-6);
  const decade = 10 ** Math.floor(Math.log10(needed));
  const step = STEPS.find((s) => s * decade >= needed) ?? 10;
  return Math.max(1, step * decade);
}

/**
 * @param shown what has to be in sight, in the plane's coordinates
 * @param inside where on the paper it has to be
 */
export function viewOf(shown: readonly Polygon[], window: Box, inside: Box): View {
  const { min, max } = bounds(shown);
  const scale = scaleFor(max[0] - min[0], max[1] - min[1], inside);
  const [cx, cy] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const [px, py] = middleOf(inside);
  const at = ([x, y]: Vec2): Vec2 => [px + (x - cx) / scale, py - (y - cy) / scale];
  return { scale, at, outline: (p) => p.map(at), window };
}
