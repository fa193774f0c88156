/** Boxes along the axes of the inner frame. */
import { onceForEach } from '../collect.js';
import type { Body, Vec3 } from '../model.js';
import { forEachCorner } from './section.js';
import { length } from './vector.js';

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

const AXES = [0, 1, 2] as const;

export const boxOfBody = onceForEach((body: Body): Box => {
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  const take = (x: number, y: number, z: number): void => {
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (z < z0) z0 = z;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
    if (z > z1) z1 = z;
  };
  forEachCorner(body, take);
  return { min: [x0, y0, z0], max: [x1, y1, z1] };
});

export function boxOf(bodies: readonly Body[]): Box {
  if (bodies.length === 1) return boxOfBody(bodies[0]!);
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (const { min, max } of bodies.map(boxOfBody)) {
    if (min[0] < x0) x0 = min[0];
    if (min[1] < y0) y0 = min[1];
    if (min[2] < z0) z0 = min[2];
    if (max[0] > x1) x1 = max[0];
    if (max[1] > y1) y1 = max[1];
    if (max[2] > z1) z1 = max[2];
  }
  return { min: [x0, y0, z0], max: [x1, y1, z1] };
}

/** The same of an element, worked out once. */
export const boxOfElement = onceForEach(({ bodies }: { readonly bodies: readonly Body[] }): Box => boxOf(bodies));

export function boxOfPoints(points: readonly Vec3[]): Box {
  const on = (i: 0 | 1 | 2) => points.map((p) => p[i]);
  return {
    min: [Math.min(...on(0)), Math.min(...on(1)), Math.min(...on(2))],
    max: [Math.max(...on(0)), Math.max(...on(1)), Math.max(...on(2))],
  };
}

export const grown = (box: Box, by: number): Box => ({
  min: [box.min[0] - by, box.min[1] - by, box.min[2] - by],
  max: [box.max[0] + by, box.max[1] + by, box.max[2] + by],
});

export const boxesMeet = ({ min: a, max: b }: Box, { min: c, max: d }: Box): boolean =>
  a[0] <= d[0] && c[0] <= b[0] && a[1] <= d[1] && c[1] <= b[1] && a[2] <= d[2] && c[2] <= b[2];

/** Clear distance; 0 where they meet. */
export const boxDistance = (a: Box, b: Box): number => length([gapOn(0, a, b), gapOn(1, a, b), gapOn(2, a, b)]);

const gapOn = (i: 0 | 1 | 2, a: Box, b: Box): number => Math.max(0, a.min[i] - b.max[i], b.min[i] - a.max[i]);

/** Largest distance between two corners of the same name: how far the boxes are from being one. */
export const boxDifference = (a: Box, b: Box): number =>
  Math.max(...AXES.flatMap((i) => [Math.abs(a.min[i] - b.min[i]), Math.abs(a.max[i] - b.max[i])]));
