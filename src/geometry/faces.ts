/** The flat faces of a body: which way each looks, where its plane lies, how large it is. */
import type { Body, Vec3 } from '../model.js';
import { fromPlane } from './frame.js';
import { area, signedArea } from './polygon.js';
import { add, cross, dot, length, negate, scale, sub, unit } from './vector.js';

export interface Face {
  /** Unit, pointing out of the body (where its winding can be trusted). */
  readonly normal: Vec3;
  /** normal · p for every point p of the face. */
  readonly offset: number;
  readonly area: number;
}

/** Triangles of one plane differ by no more than rounding noise: this much in direction, this much in mm. */
const SAME_NORMAL = 1e-3;
const SAME_OFFSET = 0.2;

/** Faces with one plane are merged; largest first. */
export function flatFaces(bodies: readonly Body[]): Face[] {
  const merged: { normal: Vec3; offset: number; area: number }[] = [];
  for (const face of bodies.flatMap(rawFaces)) {
    const same = merged.find(
      (f) => Math.abs(f.offset - face.offset) < SAME_OFFSET && length(sub(f.normal, face.normal)) < SAME_NORMAL,
    );
    if (same) same.area += face.area;
    else merged.push({ ...face });
  }
  return merged.sort((a, b) => b.area - a.area);
}

function rawFaces(body: Body): Face[] {
  const faces: Face[] = [];
  const push = (normal: Vec3, at: Vec3, size: number): void => {
    if (size > 1e-6) faces.push({ normal, offset: dot(normal, at), area: size });
  };
  if (body.kind === 'mesh') {
    const { positions: p, triangles } = body;
    const vertex = (i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    for (let f = 0; f < triangles.length; f += 3) {
      const [a, b, c] = [vertex(triangles[f]!), vertex(triangles[f + 1]!), vertex(triangles[f + 2]!)];
      const n = cross(sub(b, a), sub(c, a));
      push(unit(n), a, length(n) / 2);
    }
    return faces;
  }
  const { frame, sweep, outline } = body;
  const up = unit(cross(frame.x, frame.y));
  const outward = Math.sign(dot(sweep, up)) || 1;
  const capArea = area(outline);
  push(scale(up, -outward), frame.origin, capArea);
  push(scale(up, outward), add(frame.origin, sweep), capArea);
  const turn = Math.sign(signedArea(outline));
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const from = fromPlane(frame, outline[j]!);
    const n = cross(sub(fromPlane(frame, outline[i]!), from), sweep);
    const size = length(n);
    if (size > 0) push(turn * outward > 0 ? unit(n) : negate(unit(n)), from, size);
  }
  return faces;
}
