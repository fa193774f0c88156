/** A perspective camera and the planes that cut away what stands before what it looks at. Millimetres, degrees. */
import { add, cross, dot, perpendicularPart, unit } from '../geometry/vector.js';
import type { Vec3 } from '../model.js';

export interface Camera {
  readonly eye: Vec3;
  /** Unit. */
  readonly direction: Vec3;
  /** Unit, square to `direction`. */
  readonly up: Vec3;
}

export interface CutPlane {
  readonly at: Vec3;
  /** Unit; points to the half that is not seen. */
  readonly direction: Vec3;
}

/** Width over height of every picture. */
export const ASPECT = 4 / 3;
/** Angle between the left and the right edge of every picture: the widest that BCF 2.1 allows. */
export const HORIZONTAL_VIEW = 60;
/** Half the width, and half the height, of the picture over its distance. */
export const HORIZONTAL_TANGENT = Math.tan((HORIZONTAL_VIEW * Math.PI) / 360);
export const VERTICAL_TANGENT = HORIZONTAL_TANGENT / ASPECT;
/** Angle between the upper and the lower edge. */
export const VERTICAL_VIEW = (Math.atan(VERTICAL_TANGENT) * 360) / Math.PI;

/** @param direction unit */
export const cameraAt = (eye: Vec3, direction: Vec3, upHint: Vec3): Camera => ({
  eye,
  direction,
  up: unit(perpendicularPart(upHint, direction)),
});

/** Right of, above and before the eye, for directions. */
export function turnedTo({ direction, up }: Camera): (d: Vec3) => Vec3 {
  const right = cross(direction, up);
  return (d) => [dot(d, right), dot(d, up), dot(d, direction)];
}

export const movedCamera = (camera: Camera, by: Vec3): Camera => ({ ...camera, eye: add(camera.eye, by) });
export const movedPlane = (plane: CutPlane, by: Vec3): CutPlane => ({ ...plane, at: add(plane.at, by) });
