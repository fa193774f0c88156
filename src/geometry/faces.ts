/** The flat faces of a body: which way each looks, where its plane lies, how large it is. */
import type { Body, Vec2, Vec3 } from '../model.js';
import { fromPlane } from './frame.js';
import { area, signedArea } from './polygon.js';
import { add, cross, dot, length, negate, scale, sub, unit } from './vector.js';

export interface Face {
  /** Unit, pointing out of the body (where its winding can be trusted). */
  readonly normal: Vec3;
  /** normal · p for every point p of the face. */
  readonly offset: number;
  readonly area: number;
  /** Of an upright face: its two ends on plan. */
  readonly trace: readonly [Vec2, Vec2] | undefined;
}

/** Triangles of one plane differ by no more than rounding noise: this much in direction, this much in mm. */
const SAME_NORMAL = 1e-3;
const SAME_OFFSET = 0.2;

/** A face whose normal rises or falls by less than this share is upright. */
const UPRIGHT = 1e-4;

export const flatFaces = (bodies: readonly Body[]): Face[] => mergedFaces(bodies.flatMap(rawFaces));

/** Faces with one plane are merged; largest first. */
export function mergedFaces(faces: readonly Face[]): Face[] {
  const merged: { -readonly [K in keyof Face]: Face[K] }[] = [];
  for (const face of faces) {
    const same = merged.find(
      (f) => Math.abs(f.offset - face.offset) < SAME_OFFSET && length(sub(f.normal, face.normal)) < SAME_NORMAL,
    );
    if (same) {
      same.area += face.area;
      same.trace = outermost(same.normal, [...(same.trace ?? []), ...(face.trace ?? [])]);
    } else merged.push({ ...face });
  }
  return merged.sort((a, b) => b.area - a.area);
}

/** The two points that lie farthest apart along an upright face. */
function outermost([nx, ny, nz]: Vec3, points: readonly Vec2[]): Face['trace'] {
  if (Math.abs(nz) > UPRIGHT || points.length === 0) return undefined;
  const along = ([x, y]: Vec2) => x * ny - y * nx;
  let [first, last] = [points[0]!, points[0]!];
  for (const p of points) {
    if (along(p) < along(first)) first = p;
    if (along(p) > along(last)) last = p;
  }
  return [first, last];
}

/** One for each edge of a prism's outline, its two caps, each triangle of a mesh; faces of no area are left out. */
export function rawFaces(body: Body): Face[] {
  const faces: Face[] = [];
  const push = (normal: Vec3, size: number, ...corners: readonly Vec3[]): void => {
    if (!(size > 1e-6)) return;
    const trace = outermost(
      normal,
      corners.map(([x, y]): Vec2 => [x, y]),
    );
    faces.push({ normal, offset: dot(normal, corners[0]!), area: size, trace });
  };
  if (body.kind === 'mesh') {
    const { positions: p, triangles } = body;
    const vertex = (i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    for (let f = 0; f < triangles.length; f += 3) {
      const [a, b, c] = [vertex(triangles[f]!), vertex(triangles[f + 1]!), vertex(triangles[f + 2]!)];
      const n = cross(sub(b, a), sub(c, a));
      push(unit(n), length(n) / 2, a, b, c);
    }
    return faces;
  }
  const { frame, sweep, outline } = body;
  const up = unit(cross(frame.x, frame.y));
  const outward = Math.sign(dot(sweep, up)) || 1;
  const capArea = area(outline);
  const corners = outline.map((p) => fromPlane(frame, p));
  push(scale(up, -outward), capArea, ...corners);
  push(scale(up, outward), capArea, ...corners.map((p) => add(p, sweep)));
  const turn = Math.sign(signedArea(outline));
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [from, to] = [corners[j]!, corners[i]!];
    const n = cross(sub(to, from), sweep);
    push(turn * outward > 0 ? unit(n) : negate(unit(n)), length(n), from, to, add(from, sweep), add(to, sweep));
  }
  return faces;
}
