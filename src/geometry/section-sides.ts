/** The sides of a section that is carried along an axis, and what of a polygon lies off each. */
import type { Frame, Vec2, Vec3 } from '../model.js';
import { lerp } from './vector.js';

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
type HalfSpace = readonly [a: number, b: number, c: number, d: number];

function kept(polygon: Polygon3, ...halves: readonly HalfSpace[]): Polygon3 {
  let part = polygon;
  for (const [a, b, c, d] of halves) {
    if (part.length === 0) return part;
    const over = part.map((p) => a * p[0] + b * p[1] + c * p[2] - d);
    if (over.every((h) => h <= 0)) continue;
    const next: Vec3[] = [];
    part.forEach((p, i) => {
      const j = (i + 1) % part.length;
      if (over[i]! <= 0) next.push(p);
      if (over[i]! < 0 !== over[j]! < 0 && over[i] !== 0 && over[j] !== 0)
        next.push(lerp(p, part[j]!, over[i]! / (over[i]! - over[j]!)));
    });
    part = next;
  }
  return part;
}

export const withinLength = (triangle: Polygon3, length: number): Polygon3 =>
  kept(triangle, [0, 0, -1, 0], [0, 0, 1, length]);

/** Where this side of the section is the next one; corners are shared along their bisectors. */
export function onSide(polygon: Polygon3, side: OneSide, { half: [hx, hy] }: StraightSection): Polygon3 {
  const d = hx - hy;
  switch (side) {
    case 'top':
      return kept(polygon, [0, -1, 0, 0], [1, -1, 0, d], [-1, -1, 0, d]);
    case 'bottom':
      return kept(polygon, [0, 1, 0, 0], [1, 1, 0, d], [-1, 1, 0, d]);
    case 'right':
      return kept(polygon, [-1, 0, 0, 0], [-1, 1, 0, -d], [-1, -1, 0, -d]);
    case 'left':
      return kept(polygon, [1, 0, 0, 0], [1, 1, 0, -d], [1, -1, 0, -d]);
  }
}

export const distanceTo = ([x, y]: Vec3, { half: [hx, hy], radius }: StraightSection): number =>
  Math.max(0, Math.hypot(Math.max(0, Math.abs(x) - hx), Math.max(0, Math.abs(y) - hy)) - radius);

/** It lies straight off one face, or off the middle of a round. */
export const isOpposite = ([x, y]: Vec3, { half: [hx, hy] }: StraightSection): boolean =>
  Math.abs(x) <= hx + EQUAL || Math.abs(y) <= hy + EQUAL;

/** Corners, middles of edges, and where edges come nearest to the corners of the section. */
export function placesOn(polygon: Polygon3, { half: [hx, hy] }: StraightSection): Vec3[] {
  const corners = [hx, -hx].flatMap((x) => [hy, -hy].map((y): Vec2 => [x, y]));
  return polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length]!;
    const [u, v] = [q[0] - p[0], q[1] - p[1]];
    const n = u * u + v * v;
    const feet = n > 0 ? corners.map(([x, y]) => ((x - p[0]) * u + (y - p[1]) * v) / n) : [];
    return [0, 0.5, ...feet.filter((t) => t > 0 && t < 1)].map((t) => lerp(p, q, t));
  });
}

/** The polygon covers part of the rectangle that the section is drawn round, or its middle. */
export function meets(polygon: Polygon3, { half: [hx, hy] }: StraightSection): boolean {
  const part = kept(polygon, [1, 0, 0, hx], [-1, 0, 0, hx], [0, 1, 0, hy], [0, -1, 0, hy]);
  return part.length > 0;
}

export function stretchWithin(
  polygon: Polygon3,
  { half: [hx, hy], radius }: StraightSection,
  side: OneSide,
  reach: number,
): readonly [number, number] | undefined {
  const isUpright = side === 'top' || side === 'bottom';
  const far = (isUpright ? hy : hx) + radius + reach;
  const near = kept(
    polygon,
    ...(isUpright
      ? ([
          [0, 1, 0, far],
          [0, -1, 0, far],
        ] as const)
      : ([
          [1, 0, 0, far],
          [-1, 0, 0, far],
        ] as const)),
  );
  if (near.length === 0) return undefined;
  const along = near.map((p) => p[2]);
  return [Math.min(...along), Math.max(...along)];
}
