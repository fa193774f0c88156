/**
 * One layer round what is not straight: the surface of the piece, without its ends, moved outwards. Flat sides and the edges
 * between them come out exact, ends stay in their planes; on curved sides a vertex goes along the mean of its faces, which
 * is off by the chords of the mesh alone.
 */
import { solidsOf, volumeOf } from '../../geometry/mesh.js';
import { outerSurface } from '../../geometry/outer-surface.js';
import { add, cross, distance, dot, length, scale, sub, unit, ZERO } from '../../geometry/vector.js';
import type { AirElement, Mesh, Vec3 } from '../../model.js';
import { JOINT } from '../../tolerances.js';

/** Outside of a piece, open at its ends. */
export interface FittingSurface {
  readonly points: readonly Vec3[];
  /** Of the points: which way, and how far for each millimetre. */
  readonly outwards: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

/** @param joints where it is joined; undefined: the take-off has no surface of it either, or several */
export function fittingSurface(element: AirElement, joints: readonly Vec3[]): FittingSurface | undefined {
  const places: Vec3[] = [];
  for (const at of [...element.ports.map((port) => port.at), ...joints])
    if (places.every((known) => distance(known, at) > JOINT)) places.push(at);
  const ends = places.map((at) => ({ at, joined: undefined }));
  const found = element.bodies
    .flatMap(solidsOf)
    .map((solid) => outerSurface(solid, ends, JOINT))
    .filter((one) => typeof one !== 'string');
  const [only, ...others] = found;
  return only && others.length === 0 ? surfaceOf(only.mesh, only.triangles) : undefined;
}

function surfaceOf(mesh: Mesh, own: readonly number[]): FittingSurface {
  const numbers = new Map<number, number>();
  const points: Vec3[] = [];
  const place = (vertex: number): number => {
    const known = numbers.get(vertex);
    if (known !== undefined) return known;
    numbers.set(vertex, points.length);
    points.push([mesh.positions[3 * vertex]!, mesh.positions[3 * vertex + 1]!, mesh.positions[3 * vertex + 2]!]);
    return points.length - 1;
  };
  const isInward = volumeOf(mesh) < 0;
  const triangles = own.map((t) => {
    const [a, b, c] = [0, 1, 2].map((i) => place(mesh.triangles[3 * t + i]!)) as [number, number, number];
    return isInward ? ([a, c, b] as const) : ([a, b, c] as const);
  });
  return { points, outwards: outwardsOf(points, triangles), triangles };
}

/** Faces that turn by less are one curved side. */
const ONE_SIDE = Math.cos((25 * Math.PI) / 180);

interface Side {
  sum: Vec3;
}

function outwardsOf(points: readonly Vec3[], triangles: FittingSurface['triangles']): Vec3[] {
  const sides: Side[][] = points.map(() => []);
  for (const corners of triangles) {
    const [a, b, c] = corners.map((i) => points[i]!) as [Vec3, Vec3, Vec3];
    const normal = cross(sub(b, a), sub(c, a));
    if (length(normal) === 0) continue;
    corners.forEach((vertex, i) => {
      const [before, after] = [points[corners[(i + 2) % 3]!]!, points[corners[(i + 1) % 3]!]!];
      // By the angle at the corner, so that how a flat side is cut into triangles makes no difference.
      const weighted = scale(unit(normal), angleBetween(sub(before, points[vertex]!), sub(after, points[vertex]!)));
      const same = sides[vertex]!.find(({ sum }) => dot(unit(sum), unit(normal)) > ONE_SIDE);
      if (same) same.sum = add(same.sum, weighted);
      else sides[vertex]!.push({ sum: weighted });
    });
  }
  return sides.map((own) => outwardOf(own.map(({ sum }) => unit(sum))));
}

const angleBetween = (a: Vec3, b: Vec3): number => Math.atan2(length(cross(a, b)), dot(a, b));

/** Sharp edges reach no further than this many times the thickness. */
const MITRE = 3;
/** So little that it is not seen, and enough that one or two sides leave nothing open. */
const DAMPING = 1e-6;

/** The least d with n · d = 1 for each side, by least squares where there are more than three. */
function outwardOf(normals: readonly Vec3[]): Vec3 {
  const row = (i: 0 | 1 | 2): Vec3 =>
    normals.reduce<Vec3>(
      (sum, n) => add(sum, scale(n, n[i])),
      [i === 0 ? DAMPING : 0, i === 1 ? DAMPING : 0, i === 2 ? DAMPING : 0],
    );
  const [a, b, c] = [row(0), row(1), row(2)];
  const wanted = normals.reduce<Vec3>((sum, n) => add(sum, n), ZERO);
  const det = dot(a, cross(b, c));
  if (Math.abs(det) < Number.MIN_VALUE) return ZERO;
  // Symmetric, so its rows are its columns.
  const d: Vec3 = [dot(wanted, cross(b, c)) / det, dot(a, cross(wanted, c)) / det, dot(a, cross(b, wanted)) / det];
  const far = length(d);
  return far > MITRE ? scale(d, MITRE / far) : d;
}

/** Closed, so that it can be cut off at barriers. */
export function fittingShell({ points, outwards, triangles }: FittingSurface, inner: number, outer: number): Mesh {
  const moved = (by: number): Vec3[] => points.map((p, i) => add(p, scale(outwards[i]!, by)));
  const count = points.length;
  const faces = triangles.flatMap(([a, b, c]) => [a, c, b, count + a, count + b, count + c]);
  const rims = rimsOf(triangles).flatMap(([a, b]) => [a, b, count + b, a, count + b, count + a]);
  return {
    kind: 'mesh',
    positions: Float64Array.from([...moved(inner), ...moved(outer)].flat()),
    triangles: Uint32Array.from([...faces, ...rims]),
  };
}

/** Edges with a triangle on one side alone, as that triangle has them. */
function rimsOf(triangles: FittingSurface['triangles']): (readonly [number, number])[] {
  const edges = new Map<string, readonly [number, number]>();
  for (const corners of triangles)
    corners.forEach((a, i) => {
      const b = corners[(i + 1) % 3]!;
      if (!edges.delete(`${b} ${a}`)) edges.set(`${a} ${b}`, [a, b]);
    });
  return [...edges.values()];
}
