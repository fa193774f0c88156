/** Distances between two points of the model, and what there is to measure near a pixel. */
import { dot, length, sub } from '../../src/geometry/vector.js';
import type { Vec2, Vec3 } from '../../src/model.js';
import type { Elements } from './elements.js';
import { alongRay } from './pick.js';
import { keptLines } from './section-lines.js';
import { sharpLines } from './sharp-lines.js';
import { type Snapped, snap } from './snap.js';
import type { Cut, Ray } from './standpoint.js';

export interface Axes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly normal: Vec3;
}

/** mm. */
export interface Distance {
  readonly total: number;
  readonly right: number;
  readonly up: number;
  readonly normal: number;
}

export function distanceBetween(from: Vec3, to: Vec3, { right, up, normal }: Axes): Distance {
  const way = sub(to, from);
  return { total: length(way), right: dot(way, right), up: dot(way, up), normal: dot(way, normal) };
}

export interface ToSnap {
  readonly elements: Elements;
  readonly isShown: (id: number) => boolean;
  readonly cut: Cut | null;
  /** Lines that are no element's, such as rims: they are asked first. */
  readonly rims: readonly number[];
  readonly project: (p: Vec3) => Vec2 | undefined;
  /** mm of a pixel. */
  readonly pixel: number;
}

/** How far from the line of sight boxes are looked into, pixels. */
const AROUND = 12;

export function snapAt(
  { elements, isShown, cut, rims, project, pixel }: ToSnap,
  at: Vec2,
  ray: Ray,
): Snapped | undefined {
  const lines = [...rims];
  for (const id of alongRay(elements, ray, AROUND * pixel))
    if (isShown(id)) for (const v of linesOf(elements, id)) lines.push(v);
  return snap(keptLines(lines, cut), project, (p) => dot(sub(p, ray.from), ray.along), at);
}

function linesOf({ nodes }: Elements, id: number): number[] {
  const { positions, triangles } = nodes[id]!;
  return sharpLines(positions, triangles).flatMap((end) => [...positions.subarray(3 * end, 3 * end + 3)]);
}
