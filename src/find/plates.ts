/** What a duct passes: two faces of a barrier that stand opposite each other, seen as the elevation drawing sees them. */
import { cross, negate, perpendicularPart, scale, unit, Y, Z } from '../geometry/vector.js';
import type { Barrier, Frame, Vec2, Vec3 } from '../model.js';
import { FACE_INSET, HEAD_STEP, MOST_HEAD_STEPS } from '../tolerances.js';

/**
 * Both faces of a barrier at one place. `frame` is the frame of the elevation drawing: x to the right, y up, z along the
 * normal; its origin is on the middle plane, the faces at z = ± thickness / 2.
 */
export interface Plate {
  readonly frame: Frame;
  readonly thickness: number;
  /** Of a wall of several parts: where along z there is solid, cavities left out; undefined: all the way through. */
  readonly solid?: readonly Stretch[] | undefined;
  /** Of a curved wall: then the frame's plane touches the cylinder half-way between its faces. */
  readonly curve?: Curve | undefined;
}

/** From, to; along a normal. */
export type Stretch = readonly [number, number];

export interface Curve {
  /** Where the axis stands on plan. */
  readonly centre: Vec2;
  /** Half-way between the faces. */
  readonly radius: number;
  /** The frame's z looks away from the axis (1) or towards it (-1). */
  readonly outward: 1 | -1;
  /** How far facets lie within the true circle, at the most. */
  readonly chordError: number;
}

/** @param stretches solid ones along the normal, ascending, with the cavities of one barrier between them */
export function plate(normal: Vec3, stretches: readonly [Stretch, ...Stretch[]], kind: Barrier['kind']): Plate {
  const [low, high] = [stretches[0][0], stretches.at(-1)![1]];
  const middle = (low + high) / 2;
  return {
    frame: elevationFrame(scale(normal, middle), normal, kind === 'wall'),
    thickness: high - low,
    ...(stretches.length > 1 && { solid: stretches.map(([from, to]): Stretch => [from - middle, to - middle]) }),
  };
}

/** The nearest height at which the barrier has solid. */
export function inSolid({ solid }: Plate, s: number): number {
  if (!solid) return s;
  const heights = solid.map(([from, to]) => Math.max(from + FACE_INSET, Math.min(to - FACE_INSET, s)));
  return heights.reduce((best, h) => (Math.abs(h - s) < Math.abs(best - s) ? h : best));
}

/** Which of the two normals the elevation is drawn along: see the contract, "Gaps". */
export function drawnNormal(n: Vec3, wall: boolean): Vec3 {
  if (!wall) return n[2] > 0 || (n[2] === 0 && n[0] < 0) ? negate(n) : n; // on plan one looks down
  const larger = Math.abs(n[0]) >= Math.abs(n[1]) - 1e-9 ? n[0] : n[1];
  return larger < 0 ? negate(n) : n;
}

/** Right-hand side and up as seen by someone who looks along the normal; on plan +Y is up. */
export function elevationFrame(origin: Vec3, normal: Vec3, wall: boolean): Frame {
  let up = perpendicularPart(wall ? Z : Y, normal);
  if (Math.hypot(...up) < 1e-6) up = perpendicularPart(wall ? Y : Z, normal);
  up = unit(up);
  return { origin, x: unit(cross(normal, up)), y: up, z: normal };
}

/** Heights, along the plate's normal, of the cutting planes that stand for its two faces. */
export const faceHeights = (p: Plate): readonly [number, number] => [
  -p.thickness / 2 + FACE_INSET,
  p.thickness / 2 - FACE_INSET,
];

/** In how many steps the top of a wall is looked at over a length of it. */
export const headSteps = (along: number): number => Math.min(MOST_HEAD_STEPS, Math.ceil(along / HEAD_STEP));
