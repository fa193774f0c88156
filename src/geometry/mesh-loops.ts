/** The lines in which a plane cuts a mesh, chained to closed outlines. Meshes of real files have gaps and T-junctions. */
import type { Frame, Mesh, Polygon, Vec2, Vec3 } from '../model.js';
import { WELD } from '../tolerances.js';
import { toPlane } from './frame.js';
import { length2, sub2 } from './vector.js';

export interface MeshLoops {
  readonly loops: readonly Polygon[];
  /** Length of the straight lines that bridge gaps wider than a T-junction's rounding noise, mm. */
  readonly bridged: number;
}

/** Ends nearer than this are one point: T-junctions, and vertices that welding left apart at a rounding step. */
const SAME_POINT = 10 * WELD;

/** @param joinOpenAt chains that end at the least or the greatest x, this far out, go on along the edge there */
export function meshLoops(mesh: Mesh, plane: Frame, joinOpenAt?: number): MeshLoops {
  const { positions, triangles } = mesh;
  const height = new Float64Array(positions.length / 3);
  for (let i = 0; i < height.length; i++)
    height[i] =
      (positions[3 * i]! - plane.origin[0]) * plane.z[0] +
      (positions[3 * i + 1]! - plane.origin[1]) * plane.z[1] +
      (positions[3 * i + 2]! - plane.origin[2]) * plane.z[2];

  // A point of the cut lies on a mesh edge; the edge (low vertex, high vertex) names it exactly.
  const points = new Map<number, Vec2>();
  const next = new Map<number, number[]>();
  const pointOn = (i: number, j: number): number => {
    const [a, b] = i < j ? [i, j] : [j, i];
    const key = a * height.length + b;
    if (!points.has(key)) {
      const t = height[a]! / (height[a]! - height[b]!);
      const at = (k: 0 | 1 | 2) => positions[3 * a + k]! + (positions[3 * b + k]! - positions[3 * a + k]!) * t;
      const p: Vec3 = [at(0), at(1), at(2)];
      points.set(key, toPlane(plane, p));
      next.set(key, []);
    }
    return key;
  };
  for (let f = 0; f < triangles.length; f += 3) {
    const v = [triangles[f]!, triangles[f + 1]!, triangles[f + 2]!] as const;
    // On the plane counts as above: no vertex is ever exactly on it, so every cut triangle has two cut edges.
    const isAbove = height[v[0]]! >= 0;
    if (height[v[1]]! >= 0 === isAbove && height[v[2]]! >= 0 === isAbove) continue;
    const cutEdges = (
      [
        [0, 1],
        [1, 2],
        [2, 0],
      ] as const
    ).filter(([i, j]) => height[v[i]]! >= 0 !== height[v[j]]! >= 0);
    const [p, q] = cutEdges.map(([i, j]) => pointOn(v[i], v[j])) as [number, number];
    next.get(p)!.push(q);
    next.get(q)!.push(p);
  }
  if (joinOpenAt !== undefined) for (const side of [-1, 1]) joinEnds(points, next, side * joinOpenAt);
  const { loops, chains } = chain(points, next);
  const joined = join(chains);
  return { loops: [...loops, ...joined.loops], bridged: joined.bridged };
}

/** The loose ends at one edge, from below upwards: solid lies between the first and the second, and so on. */
function joinEnds(points: ReadonlyMap<number, Vec2>, next: Map<number, number[]>, at: number): void {
  const loose = [...next.keys()]
    .filter((key) => next.get(key)!.length % 2 === 1 && Math.abs(points.get(key)![0] - at) < 1e-6 * Math.abs(at))
    .sort((a, b) => points.get(a)![1] - points.get(b)![1]);
  for (let i = 0; i + 1 < loose.length; i += 2) {
    next.get(loose[i]!)!.push(loose[i + 1]!);
    next.get(loose[i + 1]!)!.push(loose[i]!);
  }
}

function chain(points: ReadonlyMap<number, Vec2>, next: Map<number, number[]>): { loops: Vec2[][]; chains: Vec2[][] } {
  const loops: Vec2[][] = [];
  const chains: Vec2[][] = [];
  const take = (from: number, to: number): void => {
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
      const line: Vec2[] = [points.get(start)!];
      let at = start;
      let isLoop = false;
      for (let to = next.get(at)![0]; to !== undefined; to = next.get(at)![0]) {
        take(at, to);
        isLoop = to === start;
        if (isLoop) break;
        line.push(points.get(to)!);
        at = to;
      }
      (isLoop ? loops : chains).push(line);
    }
  }
  return { loops, chains };
}

/** More loose lines than this are no outline with gaps, and joining them would take for ever. */
const MOST_CHAINS = 200;

/** Each end is joined with the nearest free one, nearest pairs first; what is far apart leaves the cut open. */
function join(chains: readonly Vec2[][]): { loops: Vec2[][]; bridged: number } {
  if (chains.length > MOST_CHAINS) return { loops: [...chains], bridged: Number.POSITIVE_INFINITY };
  const open = chains.map((line) => [...line]);
  const loops: Vec2[][] = [];
  let bridged = 0;
  while (open.length > 0) {
    let best = { i: 0, j: 0, apart: Number.POSITIVE_INFINITY, flipFirst: false, flipSecond: false };
    for (let i = 0; i < open.length; i++)
      for (let j = i; j < open.length; j++) {
        const [a, b] = [open[i]!, open[j]!];
        const ends: [Vec2, Vec2, boolean, boolean][] =
          i === j
            ? [[a[a.length - 1]!, a[0]!, false, false]]
            : [
                [a[a.length - 1]!, b[0]!, false, false],
                [a[a.length - 1]!, b[b.length - 1]!, false, true],
                [a[0]!, b[0]!, true, false],
                [a[0]!, b[b.length - 1]!, true, true],
              ];
        for (const [p, q, flipFirst, flipSecond] of ends) {
          const apart = length2(sub2(p, q));
          if (apart < best.apart) best = { i, j, apart, flipFirst, flipSecond };
        }
      }
    if (best.apart > SAME_POINT) bridged += best.apart;
    const first = open[best.i]!;
    if (best.i === best.j) {
      loops.push(first);
      open.splice(best.i, 1);
      continue;
    }
    const second = open[best.j]!;
    open.splice(best.j, 1);
    open[best.i] = [...(best.flipFirst ? first.reverse() : first), ...(best.flipSecond ? second.reverse() : second)];
  }
  return { loops, bridged };
}
