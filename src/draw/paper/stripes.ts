/** Hatching as lines on paper: patterns are printed as pictures by browsers, which makes large files. */
import { dot2 } from '../../geometry/vector.js';
import type { Polygon, Vec2 } from '../../model.js';
import { line } from './svg.js';

/** Straight lines through a convex outline, all square to a direction. */
export function stripes(outline: Polygon, square: Vec2, spacing: number): string[] {
  const heights = outline.map((q) => dot2(q, square));
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const lines: string[] = [];
  for (let k = Math.ceil(low / spacing); k * spacing < high; k++) {
    const [a, b] = crossings(outline, square, k * spacing);
    if (a && b) lines.push(line(a, b));
  }
  return lines;
}

/** Where a line enters and leaves a convex outline. */
export function crossings(outline: Polygon, square: Vec2, height: number): Vec2[] {
  return outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    const [from, to] = [dot2(a, square) - height, dot2(b, square) - height];
    if (from < 0 === to < 0) return [];
    const share = from / (from - to);
    return [[a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share] as const];
  });
}
