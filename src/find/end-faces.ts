/** The faces of bends, branches and transitions that a duct may go on from: flat, and of the shape of a section. */
import { fileUnder } from '../collect.js';
import { fitShape } from '../geometry/fit.js';
import { frameAlong, fromPlane, toPlane } from '../geometry/frame.js';
import { convexHull } from '../geometry/polygon.js';
import { add, cross, dot, length, lineAngle, scale, sub, unit, Z } from '../geometry/vector.js';
import type { Body, Mesh, Vec3 } from '../model.js';
import { FIT_RESIDUAL, PARALLEL } from '../tolerances.js';

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
/** Corners of a face lie this near to its plane, mm. */
const FLAT = 0.5;
/** Triangles smaller than this have no direction, mm². */
const SLIVER = 1e-6;

export function endFacesOf(bodies: readonly Body[]): EndFace[] {
  const middle = middleOf(bodies);
  return bodies
    .filter((body) => body.kind === 'mesh')
    .flatMap(flatFaces)
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

interface FlatFace {
  readonly normal: Vec3;
  readonly offset: number;
  readonly points: Vec3[];
}

/** Triangles that lie in one plane, together; both rims of a hollow end are one face. */
function flatFaces({ positions, triangles }: Mesh): FlatFace[] {
  const vertex = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  // By distance from the origin, in steps, so that a face is looked for among few.
  const shelves = new Map<number, FlatFace[]>();
  const faces: FlatFace[] = [];
  for (let f = 0; f < triangles.length; f += 3) {
    const [a, b, c] = [vertex(triangles[f]!), vertex(triangles[f + 1]!), vertex(triangles[f + 2]!)];
    const square = cross(sub(b, a), sub(c, a));
    if (length(square) < SLIVER) continue;
    const normal = unit(square);
    const offset = dot(normal, a);
    const shelf = Math.floor(offset / FLAT);
    const same = [shelf - 1, shelf, shelf + 1]
      .flatMap((at) => shelves.get(at) ?? [])
      .find(
        (face) =>
          lineAngle(face.normal, normal) < PARALLEL &&
          [a, b, c].every((p) => Math.abs(dot(face.normal, p) - face.offset) < FLAT),
      );
    if (same) {
      same.points.push(a, b, c);
      continue;
    }
    const face = { normal, offset, points: [a, b, c] };
    faces.push(face);
    fileUnder(shelves, shelf, face);
  }
  return faces;
}
