/** Triangles of a mesh that lie in one plane, together. */
import { fileUnder } from '../collect.js';
import type { Mesh, Vec3 } from '../model.js';
import { PARALLEL } from '../tolerances.js';
import { cross, dot, length, lineAngle, sub, unit } from './vector.js';

export interface FlatFace {
  readonly normal: Vec3;
  /** Of its plane from the origin, along the normal. */
  readonly offset: number;
  /** Corners of its triangles, three of each. */
  readonly points: Vec3[];
  /** Numbers of its triangles. */
  readonly triangles: number[];
}

/** Corners of a face lie this near to its plane, mm. */
const FLAT = 0.5;
/** Triangles smaller than this have no direction, mm². */
const SLIVER = 1e-6;

type Plane = Pick<FlatFace, 'normal' | 'offset'>;

/**
 * Both rims of a hollow end are one face, and so is all else that lies in its plane.
 *
 * @param isWanted of which planes; of round bodies there are thousands
 */
export function flatFaces(
  { positions, triangles }: Mesh,
  isWanted: (plane: Plane) => boolean = () => true,
): FlatFace[] {
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
    if (!isWanted({ normal, offset })) continue;
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
      same.triangles.push(f / 3);
      continue;
    }
    const face = { normal, offset, points: [a, b, c], triangles: [f / 3] };
    faces.push(face);
    fileUnder(shelves, shelf, face);
  }
  return faces;
}
