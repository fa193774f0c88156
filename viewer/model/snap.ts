/** Where a click means to measure: at a corner, else on an edge, within some pixels. */
import { lerp } from '../../src/geometry/vector.js';
import type { Vec2, Vec3 } from '../../src/model.js';

export interface Snapped {
  readonly at: Vec3;
  readonly to: 'corner' | 'edge';
}

/** Pixels. */
const [CORNER, EDGE] = [10, 7];

/**
 * @param lines six numbers for each line, inner mm
 * @param project onto the picture, in pixels; undefined where it can't be seen
 * @param depth how far from the eye
 * @returns undefined: nothing near
 */
export function snap(
  lines: ArrayLike<number>,
  project: (p: Vec3) => Vec2 | undefined,
  depth: (p: Vec3) => number,
  at: Vec2,
): Snapped | undefined {
  const nearer = (best: Near | undefined, p: Vec3, distance: number, within: number): Near | undefined => {
    if (distance > within || (best && distance > best.distance + ALIKE)) return best;
    const near = { at: p, distance, depth: depth(p) };
    return !best || distance < best.distance - ALIKE || near.depth < best.depth ? near : best;
  };
  let [corner, edge]: [Near | undefined, Near | undefined] = [undefined, undefined];
  for (let i = 0; i + 5 < lines.length; i += 6) {
    const [a, b]: [Vec3, Vec3] = [
      [lines[i]!, lines[i + 1]!, lines[i + 2]!],
      [lines[i + 3]!, lines[i + 4]!, lines[i + 5]!],
    ];
    const [p, q] = [project(a), project(b)];
    if (p) corner = nearer(corner, a, Math.hypot(p[0] - at[0], p[1] - at[1]), CORNER);
    if (q) corner = nearer(corner, b, Math.hypot(q[0] - at[0], q[1] - at[1]), CORNER);
    if (p && q) {
      const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
      const long = dx * dx + dy * dy;
      const t = long > 0 ? Math.min(1, Math.max(0, ((at[0] - p[0]) * dx + (at[1] - p[1]) * dy) / long)) : 0;
      edge = nearer(edge, lerp(a, b, t), Math.hypot(p[0] + t * dx - at[0], p[1] + t * dy - at[1]), EDGE);
    }
  }
  if (corner) return { at: corner.at, to: 'corner' };
  return edge && { at: edge.at, to: 'edge' };
}

interface Near {
  readonly at: Vec3;
  readonly distance: number;
  readonly depth: number;
}

/** Pixels: of what is equally near on the picture the foremost was meant. */
const ALIKE = 0.5;
