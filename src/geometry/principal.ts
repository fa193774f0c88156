/** Principal directions: the eigenvectors of a covariance, by Jacobi rotations. */
import type { Mesh, Vec3 } from '../model.js';
import { cross, dot, length, lineAngle, scale, sub, unit } from './vector.js';

/** Three orthonormal directions of a point cloud; of a prism (any profile) one of them is its own axis. */
export function principalDirections(points: readonly Vec3[]): readonly [Vec3, Vec3, Vec3] {
  const mean = [0, 1, 2].map((i) => points.reduce((sum, p) => sum + p[i as 0 | 1 | 2], 0) / points.length);
  return eigenvectors(points.map((p): Vec3 => [p[0] - mean[0]!, p[1] - mean[1]!, p[2] - mean[2]!]));
}

/**
 * Directions that a mesh may be a tube along: its sides all look square to the axis. Ends that are cut askew, flanges and
 * spigots look elsewhere and are left out once an axis is near; so what comes out is exact, whatever stands out of it.
 */
export function tubeDirections({ positions, triangles }: Mesh): readonly Vec3[] {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const normals: Vec3[] = [];
  for (let f = 0; f < triangles.length; f += 3) {
    const n = cross(sub(at(triangles[f + 1]!), at(triangles[f]!)), sub(at(triangles[f + 2]!), at(triangles[f]!)));
    // The covariance squares lengths, and the area should count once.
    if (length(n) > 0) normals.push(scale(n, 1 / Math.sqrt(length(n))));
  }
  const largest = [...normals].sort((a, b) => length(b) - length(a));
  const [first] = largest;
  const second = first && largest.find((n) => lineAngle(n, first) > DISTINCT);
  const box = first && second ? [unit(cross(first, second)), unit(first), unit(second)] : [];
  return [...box, ...eigenvectors(normals)].map((axis) => refined(normals, axis));
}

/** Normals nearer to each other than this, degrees, are those of one side. */
const DISTINCT = 30;
/** Normals this much along the axis are none of a side. */
const ALONG = 0.3;

function refined(normals: readonly Vec3[], axis: Vec3): Vec3 {
  const sides = normals.filter((n) => Math.abs(dot(n, axis)) < ALONG * length(n));
  if (sides.length < 3) return axis;
  const candidates = [...eigenvectors(sides)];
  return candidates.sort((a, b) => Math.abs(dot(b, axis)) - Math.abs(dot(a, axis)))[0]!;
}

/** Of the sum of outer products of the vectors. */
function eigenvectors(vectors: readonly Vec3[]): readonly [Vec3, Vec3, Vec3] {
  const a = ([0, 1, 2] as const).map((i) =>
    ([0, 1, 2] as const).map((j) => vectors.reduce((sum, p) => sum + p[i] * p[j], 0)),
  );
  const v = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  for (let sweep = 0; sweep < 32; sweep++)
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      const off = a[p]![q]!;
      if (Math.abs(off) < 1e-12 * (Math.abs(a[p]![p]!) + Math.abs(a[q]![q]!))) continue;
      const angle = 0.5 * Math.atan2(2 * off, a[q]![q]! - a[p]![p]!);
      rotate(a, v, p, q, Math.cos(angle), Math.sin(angle));
    }
  const column = (i: 0 | 1 | 2): Vec3 => [v[0]![i]!, v[1]![i]!, v[2]![i]!];
  return [column(0), column(1), column(2)];
}

function rotate(a: number[][], v: number[][], p: number, q: number, c: number, s: number): void {
  for (let k = 0; k < 3; k++) {
    const [akp, akq] = [a[k]![p]!, a[k]![q]!];
    a[k]![p] = c * akp - s * akq;
    a[k]![q] = s * akp + c * akq;
  }
  for (let k = 0; k < 3; k++) {
    const [apk, aqk] = [a[p]![k]!, a[q]![k]!];
    a[p]![k] = c * apk - s * aqk;
    a[q]![k] = s * apk + c * aqk;
    const [vkp, vkq] = [v[k]![p]!, v[k]![q]!];
    v[k]![p] = c * vkp - s * vkq;
    v[k]![q] = s * vkp + c * vkq;
  }
}
