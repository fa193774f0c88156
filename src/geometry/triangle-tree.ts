/** The triangles of a body in a tree of boxes, so that only those near a place need be looked at. */
import { onceForEach } from '../collect.js';
import type { Body, Mesh, Vec3 } from '../model.js';
import { type Box, boxDistance, boxesMeet } from './box.js';
import { prismMesh } from './loft.js';
import type { Triangle } from './triangle-distance.js';

/** A leaf has triangles, any other node has two parts. */
export interface TreeNode {
  readonly box: Box;
  readonly triangles: readonly number[];
  readonly parts: readonly [TreeNode, TreeNode] | null;
}

export interface TriangleTree {
  readonly mesh: Mesh;
  readonly root: TreeNode;
}

const LEAF = 8;

/** Made once for each body. Every triangle of a prism lies on its outline, which has arcs as ARC_SAGITTA has them. */
export const treeOf = onceForEach((body: Body): TriangleTree => {
  const mesh = body.kind === 'mesh' ? body : prismMesh(body);
  const boxes = Array.from({ length: mesh.triangles.length / 3 }, (_, t) => boxOfTriangle(mesh, t));
  return { mesh, root: nodeOf(boxes, [...boxes.keys()]) };
});

export function triangleAt({ positions, triangles }: Mesh, t: number): Triangle {
  const corner = (k: number): Vec3 => {
    const i = 3 * triangles[3 * t + k]!;
    return [positions[i]!, positions[i + 1]!, positions[i + 2]!];
  };
  return [corner(0), corner(1), corner(2)];
}

/** Those whose boxes meet the box. */
export function trianglesIn({ mesh, root }: TriangleTree, box: Box): Triangle[] {
  const found: Triangle[] = [];
  const visit = (node: TreeNode): void => {
    if (!boxesMeet(node.box, box)) return;
    if (node.parts) node.parts.forEach(visit);
    else for (const t of node.triangles) if (boxesMeet(boxOfTriangle(mesh, t), box)) found.push(triangleAt(mesh, t));
  };
  visit(root);
  return found;
}

/** Calls `meet` with pairs of leaves, the nearer parts first, as long as their boxes are nearer than `limit` says. */
export function eachLeafPair(
  a: TreeNode,
  b: TreeNode,
  limit: () => number,
  meet: (a: TreeNode, b: TreeNode) => void,
): void {
  if (boxDistance(a.box, b.box) >= limit()) return;
  if (!a.parts && !b.parts) {
    meet(a, b);
    return;
  }
  const pairs =
    a.parts && (!b.parts || sizeOf(a.box) >= sizeOf(b.box))
      ? a.parts.map((part) => [part, b] as const)
      : b.parts!.map((part) => [a, part] as const);
  const ordered = pairs.map((pair) => ({ pair, apart: boxDistance(pair[0].box, pair[1].box) }));
  for (const { pair } of ordered.sort((p, q) => p.apart - q.apart)) eachLeafPair(...pair, limit, meet);
}

const sizeOf = ({ min, max }: Box): number => Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);

function boxOfTriangle(mesh: Mesh, t: number): Box {
  const [a, b, c] = triangleAt(mesh, t);
  return {
    min: [Math.min(a[0], b[0], c[0]), Math.min(a[1], b[1], c[1]), Math.min(a[2], b[2], c[2])],
    max: [Math.max(a[0], b[0], c[0]), Math.max(a[1], b[1], c[1]), Math.max(a[2], b[2], c[2])],
  };
}

function nodeOf(boxes: readonly Box[], triangles: readonly number[]): TreeNode {
  const box = around(boxes, triangles);
  if (triangles.length <= LEAF) return { box, triangles, parts: null };
  const [dx, dy, dz] = [0, 1, 2].map((i) => box.max[i]! - box.min[i]!) as [number, number, number];
  const axis = dx >= dy && dx >= dz ? 0 : dy >= dz ? 1 : 2;
  const middle = (t: number): number => boxes[t]!.min[axis] + boxes[t]!.max[axis];
  const sorted = [...triangles].sort((a, b) => middle(a) - middle(b));
  const half = sorted.length >> 1;
  return { box, triangles: [], parts: [nodeOf(boxes, sorted.slice(0, half)), nodeOf(boxes, sorted.slice(half))] };
}

function around(boxes: readonly Box[], triangles: readonly number[]): Box {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const t of triangles)
    for (const i of [0, 1, 2] as const) {
      min[i] = Math.min(min[i]!, boxes[t]!.min[i]);
      max[i] = Math.max(max[i]!, boxes[t]!.max[i]);
    }
  return { min: min as unknown as Vec3, max: max as unknown as Vec3 };
}
