/** Closed outlines in the plane. A polygon never repeats its first point. */
import type { Polygon, Vec2 } from '../model.js';
import { ARC_SAGITTA, MOST_CHORDS } from '../tolerances.js';
import type { Chords } from './arc.js';
import { cross2, distance2, length2, sub2 } from './vector.js';

/** Positive when counter-clockwise, mm². */
export function signedArea(p: Polygon): number {
  let sum = 0;
  let before = p.at(-1)!;
  for (const q of p) {
    sum += before[0] * q[1] - before[1] * q[0];
    before = q;
  }
  return sum / 2;
}

export const area = (p: Polygon): number => Math.abs(signedArea(p));

export const counterClockwise = (p: Polygon): Polygon => (signedArea(p) < 0 ? [...p].reverse() : p);

/** Centroid of the enclosed area. */
export function centroid(p: Polygon): Vec2 {
  const [ox, oy] = p[0]!; // relative to the first point: no loss of digits far from the origin
  let [x, y, sum] = [0, 0, 0];
  let [ax, ay] = [p.at(-1)![0] - ox, p.at(-1)![1] - oy];
  for (const q of p) {
    const [bx, by] = [q[0] - ox, q[1] - oy];
    const w = ax * by - ay * bx;
    x += (ax + bx) * w;
    y += (ay + by) * w;
    sum += w;
    [ax, ay] = [bx, by];
  }
  return Math.abs(sum) < 1e-9 ? p[0]! : [ox + x / (3 * sum), oy + y / (3 * sum)];
}

export interface Box2 {
  readonly min: Vec2;
  readonly max: Vec2;
}

export function bounds(polygons: readonly Polygon[]): Box2 {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const p of polygons)
    for (const { 0: x, 1: y } of p) {
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
  return { min: [x0, y0], max: [x1, y1] };
}

/** Middle of the box round the outlines. */
export function boxCentre(polygons: readonly Polygon[]): Vec2 {
  const { min, max } = bounds(polygons);
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
}

export interface Circle {
  readonly centre: Vec2;
  readonly radius: number;
}

/** Fewer corners than this may be meant as corners. */
const LEAST_ROUND = 24;
/** Corners of a drawn circle lie on the true one but for rounding noise, as a share of the radius. */
const ROUND_NOISE = 1e-6;
const circles = new WeakMap<Polygon, Circle | null>();

/** The true circle that an outline is drawn from: measuring to it is faster than to its chords, and exact. */
export function circleOf(p: Polygon): Circle | null {
  if (p.length < LEAST_ROUND) return null;
  let known = circles.get(p);
  if (known === undefined) {
    const centre = centroid(p);
    const radii = p.map((q) => distance2(q, centre));
    const [least, most] = [Math.min(...radii), Math.max(...radii)];
    known = most - least <= ROUND_NOISE * most ? { centre, radius: (least + most) / 2 } : null;
    circles.set(p, known);
  }
  return known;
}

/** For an outline that was made of another: whether it is a circle needs no search. */
export function keepCircle(p: Polygon, circle: Circle | null): void {
  circles.set(p, circle);
}

/** Even-odd rule; points on the edge may fall either way. */
export function contains(p: Polygon, [x, y]: Vec2): boolean {
  const round = circleOf(p);
  if (round) return Math.hypot(x - round.centre[0], y - round.centre[1]) < round.radius;
  let inside = false;
  for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
    const { 0: xi, 1: yi } = p[i]!;
    const { 0: xj, 1: yj } = p[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/** Distance from a point to the segment a–b, mm. */
export function pointSegmentDistance(q: Vec2, a: Vec2, b: Vec2): number {
  const x = b[0] - a[0];
  const y = b[1] - a[1];
  const u = q[0] - a[0];
  const v = q[1] - a[1];
  const n = x * x + y * y;
  const t = n > 0 ? Math.max(0, Math.min(1, (u * x + v * y) / n)) : 0;
  const du = u - x * t;
  const dv = v - y * t;
  return Math.sqrt(du * du + dv * dv);
}

/** Distance from a point to the outline (0 on it, positive inside and outside alike), mm. */
export function pointEdgeDistance(q: Vec2, p: Polygon): number {
  const round = circleOf(p);
  if (round) return Math.abs(length2(sub2(q, round.centre)) - round.radius);
  let best = Infinity;
  for (let i = 0, j = p.length - 1; i < p.length; j = i++) best = Math.min(best, pointSegmentDistance(q, p[j]!, p[i]!));
  return best;
}

function segmentsCross(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const o = (p: Vec2, q: Vec2, r: Vec2) => cross2(sub2(q, p), sub2(r, p));
  return o(a, b, c) > 0 !== o(a, b, d) > 0 && o(c, d, a) > 0 !== o(c, d, b) > 0;
}

/** True when any edge of one outline crosses an edge of the other. */
export function edgesCross(p: Polygon, q: Polygon): boolean {
  for (let i = 0, j = p.length - 1; i < p.length; j = i++)
    for (let k = 0, l = q.length - 1; k < q.length; l = k++)
      if (boxGap(p[j]!, p[i]!, q[l]!, q[k]!) <= 0 && segmentsCross(p[j]!, p[i]!, q[l]!, q[k]!)) return true;
  return false;
}

/** How far the boxes of the segments a–b and c–d are apart along x or y, mm: no more than the segments themselves. */
export const boxGap = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): number =>
  Math.max(
    Math.min(a[0], b[0]) - Math.max(c[0], d[0]),
    Math.min(c[0], d[0]) - Math.max(a[0], b[0]),
    Math.min(a[1], b[1]) - Math.max(c[1], d[1]),
    Math.min(c[1], d[1]) - Math.max(a[1], b[1]),
  );

/** True when the enclosed areas share more than an edge. */
export const overlaps = (p: Polygon, q: Polygon): boolean =>
  boxesOverlap(bounds([p]), bounds([q])) &&
  (contains(q, interiorPoint(p)) || contains(p, interiorPoint(q)) || edgesCross(p, q));

/** Neither is further from the other than this, along x and along y. */
export const boxesNear = (a: Box2, b: Box2, distance: number): boolean =>
  [0, 1].every((i) => a.min[i]! - distance <= b.max[i]! && b.min[i]! - distance <= a.max[i]!);

/** Turns one way only. */
export const isConvex = (p: Polygon): boolean => area(convexHull(p)) - area(p) < 1e-9 * area(p);

const boxesOverlap = (a: Box2, b: Box2): boolean =>
  a.min[0] < b.max[0] && b.min[0] < a.max[0] && a.min[1] < b.max[1] && b.min[1] < a.max[1];

/** A point inside: the centroid where it is inside, else the middle of a chord. */
export function interiorPoint(p: Polygon): Vec2 {
  const c = centroid(p);
  if (contains(p, c)) return c;
  const { min, max } = bounds([p]);
  const y = (min[1] + max[1]) / 2 + (max[1] - min[1]) * 1e-4;
  const xs: number[] = [];
  for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
    const { 0: xi, 1: yi } = p[i]!;
    const { 0: xj, 1: yj } = p[j]!;
    if (yi > y !== yj > y) xs.push(((xj - xi) * (y - yi)) / (yj - yi) + xi);
  }
  xs.sort((a, b) => a - b);
  return xs.length < 2 ? c : [(xs[0]! + xs[1]!) / 2, y];
}

