/** Arcs in space as points on the true arc. */
import type { Vec3 } from '../model.js';
import { add, cross, dot, length, scale, sub } from './vector.js';

/** How many chords to draw an arc with, for its radius and angle (radians). */
export type Chords = (radius: number, angle: number) => number;

/** The arc from a through b to c, both ends included; a straight line where the three lie on one. */
export function arcThrough(a: Vec3, b: Vec3, c: Vec3, chords: Chords): Vec3[] {
  const [ab, ac] = [sub(b, a), sub(c, a)];
  const n = cross(ab, ac);
  const nn = dot(n, n);
  if (Math.sqrt(nn) < 1e-9 * length(ab) * length(ac) || nn === 0) return [a, b, c];
  // Centre of the circle through three points, from a.
  const toCentre = scale(add(scale(cross(n, ab), dot(ac, ac)), scale(cross(ac, n), dot(ab, ab))), 1 / (2 * nn));
  const centre = add(a, toCentre);
  const radius = length(toCentre);
  const x = scale(toCentre, -1 / radius);
  const y = cross(scale(n, 1 / Math.sqrt(nn)), x);
  const end = sub(c, centre);
  const turn = 2 * Math.PI;
  const sweep = (Math.atan2(dot(end, y), dot(end, x)) + turn) % turn;
  const steps = chords(radius, sweep);
  return Array.from({ length: steps + 1 }, (_, i): Vec3 => {
    if (i === 0) return a;
    if (i === steps) return c;
    const t = (sweep * i) / steps;
    return add(centre, add(scale(x, radius * Math.cos(t)), scale(y, radius * Math.sin(t))));
  });
}
