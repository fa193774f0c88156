/** Cutting bodies with planes. A plane is a Frame: its x and y axes carry the outline, its z axis is the normal. */
import type { Body, Frame, Mesh, Polygon, Prism, Vec2, Vec3 } from '../model.js';
import { fromPlane, toPlane } from './frame.js';
import { area, clip, contains, counterClockwise, interiorPoint } from './polygon.js';
import { dot, sub } from './vector.js';

/** The cut of a body: outer outlines and the holes in them, all counter-clockwise, in the plane's coordinates. */
export interface Region {
  readonly outers: readonly Polygon[];
  readonly holes: readonly Polygon[];
}

export const EMPTY: Region = { outers: [], holes: [] };

/** Outlines smaller than this are slivers of the cut, no section, mm². */
const LEAST_AREA = 1;

export const cutBody = (body: Body, plane: Frame): Region =>
  body.kind === 'prism' ? cutPrism(body, plane) : cutMesh(body, plane);

export function cutBodies(bodies: readonly Body[], plane: Frame): Region {
  const regions = bodies.map((body) => cutBody(body, plane));
  return { outers: regions.flatMap((r) => r.outers), holes: regions.flatMap((r) => r.holes) };
}

/** Least and largest coordinate along a direction through `from` (unit vector), mm. */
export function extent(bodies: readonly Body[], from: Vec3, direction: Vec3): readonly [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (const body of bodies)
    forEachVertex(body, (p) => {
      const s = dot(sub(p, from), direction);
      if (s < least) least = s;
      if (s > most) most = s;
    });
  return [least, most];
}

export function forEachVertex(body: Body, visit: (p: Vec3) => void): void {
  if (body.kind === 'mesh') {
    const { positions } = body;
    for (let i = 0; i < positions.length; i += 3) visit([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
    return;
  }
  for (const q of body.outline) {
    const p = fromPlane(body.frame, q);
    visit(p);
    visit([p[0] + body.sweep[0], p[1] + body.sweep[1], p[2] + body.sweep[2]]);
  }
}

/**
 * Exact for any plane. In coordinates (u, v) of the outline and t along the sweep the plane is a·u + b·v + c·t = d;
 * the cut is the part of the outline where 0 ≤ t ≤ 1, carried to the plane along the sweep.
 */
function cutPrism(prism: Prism, plane: Frame): Region {
  const { frame, sweep } = prism;
  const a = dot(frame.x, plane.z);
  const b = dot(frame.y, plane.z);
  const c = dot(sweep, plane.z);
  const d = dot(sub(plane.origin, frame.origin), plane.z);
  if (Math.abs(c) < 1e-9 * Math.hypot(...sweep)) return cutAlongSweep(prism, plane, a, b, d);
  const t = (q: Vec2) => (d - a * q[0] - b * q[1]) / c;
  const part = (outline: Polygon): Polygon => {
    const ts = outline.map(t);
    const [low, high] = [Math.min(...ts), Math.max(...ts)];
    if (high < 0 || low > 1) return [];
    // t ≥ 0 is (a·u + b·v)/c ≤ d/c and t ≤ 1 is −(a·u + b·v)/c ≤ 1 − d/c.
    let kept: Polygon = outline;
    if (low < 0) kept = clip(kept, a / c, b / c, d / c);
    if (high > 1) kept = clip(kept, -a / c, -b / c, 1 - d / c);
    return counterClockwise(
      kept.map((q) => {
        const k = t(q);
        const p = fromPlane(frame, q);
        return toPlane(plane, [p[0] + sweep[0] * k, p[1] + sweep[1] * k, p[2] + sweep[2] * k]);
      }),
    );
  };
  return { outers: sizable([part(prism.outline)]), holes: sizable(prism.voids.map(part)) };
}

/** The plane runs along the sweep: it cuts the outline in chords, each of which sweeps a parallelogram. */
function cutAlongSweep(prism: Prism, plane: Frame, a: number, b: number, d: number): Region {
  const strips = (outline: Polygon): Polygon[] => {
    const cuts: { along: number; at: Vec2 }[] = [];
    for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
      const [from, to] = [outline[j]!, outline[i]!];
      const df = a * from[0] + b * from[1] - d;
      const dt = a * to[0] + b * to[1] - d;
      if (df < 0 === dt < 0) continue;
      const k = df / (df - dt);
      const at: Vec2 = [from[0] + (to[0] - from[0]) * k, from[1] + (to[1] - from[1]) * k];
      cuts.push({ along: -b * at[0] + a * at[1], at });
    }
    cuts.sort((p, q) => p.along - q.along);
    const out: Polygon[] = [];
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [p, q] = [fromPlane(prism.frame, cuts[i]!.at), fromPlane(prism.frame, cuts[i + 1]!.at)];
      const s = prism.sweep;
      const corners: Vec3[] = [p, q, [q[0] + s[0], q[1] + s[1], q[2] + s[2]], [p[0] + s[0], p[1] + s[1], p[2] + s[2]]];
      out.push(counterClockwise(corners.map((corner) => toPlane(plane, corner))));
    }
    return out;
  };
  return { outers: sizable(strips(prism.outline)), holes: sizable(prism.voids.flatMap(strips)) };
}

