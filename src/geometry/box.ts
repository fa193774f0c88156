/** Boxes along the axes of the inner frame. */
import { onceForEach } from '../collect.js';
import type { Body, Mesh, Prism, Vec3 } from '../model.js';
import { length } from './vector.js';

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

const AXES = [0, 1, 2] as const;

export const boxOfBody = onceForEach((body: Body): Box => (body.kind === 'mesh' ? boxOfMesh(body) : boxOfPrism(body)));

/** These two go through every corner of a building, so they do it in the plainest way. */
function boxOfMesh({ positions }: Mesh): Box {
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    const x = positions[i]!;
    const y = positions[i + 1]!;
    const z = positions[i + 2]!;
    if (x < x0) x0 = x;
    if (y < y0) y0 = y;
    if (z < z0) z0 = z;
    if (x > x1) x1 = x;
    if (y > y1) y1 = y;
    if (z > z1) z1 = z;
  }
  return { min: [x0, y0, z0], max: [x1, y1, z1] };
}

function boxOfPrism({ outline, frame: { origin, x: along, y: across }, sweep }: Prism): Box {
  const min: [number, number, number] = [0, 0, 0];
  const max: [number, number, number] = [0, 0, 0];
  for (const i of AXES) {
    const [o, a, b, s] = [origin[i], along[i], across[i], sweep[i]];
    let [low, high] = [Infinity, -Infinity];
    for (const { 0: u, 1: v } of outline) {
      const p = o + (a * u + b * v);
      if (p < low) low = p;
      if (p > high) high = p;
    }
    min[i] = s < 0 ? low + s : low;
    max[i] = s > 0 ? high + s : high;
  }
  return { min, max };
}

export function boxOf(bodies: readonly Body[]): Box {
  if (bodies.length === 1) return boxOfBody(bodies[0]!);
  let [x0, y0, z0, x1, y1, z1] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
  for (const { min, max } of bodies.map(boxOfBody)) {
    x0 = Math.min(x0, min[0]);
    y0 = Math.min(y0, min[1]);
    z0 = Math.min(z0, min[2]);
    x1 = Math.max(x1, max[0]);
    y1 = Math.max(y1, max[1]);
    z1 = Math.max(z1, max[2]);
  }
  return { min: [x0, y0, z0], max: [x1, y1, z1] };
}

/** The same of an element, worked out once. */
export const boxOfElement = onceForEach(({ bodies }: { readonly bodies: readonly Body[] }): Box => boxOf(bodies));

export function boxOfPoints(points: readonly Vec3[]): Box {
  const on = (i: 0 | 1 | 2) => points.map((p) => p[i]);
  return {
    min: [Math.min(...on(0)), Math.min(...on(1)), Math.min(...on(2))],
    max: [Math.max(...on(0)), Math.max(...on(1)), Math.max(...on(2))],
  };
}

export const grown = (box: Box, by: number): Box => ({
  min: [box.min[0] - by, box.min[1] - by, box.min[2] - by],
  max: [box.max[0] + by, box.max[1] + by, box.max[2] + by],
});

export const boxesMeet = ({ min: a, max: b }: Box, { min: c, max: d }: Box): boolean =>
  a[0] <= d[0] && c[0] <= b[0] && a[1] <= d[1] && c[1] <= b[1] && a[2] <= d[2] && c[2] <= b[2];

/** Clear distance; 0 where they meet. */
export const boxDistance = (a: Box, b: Box): number => length([gapOn(0, a, b), gapOn(1, a, b), gapOn(2, a, b)]);

const gapOn = (i: 0 | 1 | 2, a: Box, b: Box): number => Math.max(0, a.min[i] - b.max[i], b.min[i] - a.max[i]);

/** Largest distance between two corners of the same name: how far the boxes are from being one. */
export const boxDifference = (a: Box, b: Box): number =>
  Math.max(...AXES.flatMap((i) => [Math.abs(a.min[i] - b.min[i]), Math.abs(a.max[i] - b.max[i])]));
