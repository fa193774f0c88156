/** Cutting bodies off at a plane. */
import type { Body, Frame, Mesh, Polygon, Prism, Vec3 } from '../model.js';
import { frameAlong, fromPlane, toPlane } from './frame.js';
import { prismMesh, triangulate } from './loft.js';
import { weldedMesh } from './mesh.js';
import { clip, contains } from './polygon.js';
import { cutBody, extent, forEachVertex } from './section.js';
import { add, dot, lerp, scale, sub } from './vector.js';

/** Nearer than this to the plane counts as on it: rounding noise of placements, mm. */
const ON_PLANE = 1e-6;

/**
 * What lies behind the plane through `at` (the side its normal points away from); undefined where nothing does. A prism
 * that is cut square to its sweep or along it stays a prism.
 */
export function cutOff(body: Body, at: Vec3, normal: Vec3): Body | undefined {
  const [least, most] = extent([body], at, normal);
  if (most <= ON_PLANE) return body;
  if (least >= -ON_PLANE) return undefined;
  if (body.kind === 'prism') return cutPrism(body, at, normal) ?? cutMesh(prismMesh(body), at, normal);
  return cutMesh(body, at, normal);
}

function cutPrism(prism: Prism, at: Vec3, normal: Vec3): Prism | undefined {
  const { frame, sweep, outline, voids } = prism;
  const [a, b, c] = [dot(frame.x, normal), dot(frame.y, normal), dot(sweep, normal)];
  const d = dot(sub(at, frame.origin), normal);
  if (Math.hypot(a, b) < 1e-9) {
    const t = d / c; // between 0 and 1: the plane cuts the prism
    return c > 0
      ? { ...prism, sweep: scale(sweep, t) }
      : { ...prism, frame: { ...frame, origin: add(frame.origin, scale(sweep, t)) }, sweep: scale(sweep, 1 - t) };
  }
  // Along the sweep: a part of a convex outline is swept. Others may fall in two.
  if (Math.abs(c) > 1e-9 * Math.hypot(...sweep) || voids.length > 0 || outline.length !== 4) return undefined;
  return { ...prism, outline: clip(outline, a, b, d) };
}

function cutMesh(mesh: Mesh, at: Vec3, normal: Vec3): Mesh | undefined {
  const { positions, triangles } = mesh;
  const out: number[] = [];
  const vertex = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const heightOf = (p: Vec3) => dot(sub(p, at), normal);
  for (let f = 0; f < triangles.length; f += 3) {
    const corners = [vertex(triangles[f]!), vertex(triangles[f + 1]!), vertex(triangles[f + 2]!)];
    const kept: Vec3[] = [];
    for (let i = 0; i < 3; i++) {
      const [p, q] = [corners[i]!, corners[(i + 1) % 3]!];
      const [hp, hq] = [heightOf(p), heightOf(q)];
      if (hp <= ON_PLANE) kept.push(p);
      // From the lower end, so that both triangles of an edge get the same point.
      if (hp <= ON_PLANE !== hq <= ON_PLANE)
        kept.push(hp < hq ? lerp(p, q, hp / (hp - hq)) : lerp(q, p, hq / (hq - hp)));
    }
    for (let i = 1; i + 1 < kept.length; i++) out.push(...kept[0]!, ...kept[i]!, ...kept[i + 1]!);
  }
  out.push(...capTriangles(mesh, frameAlong(at, normal, [0, 0, 1])));
  if (out.length === 0) return undefined;
  return weldedMesh({
    kind: 'mesh',
    positions: Float64Array.from(out),
    triangles: Uint32Array.from({ length: out.length / 3 }, (_, i) => i),
  });
}

function capTriangles(mesh: Mesh, plane: Frame): number[] {
  const { outers, holes } = cutBody(mesh, plane);
  return outers.flatMap((outer: Polygon) => {
    const inside = holes.filter((hole) => contains(outer, hole[0]!));
    const points = [outer, ...inside].flat();
    return triangulate(outer, inside).flatMap((i) => [...fromPlane(plane, points[i]!)]);
  });
}

/** Whether everything of a body stands over an outline in a plane, within it. */
export function standsWithin(body: Body, plane: Frame, outline: Polygon): boolean {
  let within = true;
  forEachVertex(body, (p) => {
    if (!contains(outline, toPlane(plane, p))) within = false;
  });
  return within;
}
