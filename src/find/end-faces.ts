/** The faces of bends, branches and transitions that a duct may go on from: flat, and of the shape of a section. */
import { fitShape } from '../geometry/fit.js';
import { flatFaces } from '../geometry/flat-faces.js';
import { frameAlong, fromPlane, toPlane } from '../geometry/frame.js';
import { convexHull } from '../geometry/polygon.js';
import { add, dot, scale, sub, Z } from '../geometry/vector.js';
import type { Body, Vec3 } from '../model.js';
import { FIT_RESIDUAL } from '../tolerances.js';

export interface EndFace {
  readonly centre: Vec3;
  /** Out of the body as far as its triangles are wound rightly; the two signs are tried where it matters. */
  readonly normal: Vec3;
  /** The longer and the shorter side, or the diameter twice. */
  readonly length: number;
  readonly breadth: number;
}

/** No duct is smaller; facets of curved sides mostly are. */
const LEAST_SIDE = 40;
export function endFacesOf(bodies: readonly Body[]): EndFace[] {
  const middle = middleOf(bodies);
  return bodies
    .filter((body) => body.kind === 'mesh')
    .flatMap((mesh) => flatFaces(mesh))
    .flatMap(({ normal, points }): EndFace[] => {
      const plane = frameAlong(points[0]!, normal, Z);
      const fit = fitShape(convexHull(points.map((p) => toPlane(plane, p))));
      if (fit.shape === 'unknown' || fit.residual > FIT_RESIDUAL || fit.breadth < LEAST_SIDE) return [];
      const centre = fromPlane(plane, fit.centre);
      // Whichever way the triangles are wound, the way out leads away from the body's middle.
      const out = dot(sub(centre, middle), normal) < 0 ? scale(normal, -1) : normal;
      return [{ centre, normal: out, length: fit.length, breadth: fit.breadth }];
    });
}

function middleOf(bodies: readonly Body[]): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  let count = 0;
  for (const body of bodies)
    if (body.kind === 'mesh')
      for (let i = 0; i < body.positions.length; i += 3, count++)
        sum = add(sum, [body.positions[i]!, body.positions[i + 1]!, body.positions[i + 2]!]);
  return count === 0 ? sum : scale(sum, 1 / count);
}
