/** Vectors in space and in the plane: plain tuples in, plain tuples out. */
import type { Vec2, Vec3 } from '../model.js';

export const X: Vec3 = [1, 0, 0];
export const Y: Vec3 = [0, 1, 0];
export const Z: Vec3 = [0, 0, 1];
export const ZERO: Vec3 = [0, 0, 0];

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const negate = (a: Vec3): Vec3 => [-a[0], -a[1], -a[2]];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
/** Right to the last bit, unlike the root of the squares: directions that are one come out as one. */
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);
/** The root of the squares takes a tenth of the time of Math.hypot. */
export function distance(a: Vec3, b: Vec3): number {
  const [x, y, z] = [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  return Math.sqrt(x * x + y * y + z * z);
}
export const lerp = (a: Vec3, b: Vec3, t: number): Vec3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];

/** Two of some points: the one furthest from the first, and the one furthest from that; of what is long and thin its ends. */
export function furthestApart(points: readonly Vec3[]): readonly [Vec3, Vec3] {
  const furthestFrom = (from: Vec3) =>
    points.reduce((best, p) => (distance(from, p) > distance(from, best) ? p : best));
  const one = furthestFrom(points[0]!);
  return [one, furthestFrom(one)];
}

/** Unit vector; the zero vector stays zero (test with `length` where that can happen). */
export function unit(a: Vec3): Vec3 {
  const n = length(a);
  return n > 0 ? scale(a, 1 / n) : ZERO;
}

/** Part of `a` square to the unit vector `n`. */
export const perpendicularPart = (a: Vec3, n: Vec3): Vec3 => sub(a, scale(n, dot(a, n)));

/** Angle between two lines (not directions), 0 to 90 degrees. Exact near both ends, unlike acos alone. */
export function lineAngle(a: Vec3, b: Vec3): number {
  return (Math.atan2(length(cross(a, b)), Math.abs(dot(a, b))) * 180) / Math.PI;
}

export const sub2 = (a: Vec2, b: Vec2): Vec2 => [a[0] - b[0], a[1] - b[1]];
export const dot2 = (a: Vec2, b: Vec2): number => a[0] * b[0] + a[1] * b[1];
export const cross2 = (a: Vec2, b: Vec2): number => a[0] * b[1] - a[1] * b[0];
export const length2 = (a: Vec2): number => Math.sqrt(a[0] * a[0] + a[1] * a[1]);

/** Without an array for the difference: outlines have hundreds of corners. */
export function distance2(a: Vec2, b: Vec2): number {
  const [x, y] = [a[0] - b[0], a[1] - b[1]];
  return Math.sqrt(x * x + y * y);
}
