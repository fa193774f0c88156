/** Bodies as triangles, for whoever draws them. */
import earcut from 'earcut';
import { fromPlane } from '../geometry/frame.js';
import { counterClockwise, signedArea } from '../geometry/polygon.js';
import { cross, dot } from '../geometry/vector.js';
import type { Body, Mesh, Polygon, Prism } from '../model.js';

export type Triangles = Omit<Mesh, 'kind'>;

/** All bodies in one; a prism's triangles look outwards, those of a mesh as the file has them. */
export function triangulate(bodies: readonly Body[]): Triangles {
  const parts = bodies.map((body) => (body.kind === 'mesh' ? body : prismTriangles(body)));
  if (parts.length === 1) return { positions: parts[0]!.positions, triangles: parts[0]!.triangles };
  const positions = new Float64Array(parts.reduce((sum, part) => sum + part.positions.length, 0));
  const triangles = new Uint32Array(parts.reduce((sum, part) => sum + part.triangles.length, 0));
  let [p, t] = [0, 0];
  for (const part of parts) {
    positions.set(part.positions, p);
    for (let i = 0; i < part.triangles.length; i++) triangles[t + i] = part.triangles[i]! + p / 3;
    p += part.positions.length;
    t += part.triangles.length;
  }
  return { positions, triangles };
}

/** Vertices: every ring of the base, then every ring of the top; ends and sides share them. */
function prismTriangles(prism: Prism): Triangles {
  const { frame, sweep } = prism;
  const rings = [counterClockwise(prism.outline), ...prism.voids.map(clockwise)];
  const flat = rings.flat(2);
  const starts: number[] = [];
  rings.reduce((start, ring) => {
    starts.push(start);
    return start + ring.length;
  }, 0);
  const count = flat.length / 2;
  const positions = new Float64Array(6 * count);
  rings.flat().forEach((q, i) => {
    const p = fromPlane(frame, q);
    positions.set(p, 3 * i);
    positions.set([p[0] + sweep[0], p[1] + sweep[1], p[2] + sweep[2]], 3 * (count + i));
  });
  const cap = earcut(flat, starts.slice(1));
  const triangles: number[] = [];
  const outwards = dot(cross(frame.x, frame.y), sweep) > 0;
  const push = (a: number, b: number, c: number): void => {
    if (outwards) triangles.push(a, b, c);
    else triangles.push(a, c, b);
  };
  for (let i = 0; i < cap.length; i += 3) {
    const [a, b, c] = upwards(flat, cap[i]!, cap[i + 1]!, cap[i + 2]!);
    push(a, c, b);
    push(count + a, count + b, count + c);
  }
  rings.forEach((ring, r) => {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [from, to] = [starts[r]! + j, starts[r]! + i];
      push(from, to, count + to);
      push(from, count + to, count + from);
    }
  });
  return { positions, triangles: Uint32Array.from(triangles) };
}

const clockwise = (p: Polygon): Polygon => (signedArea(p) > 0 ? [...p].reverse() : p);

/** The order in which the triangle is counter-clockwise in its plane. */
function upwards(flat: readonly number[], a: number, b: number, c: number): readonly [number, number, number] {
  const corner = (i: number) => [flat[2 * i]!, flat[2 * i + 1]!] as const;
  return signedArea([corner(a), corner(b), corner(c)]) < 0 ? [a, c, b] : [a, b, c];
}
