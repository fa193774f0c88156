/** Outlines of a duct's section, grown evenly: rings that shells and frames lie between. */
import type { Fit } from '../../geometry/fit.js';
import { dot2 } from '../../geometry/vector.js';
import type { Polygon, Vec2 } from '../../model.js';

/** Of a full turn. Corners lie on the true circle; chords cut in by 0.5 % of its radius. */
const STEPS = 32;

/** Whose side that looks this way (unit vector) stays as it is. */
export interface Growth {
  readonly by: number;
  readonly bare?: Vec2 | undefined;
}

/**
 * The fitted section, so much larger all round; with square corners where it has corners. All rings of one section have
 * equally many points, and the edges between them look the same way.
 */
export function ringOf(fit: Fit, { by, bare }: Growth): Polygon {
  const { centre, along, length, breadth } = fit;
  const place = ([a, b]: Vec2): Vec2 => [
    centre[0] + along[0] * a - along[1] * b,
    centre[1] + along[1] * a + along[0] * b,
  ];
  const [a, b] = [length / 2, breadth / 2];
  if (fit.shape === 'rectangular') {
    const grown = (way: Vec2): number => (bare && dot2(place2(way, along), bare) > FACES_IT ? 0 : by);
    const [right, left] = [a + grown([1, 0]), -a - grown([-1, 0])];
    const [top, bottom] = [b + grown([0, 1]), -b - grown([0, -1])];
    const corners: Polygon = [
      [left, bottom],
      [right, bottom],
      [right, top],
      [left, top],
    ];
    return corners.map(place);
  }
  const [radius, straight] = [b + by, fit.shape === 'oval' ? a - b : 0];
  const half = (from: number, x: number): Vec2[] =>
    Array.from({ length: STEPS / 2 + 1 }, (_, i): Vec2 => {
      const angle = from + (i * 2 * Math.PI) / STEPS;
      return [x + radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  const [right, left] = [half(-Math.PI / 2, straight), half(Math.PI / 2, -straight)];
  // Of a circle the halves begin where the other ends.
  return (straight > 0 ? [...right, ...left] : [...right.slice(1), ...left.slice(1)]).map(place);
}

const FACES_IT = Math.SQRT1_2;
const place2 = ([a, b]: Vec2, along: Vec2): Vec2 => [along[0] * a - along[1] * b, along[1] * a + along[0] * b];

/** Which way the edge from this point of a ring to the next looks: outwards of a ring that goes counter-clockwise. */
export function edgeWay(ring: Polygon, i: number): Vec2 {
  const [p, q] = [ring[i]!, ring[(i + 1) % ring.length]!];
  const [x, y] = [q[1] - p[1], p[0] - q[0]];
  const size = Math.hypot(x, y);
  return [x / size, y / size];
}
