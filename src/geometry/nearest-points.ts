/** Where two outlines come nearest to each other. */
import type { Polygon, Vec2 } from '../model.js';
import { dot2, length2, sub2 } from './vector.js';

/** Of all corners and edges of the outlines the two points that are nearest to each other; one is a corner. */
export function nearestPoints(a: readonly Polygon[], b: readonly Polygon[]): readonly [Vec2, Vec2] {
  const one = nearestToCorners(a, b);
  const other = nearestToCorners(b, a);
  return one.apart <= other.apart ? [one.corner, one.on] : [other.on, other.corner];
}

function nearestToCorners(corners: readonly Polygon[], edges: readonly Polygon[]) {
  let best = { corner: [0, 0] as Vec2, on: [0, 0] as Vec2, apart: Infinity };
  for (const corner of corners.flat())
    for (const p of edges)
      for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
        const on = nearestOnSegment(corner, p[j]!, p[i]!);
        const apart = length2(sub2(corner, on));
        if (apart < best.apart) best = { corner, on, apart };
      }
  return best;
}

function nearestOnSegment(q: Vec2, a: Vec2, b: Vec2): Vec2 {
  const ab = sub2(b, a);
  const n = dot2(ab, ab);
  const t = n > 0 ? Math.max(0, Math.min(1, dot2(ab, sub2(q, a)) / n)) : 0;
  return [a[0] + ab[0] * t, a[1] + ab[1] * t];
}
