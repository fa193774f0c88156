/** Where two triangles come nearest to each other. Ericson, Real-Time Collision Detection (2005), 5.1.5 and 5.1.9. */
import type { Vec3 } from '../model.js';
import { add, cross, distance, dot, lerp, scale, sub } from './vector.js';

export type Triangle = readonly [Vec3, Vec3, Vec3];

export interface Nearest {
  readonly distance: number;
  /** On the first and on the second. */
  readonly points: readonly [Vec3, Vec3];
}

const between = (a: Vec3, b: Vec3): Nearest => ({ distance: distance(a, b), points: [a, b] });
const EDGES = [
  [0, 1],
  [1, 2],
  [2, 0],
] as const;

/** 0 where they meet, with a point that both have. */
export function nearestOfTriangles(p: Triangle, q: Triangle): Nearest {
  let best: Nearest = { distance: Infinity, points: [p[0], q[0]] };
  const offer = (one: Nearest): void => {
    if (one.distance < best.distance) best = one;
  };
  for (const [i, j] of EDGES) for (const [k, l] of EDGES) offer(nearestOfSegments(p[i], p[j], q[k], q[l]));
  for (const corner of p) offer(between(corner, nearestOnTriangle(corner, q)));
  for (const corner of q) offer(between(nearestOnTriangle(corner, p), corner));
  if (best.distance === 0) return best;
  const met = meeting(p, q) ?? meeting(q, p);
  return met ? { distance: 0, points: [met, met] } : best;
}

/** Where an edge of the first goes through the second. */
function meeting(p: Triangle, q: Triangle): Vec3 | undefined {
  const n = cross(sub(q[1], q[0]), sub(q[2], q[0]));
  for (const [i, j] of EDGES) {
    const [from, to] = [dot(sub(p[i], q[0]), n), dot(sub(p[j], q[0]), n)];
    if (from < 0 === to < 0 || from === to) continue;
    const at = lerp(p[i], p[j], from / (from - to));
    const isInside = EDGES.every(([k, l]) => dot(cross(sub(q[l], q[k]), sub(at, q[k])), n) >= 0);
    if (isInside) return at;
  }
  return undefined;
}

function nearestOfSegments(a: Vec3, b: Vec3, c: Vec3, d: Vec3): Nearest {
  const [u, v, r] = [sub(b, a), sub(d, c), sub(a, c)];
  const [uu, vv, uv, ur, vr] = [dot(u, u), dot(v, v), dot(u, v), dot(u, r), dot(v, r)];
  const denominator = uu * vv - uv * uv;
  let s = denominator > 1e-12 * uu * vv ? clamped((uv * vr - ur * vv) / denominator) : 0;
  let t = vv > 0 ? (uv * s + vr) / vv : 0;
  if (t < 0 || t > 1) {
    t = clamped(t);
    s = uu > 0 ? clamped((uv * t - ur) / uu) : 0;
  }
  return between(add(a, scale(u, s)), add(c, scale(v, t)));
}

const clamped = (t: number): number => Math.max(0, Math.min(1, t));

function nearestOnTriangle(p: Vec3, [a, b, c]: Triangle): Vec3 {
  const [ab, ac, ap] = [sub(b, a), sub(c, a), sub(p, a)];
  const [d1, d2] = [dot(ab, ap), dot(ac, ap)];
  if (d1 <= 0 && d2 <= 0) return a;
  const bp = sub(p, b);
  const [d3, d4] = [dot(ab, bp), dot(ac, bp)];
  if (d3 >= 0 && d4 <= d3) return b;
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return add(a, scale(ab, d1 / (d1 - d3)));
  const cp = sub(p, c);
  const [d5, d6] = [dot(ab, cp), dot(ac, cp)];
  if (d6 >= 0 && d5 <= d6) return c;
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return add(a, scale(ac, d2 / (d2 - d6)));
  const va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return lerp(b, c, (d4 - d3) / (d4 - d3 + (d5 - d6)));
  const k = 1 / (va + vb + vc);
  return add(a, add(scale(ab, vb * k), scale(ac, vc * k)));
}
