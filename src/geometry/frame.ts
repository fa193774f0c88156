/** Frames (orthonormal, as `Frame`) and general affine maps (placements, mapped items with scale and mirror). */
import type { Frame, Vec2, Vec3 } from '../model.js';
import { add, cross, dot, perpendicularPart, scale, unit, X, Y, Z, ZERO } from './vector.js';

export const WORLD: Frame = { origin: ZERO, x: X, y: Y, z: Z };

/** Where a point of the frame's x, y plane lies in the frame's surroundings. */
export const fromPlane = ({ origin, x, y }: Frame, [u, v]: Vec2): Vec3 => [
  origin[0] + (x[0] * u + y[0] * v),
  origin[1] + (x[1] * u + y[1] * v),
  origin[2] + (x[2] * u + y[2] * v),
];

/** Coordinates in the frame's x, y plane of a point of its surroundings, whatever its height over it. */
export function toPlane({ origin, x, y }: Frame, p: Vec3): Vec2 {
  const [a, b, c] = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]];
  return [a * x[0] + b * x[1] + c * x[2], a * y[0] + b * y[1] + c * y[2]];
}

/** The frame moved along its own z axis. */
export const raised = (f: Frame, height: number): Frame => ({ ...f, origin: add(f.origin, scale(f.z, height)) });

/** A right-handed frame with the given z axis; x as near to the hint as that allows. */
export function frameAlong(origin: Vec3, z: Vec3, hint: Vec3): Frame {
  const zAxis = unit(z);
  let x = perpendicularPart(hint, zAxis);
  if (dot(x, x) < 1e-12) x = perpendicularPart(Math.abs(zAxis[0]) < 0.9 ? X : Y, zAxis);
  x = unit(x);
  return { origin, x, y: cross(zAxis, x), z: zAxis };
}

/** An affine map: p ↦ x·p₀ + y·p₁ + z·p₂ + origin. The columns may be scaled, mirrored or skew. */
export type Affine = Frame;

export const applyPoint = (m: Affine, p: Vec3): Vec3 => add(m.origin, applyDirection(m, p));
export const applyDirection = (m: Affine, d: Vec3): Vec3 =>
  add(scale(m.x, d[0]), add(scale(m.y, d[1]), scale(m.z, d[2])));

/** First `inner`, then `outer`. */
export const compose = (outer: Affine, inner: Affine): Affine => ({
  origin: applyPoint(outer, inner.origin),
  x: applyDirection(outer, inner.x),
  y: applyDirection(outer, inner.y),
  z: applyDirection(outer, inner.z),
});

export const translation = (by: Vec3): Affine => ({ ...WORLD, origin: by });
