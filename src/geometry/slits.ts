/** Outlines with holes as single outlines. */
import type { Polygon } from '../model.js';
import { counterClockwise } from './polygon.js';
import { length2, sub2 } from './vector.js';

/** The outline with its holes cut out: one outline that goes in along a slit, round the hole and back. */
export function withSlits(outline: Polygon, holes: readonly Polygon[]): Polygon {
  return holes.reduce((outer, hole) => {
    const clockwise = [...counterClockwise(hole)].reverse();
    let [from, to, least] = [0, 0, Infinity];
    for (const [i, p] of outer.entries())
      for (const [j, q] of clockwise.entries()) {
        const apart = length2(sub2(p, q));
        if (apart < least) [from, to, least] = [i, j, apart];
      }
    const round = [...clockwise.slice(to), ...clockwise.slice(0, to + 1)];
    return [...outer.slice(0, from + 1), ...round, ...outer.slice(from)];
  }, outline);
}
