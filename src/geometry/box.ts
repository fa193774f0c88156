/** Boxes along the axes of the inner frame. */
import type { Body, Vec3 } from '../model.js';
import { extent } from './section.js';
import { X, Y, Z, ZERO } from './vector.js';

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

const AXES = [0, 1, 2] as const;

export function boxOf(bodies: readonly Body[]): Box {
  const [x, y, z] = [X, Y, Z].map((axis) => extent(bodies, ZERO, axis));
  return { min: [x![0], y![0], z![0]], max: [x![1], y![1], z![1]] };
}

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

export const boxesMeet = (a: Box, b: Box): boolean => AXES.every((i) => a.min[i] <= b.max[i] && b.min[i] <= a.max[i]);

/** Clear distance; 0 where they meet. */
export const boxDistance = (a: Box, b: Box): number =>
  Math.hypot(...AXES.map((i) => Math.max(0, a.min[i] - b.max[i], b.min[i] - a.max[i])));

/** Largest distance between two corners of the same name: how far the boxes are from being one. */
export const boxDifference = (a: Box, b: Box): number =>
  Math.max(...AXES.flatMap((i) => [Math.abs(a.min[i] - b.min[i]), Math.abs(a.max[i] - b.max[i])]));
