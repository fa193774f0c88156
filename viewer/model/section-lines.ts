/** Where triangles are cut by a plane: the outlines that a section drawing shows thick. */
import { dot, lerp } from '../../src/geometry/vector.js';
import type { Vec3 } from '../../src/model.js';
import type { Elements } from './elements.js';
import type { Cut } from './standpoint.js';

interface Shape {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array | Uint16Array;
}

/** Six numbers for each line; what lies in the plane gives none. */
export function sectionLines({ positions, triangles }: Shape, { at, outwards }: Cut, into: number[] = []): number[] {
  const level = dot(at, outwards);
  const corner = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  for (let t = 0; t < triangles.length; t += 3) {
    const ends: Vec3[] = [];
    for (let k = 0; k < 3; k++) {
      const [p, q] = [corner(triangles[t + k]!), corner(triangles[t + ((k + 1) % 3)]!)];
      const [a, b] = [dot(p, outwards) - level, dot(q, outwards) - level];
      if (a > 0 !== b > 0) ends.push(lerp(p, q, a / (a - b)));
    }
    if (ends.length === 2) into.push(...ends[0]!, ...ends[1]!);
  }
  return into;
}

/** Of all these elements whose boxes the plane cuts. */
export function sectionOf(elements: Elements, ids: readonly number[], cut: Cut): Float32Array {
  const lines: number[] = [];
  for (const id of ids) if (crosses(elements, id, cut)) sectionLines(elements.nodes[id]!, cut, lines);
  return Float32Array.from(lines);
}

function crosses({ boxes }: Elements, id: number, { at, outwards }: Cut): boolean {
  let [low, high] = [0, 0];
  for (let axis = 0; axis < 3; axis++) {
    const [a, b] = [boxes[6 * id + axis]! * outwards[axis]!, boxes[6 * id + axis + 3]! * outwards[axis]!];
    low += Math.min(a, b);
    high += Math.max(a, b);
  }
  const level = dot(at, outwards);
  return low < level && level < high;
}

/** Lines, or their parts, that are not cut away. @param lines six numbers for each */
export function keptLines(lines: readonly number[], cut: Cut | null): readonly number[] {
  if (!cut) return lines;
  const { at, outwards } = cut;
  const kept: number[] = [];
  const depth = (i: number): number =>
    (lines[i]! - at[0]) * outwards[0] + (lines[i + 1]! - at[1]) * outwards[1] + (lines[i + 2]! - at[2]) * outwards[2];
  for (let i = 0; i < lines.length; i += 6) {
    const [a, b] = [depth(i), depth(i + 3)];
    if (a > SLACK && b > SLACK) continue;
    const ends = [lines.slice(i, i + 3), lines.slice(i + 3, i + 6)] as const;
    const cutAt = ends[0].map((value, axis) => value + ((ends[1][axis]! - value) * a) / (a - b));
    kept.push(...(a > SLACK ? cutAt : ends[0]), ...(b > SLACK ? cutAt : ends[1]));
  }
  return kept;
}
/** Lines in the cut itself are kept, mm. */
const SLACK = 0.01;