/** An outline gets no more extra points than this: 40 m in steps of 10 mm, which no duct and no opening is round. */
const MOST_POINTS = 4000;

/** The outline with extra points so that no edge is longer than `step`, for tests that look at points. */
export function densify(p: Polygon, step: number): Polygon {
  const lengths = p.map((a, i) => length2(sub2(p[(i + 1) % p.length]!, a)));
  const least = Math.max(step, lengths.reduce((sum, one) => sum + one, 0) / MOST_POINTS);
  const out: Vec2[] = [];
  for (let i = 0; i < p.length; i++) {
    const a = p[i]!;
    const b = p[(i + 1) % p.length]!;
    const n = Math.max(1, Math.ceil(lengths[i]! / least));
    for (let k = 0; k < n; k++) out.push([a[0] + ((b[0] - a[0]) * k) / n, a[1] + ((b[1] - a[1]) * k) / n]);
  }
  return out;
}

/**
 * How many chords keep an arc of this radius and angle (radians) within the sagitta of the true arc; of a radius that no
 * building has, as many as are drawn at most.
 */
export function chordsFor(radius: number, angle: number, sagitta = ARC_SAGITTA): number {
  const finest = (2 * Math.PI) / MOST_CHORDS;
  const step = radius > sagitta ? Math.max(finest, 2 * Math.acos(1 - sagitta / radius)) : Math.PI / 2;
  return Math.max(1, Math.ceil(Math.abs(angle) / step));
}

/** A circle as a counter-clockwise polygon with its vertices on the true circle; a multiple of four of them. */
export function circle(diameter: number, centre: Vec2 = [0, 0], chords: Chords = chordsFor): Polygon {
  const n = 4 * Math.max(3, Math.ceil(chords(diameter / 2, 2 * Math.PI) / 4));
  return Array.from({ length: n }, (_, i): Vec2 => {
    const a = (2 * Math.PI * i) / n;
    return [centre[0] + (diameter / 2) * Math.cos(a), centre[1] + (diameter / 2) * Math.sin(a)];
  });
}

/** A rectangle about the centre, counter-clockwise from its lower left corner. */
export const rectangle = (width: number, height: number): Polygon => [
  [-width / 2, -height / 2],
  [width / 2, -height / 2],
  [width / 2, height / 2],
  [-width / 2, height / 2],
];

/** Convex hull, counter-clockwise (Andrew's monotone chain). */
export function convexHull(points: readonly Vec2[]): Polygon {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  // No arrays on the way: every outline that is fitted comes through here.
  const turnsLeft = (a: Vec2, b: Vec2, c: Vec2): boolean =>
    (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 0;
  const half = (list: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const p of list) {
      while (chain.length > 1 && !turnsLeft(chain[chain.length - 2]!, chain[chain.length - 1]!, p)) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return sorted.length < 3 ? sorted : [...half(sorted), ...half(sorted.reverse())];
}

/** The part of the outline where a·x + b·y ≤ c (Sutherland–Hodgman; bridges of concave outlines run along the line). */
export function clip(p: Polygon, a: number, b: number, c: number): Polygon {
  const side = (q: Vec2) => a * q[0] + b * q[1] - c;
  const out: Vec2[] = [];
  for (let i = 0, j = p.length - 1; i < p.length; j = i++) {
    const from = p[j]!;
    const to = p[i]!;
    const [df, dt] = [side(from), side(to)];
    if (df <= 0 !== dt <= 0) {
      const t = df / (df - dt);
      out.push([from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t]);
    }
    if (dt <= 0) out.push(to);
  }
  return out;
}