/** Chains the triangles' cuts edge by edge. Open chains (holes in the mesh) are closed by a straight line. */
function cutMesh(mesh: Mesh, plane: Frame): Region {
  const { positions, triangles } = mesh;
  const height = new Float64Array(positions.length / 3);
  for (let i = 0; i < height.length; i++)
    height[i] =
      (positions[3 * i]! - plane.origin[0]) * plane.z[0] +
      (positions[3 * i + 1]! - plane.origin[1]) * plane.z[1] +
      (positions[3 * i + 2]! - plane.origin[2]) * plane.z[2];

  // A point of the cut lies on a mesh edge; the edge (low vertex, high vertex) names it exactly.
  const points = new Map<string, Vec2>();
  const next = new Map<string, string[]>();
  const pointOn = (i: number, j: number): string => {
    const [a, b] = i < j ? [i, j] : [j, i];
    const key = `${a}-${b}`;
    if (!points.has(key)) {
      const t = height[a]! / (height[a]! - height[b]!);
      const at = (k: 0 | 1 | 2) => positions[3 * a + k]! + (positions[3 * b + k]! - positions[3 * a + k]!) * t;
      points.set(key, toPlane(plane, [at(0), at(1), at(2)]));
      next.set(key, []);
    }
    return key;
  };
  for (let f = 0; f < triangles.length; f += 3) {
    const v = [triangles[f]!, triangles[f + 1]!, triangles[f + 2]!] as const;
    // On the plane counts as above: no vertex is ever exactly on it, so every cut triangle has two cut edges.
    const cutEdges = (
      [
        [0, 1],
        [1, 2],
        [2, 0],
      ] as const
    ).filter(([i, j]) => height[v[i]]! >= 0 !== height[v[j]]! >= 0);
    if (cutEdges.length !== 2) continue;
    const [p, q] = cutEdges.map(([i, j]) => pointOn(v[i], v[j])) as [string, string];
    next.get(p)!.push(q);
    next.get(q)!.push(p);
  }
  return nest(sizable(chain(points, next).map(counterClockwise)));
}

function chain(points: ReadonlyMap<string, Vec2>, next: Map<string, string[]>): Polygon[] {
  const loops: Polygon[] = [];
  const take = (from: string, to: string): void => {
    for (const [a, b] of [
      [from, to],
      [to, from],
    ] as const) {
      const list = next.get(a)!;
      list.splice(list.indexOf(b), 1);
    }
  };
  // Open chains first, from their free ends, so that no loop starts in the middle of one.
  const starts = [...next.keys()].sort(
    (a, b) => (next.get(a)!.length % 2 === 1 ? 0 : 1) - (next.get(b)!.length % 2 === 1 ? 0 : 1),
  );
  for (const start of starts) {
    while (next.get(start)!.length > 0) {
      const loop: Vec2[] = [points.get(start)!];
      let at = start;
      for (let to = next.get(at)![0]; to !== undefined; to = next.get(at)![0]) {
        take(at, to);
        if (to === start) break;
        loop.push(points.get(to)!);
        at = to;
      }
      loops.push(loop);
    }
  }
  return loops;
}

/** Outlines inside an odd number of others are holes. */
function nest(loops: readonly Polygon[]): Region {
  const outers: Polygon[] = [];
  const holes: Polygon[] = [];
  for (const loop of loops) {
    const inside = interiorPoint(loop);
    const depth = loops.filter((other) => other !== loop && area(other) > area(loop) && contains(other, inside)).length;
    (depth % 2 === 0 ? outers : holes).push(loop);
  }
  return { outers, holes };
}

const sizable = (polygons: readonly Polygon[]): Polygon[] =>
  polygons.filter((p) => p.length > 2 && area(p) >= LEAST_AREA);
