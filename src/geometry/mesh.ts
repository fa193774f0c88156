/** Bodies as data: welding meshes, moving meshes and prisms. */
import { fileUnder, onceForEach } from '../collect.js';
import type { Body, Mesh, Polygon, Prism, Vec3 } from '../model.js';
import { WELD } from '../tolerances.js';
import { type Affine, applyDirection, applyPoint } from './frame.js';
import { cross, dot, length, sub, unit } from './vector.js';

/** Moves every vertex. */
export function movedMesh(mesh: Omit<Mesh, 'kind'>, map: Affine): Mesh {
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(applyPoint(map, [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]), i);
  return { kind: 'mesh', positions, triangles: mesh.triangles };
}

/**
 * Joins vertices nearer than WELD, drops triangles that vanish by it and what is drawn twice. Chaining the edges of a cut
 * needs vertices that are shared, and tessellators give each triangle its own.
 */
export function weldedMesh(mesh: Mesh): Mesh {
  const first = new Map<string, number>();
  const map = new Uint32Array(mesh.positions.length / 3);
  const kept: number[] = [];
  for (let i = 0; i < map.length; i++) {
    const p: Vec3 = [mesh.positions[3 * i]!, mesh.positions[3 * i + 1]!, mesh.positions[3 * i + 2]!];
    const key = p.map((v) => Math.round(v / WELD)).join();
    let index = first.get(key);
    if (index === undefined) {
      index = kept.length / 3;
      first.set(key, index);
      kept.push(...p);
    }
    map[i] = index;
  }
  const triangles: Triangle[] = [];
  for (let f = 0; f < mesh.triangles.length; f += 3) {
    const [a, b, c] = [map[mesh.triangles[f]!]!, map[mesh.triangles[f + 1]!]!, map[mesh.triangles[f + 2]!]!];
    if (a !== b && b !== c && c !== a) triangles.push([a, b, c]);
  }
  return {
    kind: 'mesh',
    positions: Float64Array.from(kept),
    triangles: Uint32Array.from(withoutDoubles(triangles, kept.length / 3).flat()),
  };
}

type Triangle = readonly [number, number, number];

/**
 * A triangle that is there twice is one face drawn from both sides, or the wall between two solids that touch, which is
 * no outside at all. Which, shows in the edges: the right choice leaves fewer of them open.
 */
function withoutDoubles(triangles: readonly Triangle[], vertices: number): readonly Triangle[] {
  const counts = new Map<number, Map<number, number>>();
  const countOf = (t: Triangle, add: number): number => {
    const [a, b, c] = [...t].sort((p, q) => p - q) as [number, number, number];
    const key = a * vertices + b;
    const third = counts.get(key) ?? new Map<number, number>();
    const count = (third.get(c) ?? 0) + add;
    if (add > 0) {
      third.set(c, count);
      counts.set(key, third);
    }
    return count;
  };
  const once = triangles.filter((t) => countOf(t, 1) === 1);
  if (once.length === triangles.length) return triangles;
  const none = once.filter((t) => countOf(t, 0) % 2 === 1);
  return none.length > 0 && openEdges(none) < openEdges(once) ? none : once;
}

/** Edges that an odd number of triangles share. */
function openEdges(triangles: readonly Triangle[]): number {
  const vertices = triangles.reduce((most, t) => Math.max(most, ...t), 0) + 1;
  const open = new Set<number>();
  for (const [a, b, c] of triangles)
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const key = p < q ? p * vertices + q : q * vertices + p;
      if (!open.delete(key)) open.add(key);
    }
  return open.size;
}

/** The closed solids that a mesh is made of, each by itself; a mesh that is not closed everywhere stays one. */
export function solidsOf(body: Body): readonly Body[] {
  if (body.kind === 'prism') return [body];
  const triangle = (t: number): Triangle => [
    body.triangles[3 * t]!,
    body.triangles[3 * t + 1]!,
    body.triangles[3 * t + 2]!,
  ];
  const all = Array.from({ length: body.triangles.length / 3 }, (_, t) => t);
  const solids = joinedTriangles(body, all).map((group) => group.map(triangle));
  if (solids.length < 2 || solids.some((solid) => openEdges(solid) > 0)) return [body];
  return solids.map((solid) => compacted({ ...body, triangles: Uint32Array.from(solid.flat()) }));
}

/** Numbers of triangles in groups that share vertices, directly or through others. */
export function joinedTriangles({ positions, triangles }: Mesh, own: readonly number[]): number[][] {
  const parent = Uint32Array.from({ length: positions.length / 3 }, (_, i) => i);
  const rootOf = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  for (const t of own) {
    const [a, b, c] = [triangles[3 * t]!, triangles[3 * t + 1]!, triangles[3 * t + 2]!];
    parent[rootOf(b)] = rootOf(a);
    parent[rootOf(c)] = rootOf(a);
  }
  const groups = new Map<number, number[]>();
  for (const t of own) fileUnder(groups, rootOf(triangles[3 * t]!), t);
  return [...groups.values()];
}

