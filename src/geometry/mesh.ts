/** Bodies as data: welding meshes, moving meshes and prisms. */
import type { Mesh, Polygon, Prism, Vec3 } from '../model.js';
import { WELD } from '../tolerances.js';
import { type Affine, applyDirection, applyPoint } from './frame.js';
import { cross, dot, length, unit } from './vector.js';

/** Moves every vertex. */
export function movedMesh(mesh: Omit<Mesh, 'kind'>, map: Affine): Mesh {
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(applyPoint(map, [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]), i);
  return { kind: 'mesh', positions, triangles: mesh.triangles };
}

/**
 * Joins vertices nearer than WELD and drops triangles that vanish by it. Chaining the edges of a cut needs vertices
 * that are shared, and tessellators give each triangle its own.
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
  const triangles: number[] = [];
  for (let f = 0; f < mesh.triangles.length; f += 3) {
    const [a, b, c] = [map[mesh.triangles[f]!]!, map[mesh.triangles[f + 1]!]!, map[mesh.triangles[f + 2]!]!];
    if (a !== b && b !== c && c !== a) triangles.push(a, b, c);
  }
  return { kind: 'mesh', positions: Float64Array.from(kept), triangles: Uint32Array.from(triangles) };
}

export const isFiniteMesh = (mesh: Omit<Mesh, 'kind'>): boolean => mesh.positions.every(Number.isFinite);

/** The prism carried by a map; undefined where the map shears its profile's plane, so that sizes would change kind. */
export function movedPrism(prism: Prism, map: Affine): Prism | undefined {
  const [x, y] = [applyDirection(map, prism.frame.x), applyDirection(map, prism.frame.y)];
  const [sx, sy] = [length(x), length(y)];
  if (!(sx > 0 && sy > 0) || Math.abs(dot(x, y)) > 1e-9 * sx * sy) return undefined;
  const resize = (p: Polygon): Polygon => p.map(([u, v]) => [u * sx, v * sy] as const);
  const [ux, uy] = [unit(x), unit(y)];
  return {
    kind: 'prism',
    frame: { origin: applyPoint(map, prism.frame.origin), x: ux, y: uy, z: cross(ux, uy) },
    outline: resize(prism.outline),
    voids: prism.voids.map(resize),
    sweep: applyDirection(map, prism.sweep),
  };
}
