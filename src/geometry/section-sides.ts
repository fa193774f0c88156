/** The sides of a section that is carried along an axis, and what of a polygon lies off each. */
import type { Frame, Vec2, Vec3 } from '../model.js';
import { length2, lerp } from './vector.js';

export const FOUR_SIDES = ['top', 'bottom', 'left', 'right'] as const;
export type OneSide = (typeof FOUR_SIDES)[number];

/**
 * A section carried along an axis. `frame` stands at the start of the axis, z along it, y to the top and x to the right;
 * the section is everything within `radius` of a rectangle of `half` sizes about the origin: 0 for a rectangle, the
 * radius of a circle about [0, 0], half the breadth of a flat oval.
 */
export interface StraightSection {
  readonly frame: Frame;
  readonly length: number;
  readonly half: Vec2;
  readonly radius: number;
}

/** Places whose distances differ by less are equally near: rounding of what is drawn parallel. */
export const EQUAL = 0.05;

export type Polygon3 = readonly Vec3[];
/** Kept is where a·x + b·y + c·z ≤ d. */
export type HalfSpace = readonly [a: number, b: number, c: number, d: number];

/** What of a polygon lies in all of the half spaces. */
export function kept(polygon: Polygon3, halves: readonly HalfSpace[]): Polygon3 {
  let part = polygon;
  for (const { 0: a, 1: b, 2: c, 3: d } of halves) {
    const n = part.length;
    const over = new Array<number>(n);
    let outside = 0;
    for (let i = 0; i < n; i++) {
      const p = part[i]!;
      over[i] = a * p[0] + b * p[1] + c * p[2] - d;
      if (over[i]! > 0) outside++;
    }
    if (outside === 0) continue;
    if (outside === n) return [];
    const next: Vec3[] = [];
    for (let i = 0; i < n; i++) {
      const j = (i + 1) % n;
      const here = over[i]!;
      const there = over[j]!;
      if (here <= 0) next.push(part[i]!);
      if (here < 0 !== there < 0 && here !== 0 && there !== 0)
        next.push(lerp(part[i]!, part[j]!, here / (here - there)));
    }
    part = next;
  }
  return part;
}

export const withinLength = (length: number): readonly HalfSpace[] => [
  [0, 0, -1, 0],
  [0, 0, 1, length],
];

/** Where each side of the section is the next one; corners are shared along their bisectors. */
export function sidesBy({ half: [hx, hy] }: StraightSection): { readonly [S in OneSide]: readonly HalfSpace[] } {
  const d = hx - hy;
  return {
    top: [
      [0, -1, 0, 0],
      [1, -1, 0, d],
      [-1, -1, 0, d],
    ],
    bottom: [
      [0, 1, 0, 0],
      [1, 1, 0, d],
      [-1, 1, 0, d],
    ],
    right: [
      [-1, 0, 0, 0],
      [-1, 1, 0, -d],
      [-1, -1, 0, -d],
    ],
    left: [
      [1, 0, 0, 0],
      [1, 1, 0, -d],
      [1, -1, 0, -d],
    ],
  };
}

export const distanceTo = ([x, y]: Vec3, { half: [hx, hy], radius }: StraightSection): number =>
  Math.max(0, length2([Math.max(0, Math.abs(x) - hx), Math.max(0, Math.abs(y) - hy)]) - radius);

/** No place on the polygon is nearer. */
export function leastDistance(polygon: Polygon3, { half: [hx, hy], radius }: StraightSection): number {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { 0: x, 1: y } of polygon) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return length2([Math.max(0, x0 - hx, -hx - x1), Math.max(0, y0 - hy, -hy - y1)]) - radius;
}

/** It lies straight off one face, or off the middle of a round. */
export const isOpposite = ([x, y]: Vec3, { half: [hx, hy] }: StraightSection): boolean =>
  Math.abs(x) <= hx + EQUAL || Math.abs(y) <= hy + EQUAL;

/** Corners, middles of edges, and where edges come nearest to the corners of the section. */
export function placesOn(polygon: Polygon3, { half: [hx, hy] }: StraightSection): Vec3[] {
  const places: Vec3[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const [p, q] = [polygon[i]!, polygon[(i + 1) % polygon.length]!];
    places.push(p, lerp(p, q, 0.5));
    const [u, v] = [q[0] - p[0], q[1] - p[1]];
    const n = u * u + v * v;
    if (n === 0) continue;
    for (const x of [hx, -hx])
      for (const y of [hy, -hy]) {
        const t = ((x - p[0]) * u + (y - p[1]) * v) / n;
        if (t > 0 && t < 1) places.push(lerp(p, q, t));
      }
  }
  return places;
}

/** The polygon covers part of the rectangle that the section is drawn round, or its middle. */
export function meets(polygon: Polygon3, { half: [hx, hy] }: StraightSection): boolean {
  const core: readonly HalfSpace[] = [
    [1, 0, 0, hx],
    [-1, 0, 0, hx],
    [0, 1, 0, hy],
    [0, -1, 0, hy],
  ];
  return kept(polygon, core).length > 0;
}

export function stretchWithin(
  polygon: Polygon3,
  { half: [hx, hy], radius }: StraightSection,
  side: OneSide,
  reach: number,
): readonly [number, number] | undefined {
  const isUpright = side === 'top' || side === 'bottom';
  const far = (isUpright ? hy : hx) + radius + reach;
  const [x, y] = isUpright ? [0, 1] : [1, 0];
  const near = kept(polygon, [
    [x, y, 0, far],
    [-x, -y, 0, far],
  ]);
  if (near.length === 0) return undefined;
  const along = near.map((p) => p[2]);
  return [Math.min(...along), Math.max(...along)];
}