/** Without the vertices that no triangle uses, which would still count for its extent. */
function compacted({ positions, triangles }: Mesh): Mesh {
  const index = new Map<number, number>();
  const kept: number[] = [];
  const renumbered = triangles.map((i) => {
    if (!index.has(i)) {
      index.set(i, kept.length / 3);
      kept.push(positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!);
    }
    return index.get(i)!;
  });
  return { kind: 'mesh', positions: Float64Array.from(kept), triangles: renumbered };
}

/** Every edge is shared by two triangles, or by four where solids touch. */
export function isClosed({ triangles }: Mesh): boolean {
  const list: Triangle[] = [];
  for (let f = 0; f < triangles.length; f += 3) list.push([triangles[f]!, triangles[f + 1]!, triangles[f + 2]!]);
  return openEdges(list) === 0;
}

/** Where a line (unit direction) passes through the triangles, as distances from its start; in no order. */
export function lineHits({ positions, triangles }: Mesh, from: Vec3, direction: Vec3): number[] {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const hits: number[] = [];
  for (let f = 0; f < triangles.length; f += 3) {
    const a = at(triangles[f]!);
    const [u, v] = [sub(at(triangles[f + 1]!), a), sub(at(triangles[f + 2]!), a)];
    const n = cross(u, v);
    const slope = dot(n, direction);
    if (Math.abs(slope) < 1e-12 * length(n)) continue;
    const d = sub(from, a);
    const s = -dot(n, d) / slope;
    const p: Vec3 = [d[0] + direction[0] * s, d[1] + direction[1] * s, d[2] + direction[2] * s];
    const nn = dot(n, n);
    const [b, c] = [dot(cross(p, v), n) / nn, dot(cross(u, p), n) / nn];
    if (b >= -1e-9 && c >= -1e-9 && b + c <= 1 + 1e-9) hits.push(s);
  }
  return hits;
}

/** All triangles in one plane, or none at all: no section of it encloses anything. */
export function isFlat({ positions, triangles }: Mesh): boolean {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  let [normal, size]: [Vec3, number] = [[0, 0, 0], 0];
  for (let f = 0; f < triangles.length; f += 3) {
    const n = cross(sub(at(triangles[f + 1]!), at(triangles[f]!)), sub(at(triangles[f + 2]!), at(triangles[f]!)));
    if (length(n) > size) [normal, size] = [n, length(n)];
  }
  if (size === 0) return true;
  const base = dot(at(triangles[0]!), unit(normal));
  return triangles.every((i) => Math.abs(dot(at(i), unit(normal)) - base) < WELD);
}

export const isFiniteMesh = (mesh: Omit<Mesh, 'kind'>): boolean => mesh.positions.every(Number.isFinite);

/** The prism carried by a map; undefined where the map shears its profile's plane, so that sizes would change kind. */
export function movedPrism(prism: Prism, map: Affine): Prism | undefined {
  const [x, y] = [applyDirection(map, prism.frame.x), applyDirection(map, prism.frame.y)];
  const [sx, sy] = [length(x), length(y)];
  if (!(sx > 0 && sy > 0) || Math.abs(dot(x, y)) > 1e-9 * sx * sy) return undefined;
  const [ux, uy] = [unit(x), unit(y)];
  return {
    kind: 'prism',
    frame: { origin: applyPoint(map, prism.frame.origin), x: ux, y: uy, z: cross(ux, uy) },
    outline: resized(prism.outline, sx, sy),
    voids: prism.voids.map((p) => resized(p, sx, sy)),
    sweep: applyDirection(map, prism.sweep),
  };
}

const alikeOf = onceForEach((_: Polygon) => new Map<string, Polygon>());
/** Outlines with fewer corners are sooner made than found. */
const FEW_CORNERS = 16;

/** Turning changes no size but by rounding: what is alike stays one outline, since a circle has hundreds of corners. */
function resized(p: Polygon, sx: number, sy: number): Polygon {
  if (sx === 1 && sy === 1) return p;
  const make = () => p.map(([u, v]) => [u * sx, v * sy] as const);
  if (p.length < FEW_CORNERS) return make();
  const key = `${sx} ${sy}`;
  const sizes = alikeOf(p);
  const known = sizes.get(key) ?? make();
  sizes.set(key, known);
  return known;
}

/** @param map that turns and scales evenly, so that a profile stays what it is */
export function movedBody(body: Body, map: Affine): Body {
  if (body.kind === 'mesh') return movedMesh(body, map);
  const moved = movedPrism(body, map);
  if (!moved) throw new Error('a map that shears moves no profile');
  return moved;
}

/** mm³, by the divergence theorem: of a closed mesh whose faces look outwards; negative where they look inwards. */
export function volumeOf({ positions, triangles }: Omit<Mesh, 'kind'>): number {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const from = at(0);
  const corner = (i: number): Vec3 => sub(at(triangles[i]!), from);
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) sum += dot(corner(t), cross(corner(t + 1), corner(t + 2)));
  return sum / 6;
}
