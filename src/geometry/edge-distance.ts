/** How near two outlines come to each other. */
import type { Polygon } from '../model.js';
import { boxGap, type Circle, circleOf, edgesCross, pointEdgeDistance, pointSegmentDistance } from './polygon.js';
import { length2, sub2 } from './vector.js';

/** Least distance between two outlines' edges; 0 where they cross, mm. One inside the other: the gap between them. */
export function edgeDistance(p: Polygon, q: Polygon): number {
  const round = circleOf(p);
  if (round) return circleDistance(round, q);
  if (circleOf(q)) return circleDistance(circleOf(q)!, p);
  if (edgesCross(p, q)) return 0;
  let best = Infinity;
  for (let i = 0, j = p.length - 1; i < p.length; j = i++)
    for (let k = 0, l = q.length - 1; k < q.length; l = k++)
      if (boxGap(p[j]!, p[i]!, q[l]!, q[k]!) < best)
        best = Math.min(best, pointSegmentDistance(p[i]!, q[l]!, q[k]!), pointSegmentDistance(q[k]!, p[j]!, p[i]!));
  return best;
}

function circleDistance({ centre, radius }: Circle, p: Polygon): number {
  const other = circleOf(p);
  if (other) {
    const apart = length2(sub2(centre, other.centre));
    return Math.max(0, apart - radius - other.radius, Math.abs(radius - other.radius) - apart);
  }
  const nearest = pointEdgeDistance(centre, p);
  const farthest = Math.max(...p.map((q) => length2(sub2(q, centre)))); // of an outline that is a corner
  return Math.max(0, nearest - radius, radius - farthest);
}
