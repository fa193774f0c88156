/** What a line of sight meets first: boxes, then triangles. One ray over 50,000 boxes takes about a millisecond, so nothing is built. */
import { add, scale } from '../../src/geometry/vector.js';
import type { Vec3 } from '../../src/model.js';
import type { Elements } from './elements.js';
import { type Cut, isCut, type Ray } from './standpoint.js';

export interface Hit {
  /** Number of the element. */
  readonly id: number;
  readonly at: Vec3;
  readonly distance: number;
}

/**
 * The first element that is neither hidden nor cut away.
 * @param reach how far one looks, mm
 * @param shown by number
 */
export function pick(
  elements: Elements,
  ray: Ray,
  cut: Cut | null,
  reach: number,
  shown: (id: number) => boolean,
): Hit | undefined {
  let best: Hit | undefined;
  for (const id of alongRay(elements, ray, 0)) {
    if (!shown(id)) continue;
    const { positions, triangles } = elements.nodes[id]!;
    for (let t = 0; t < triangles.length; t += 3) {
      const distance = meets(ray, positions, triangles[t]!, triangles[t + 1]!, triangles[t + 2]!);
      if (distance === undefined || distance > reach || (best && distance >= best.distance)) continue;
      const at = add(ray.from, scale(ray.along, distance));
      if (!isCut(cut, at)) best = { id, at, distance };
    }
  }
  return best;
}

/** Elements whose boxes the ray meets, or passes within `around` of. */
export function alongRay({ boxes, nodes }: Elements, { from, along }: Ray, around: number): number[] {
  const found: number[] = [];
  for (let i = 0; i < nodes.length; i++) {
    let [first, last] = [0, Infinity];
    for (let axis = 0; axis < 3 && first <= last; axis++) {
      const [low, high] = [boxes[6 * i + axis]! - around, boxes[6 * i + axis + 3]! + around];
      const [start, speed] = [from[axis]!, along[axis]!];
      if (Math.abs(speed) < 1e-12) {
        if (start < low || start > high) last = -1;
        continue;
      }
      const [a, b] = [(low - start) / speed, (high - start) / speed];
      first = Math.max(first, Math.min(a, b));
      last = Math.min(last, Math.max(a, b));
    }
    if (first <= last) found.push(i);
  }
  return found;
}

/** Möller and Trumbore (1997), from either side. @returns distance along the ray */
export function meets(ray: Ray, p: Float32Array, i: number, j: number, k: number): number | undefined {
  const [a, b, c] = [3 * i, 3 * j, 3 * k];
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [dx, dy, dz] = ray.along;
  const [hx, hy, hz] = [dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx];
  const area = ux * hx + uy * hy + uz * hz;
  if (Math.abs(area) < 1e-9) return undefined;
  const [sx, sy, sz] = [ray.from[0] - p[a]!, ray.from[1] - p[a + 1]!, ray.from[2] - p[a + 2]!];
  const u = (sx * hx + sy * hy + sz * hz) / area;
  if (u < 0 || u > 1) return undefined;
  const [qx, qy, qz] = [sy * uz - sz * uy, sz * ux - sx * uz, sx * uy - sy * ux];
  const v = (dx * qx + dy * qy + dz * qz) / area;
  if (v < 0 || u + v > 1) return undefined;
  const distance = (vx * qx + vy * qy + vz * qz) / area;
  return distance > 0 ? distance : undefined;
}
