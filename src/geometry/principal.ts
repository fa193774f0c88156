/** Principal directions of a point cloud: the eigenvectors of its covariance, by Jacobi rotations. */
import type { Vec3 } from '../model.js';

/** Three orthonormal directions; of a prism (any profile) one of them is its own axis. */
export function principalDirections(points: readonly Vec3[]): readonly [Vec3, Vec3, Vec3] {
  const mean = [0, 1, 2].map((i) => points.reduce((sum, p) => sum + p[i as 0 | 1 | 2], 0) / points.length);
  const a = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) =>
      points.reduce((sum, p) => sum + (p[i as 0 | 1 | 2] - mean[i]!) * (p[j as 0 | 1 | 2] - mean[j]!), 0),
    ),
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
