/** Where in the barrier's plane the measured gaps and distances lie, so that they can be dimensioned. */
import { pointEdgeDistance } from '../../geometry/polygon.js';
import { dot2, length2, sub2 } from '../../geometry/vector.js';
import type { Polygon, Side, Vec2 } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';

export interface GapLine {
  /** null: the least or widest gap all round. */
  readonly side: Side | null;
  readonly which: 'side' | 'least' | 'widest' | 'even';
  /** As measured; where the duct passes askew this is the least over the thickness, not the length of the line. */
  readonly value: number;
  /** On the duct. */
  readonly from: Vec2;
  /** On the edge of the opening, or of what stands in it. */
  readonly to: Vec2;
  /** Ends of the duct's side; undefined all round. */
  readonly edge: readonly [Vec2, Vec2] | undefined;
}

const DIRECTIONS: { readonly [S in Side]: Vec2 } = { top: [0, 1], bottom: [0, -1], left: [-1, 0], right: [1, 0] };
const SIDES = ['top', 'bottom', 'left', 'right'] as const;

export function gapLines(p: Pick<ReportPenetration, 'gaps' | 'outlines'>): GapLine[] {
  const [duct] = p.outlines.duct;
  if (!duct || duct.length < 3) return [];
  const sides = SIDES.flatMap((side) => {
    const value = p.gaps[side];
    return value === null ? [] : [sideLine(side, value, duct, p.gaps.facing[side] ? [] : p.outlines.opening)];
  });
  return sides.length > 0 ? sides : allRound(p.gaps, p.outlines);
}

function sideLine(side: Side, value: number, duct: Polygon, openings: readonly Polygon[]): GapLine {
  const edge = sideEdge(duct, DIRECTIONS[side]);
  const out = outward(edge, DIRECTIONS[side]);
  const from: Vec2 = [(edge[0][0] + edge[1][0]) / 2, (edge[0][1] + edge[1][1]) / 2];
  // Drawn to the edge that is seen there; where none is (another service), as far as it was measured.
  const seen = value < 0 ? undefined : firstHit(from, out, openings);
  const reach = seen ?? value;
  return { side, which: 'side', value, from, to: [from[0] + out[0] * reach, from[1] + out[1] * reach], edge };
}

/** The edge that faces a direction most: long edges before the short ones of corners. */
function sideEdge(outline: Polygon, direction: Vec2): readonly [Vec2, Vec2] {
  let best: readonly [Vec2, Vec2] = [outline[0]!, outline[1]!];
  let most = -Infinity;
  const centre = middle(outline);
  for (const [i, a] of outline.entries()) {
    const b = outline[(i + 1) % outline.length]!;
    const along = sub2(b, a);
    const across = Math.abs(along[0] * direction[1] - along[1] * direction[0]);
    const beyond = dot2([(a[0] + b[0]) / 2 - centre[0], (a[1] + b[1]) / 2 - centre[1]], direction);
    if (beyond > 0 && across > most) [best, most] = [[a, b], across];
  }
  return best;
}

/** Square to an edge, to the side of the direction. */
function outward([a, b]: readonly [Vec2, Vec2], direction: Vec2): Vec2 {
  const along = sub2(b, a);
  const size = length2(along);
  if (size === 0) return direction;
  const square: Vec2 = [along[1] / size, -along[0] / size];
  return dot2(square, direction) < 0 ? [-square[0], -square[1]] : square;
}

const middle = (outline: Polygon): Vec2 => [
  outline.reduce((sum, p) => sum + p[0], 0) / outline.length,
  outline.reduce((sum, p) => sum + p[1], 0) / outline.length,
];

/** Distance along a ray to the first edge it meets. */
function firstHit(from: Vec2, along: Vec2, outlines: readonly Polygon[]): number | undefined {
  let first: number | undefined;
  for (const outline of outlines)
    for (const [i, a] of outline.entries()) {
      const edge = sub2(outline[(i + 1) % outline.length]!, a);
      const across = along[0] * edge[1] - along[1] * edge[0];
      if (Math.abs(across) < 1e-9) continue;
      const toA = sub2(a, from);
      const t = (toA[0] * edge[1] - toA[1] * edge[0]) / across;
      const u = (toA[0] * along[1] - toA[1] * along[0]) / across;
      if (t >= 0 && u >= -1e-9 && u <= 1 + 1e-9 && (first === undefined || t < first)) first = t;
    }
  return first;
}

/** Where the gap all round is least and widest; one line where it is the same all round. */
function allRound(gaps: ReportPenetration['gaps'], outlines: ReportPenetration['outlines']): GapLine[] {
  const [opening] = outlines.opening;
  if (!opening || gaps.min === null || gaps.max === null) return [];
  const points = outlines.duct.flatMap((outline) => [...outline]);
  const distances = points.map((p) => pointEdgeDistance(p, opening));
  const line = (which: GapLine['which'], value: number, index: number): GapLine => ({
    ...{ side: null, which, value, from: points[index]!, to: nearestOn(opening, points[index]!), edge: undefined },
  });
  const indexOf = (best: (a: number, b: number) => boolean) =>
    distances.reduce((at, d, i) => (best(d, distances[at]!) ? i : at), 0);
  const even = gaps.min === gaps.max;
  const least = line(even ? 'even' : 'least', gaps.min, even ? rightmost(points) : indexOf((a, b) => a < b));
  return even
    ? [least]
    : [
        least,
        line(
          'widest',
          gaps.max,
          indexOf((a, b) => a > b),
        ),
      ];
}

const rightmost = (points: readonly Vec2[]): number => points.reduce((at, p, i) => (p[0] > points[at]![0] ? i : at), 0);

/** The point of an outline that is nearest to another point. */
function nearestOn(outline: Polygon, p: Vec2): Vec2 {
  let best = outline[0]!;
  let least = Infinity;
  for (const [i, a] of outline.entries()) {
    const edge = sub2(outline[(i + 1) % outline.length]!, a);
    const square = dot2(edge, edge);
    const t = square === 0 ? 0 : Math.max(0, Math.min(1, dot2(sub2(p, a), edge) / square));
    const q: Vec2 = [a[0] + edge[0] * t, a[1] + edge[1] * t];
    const distance = length2(sub2(p, q));
    if (distance < least) [best, least] = [q, distance];
  }
  return best;
}

/**
 * The two points where outlines come nearest to each other; where sides run along each other, in the middle of that.
 * Undefined where one of the two has no outline.
 */
export function nearestPair(a: readonly Polygon[], b: readonly Polygon[]): readonly [Vec2, Vec2] | undefined {
  const pairs: (readonly [Vec2, Vec2])[] = [];
  for (const outline of a)
    for (const other of b) {
      for (const p of outline) pairs.push([p, nearestOn(other, p)]);
      for (const q of other) pairs.push([nearestOn(outline, q), q]);
    }
  const distance = ([p, q]: readonly [Vec2, Vec2]): number => length2(sub2(p, q));
  const least = Math.min(...pairs.map(distance));
  const [first, ...others] = pairs.filter((pair) => distance(pair) <= least + SAME);
  if (!first) return undefined;
  const between = others.map((pair): readonly [Vec2, Vec2] => [half(first[0], pair[0]), half(first[1], pair[1])]);
  const reach = (pair: readonly [Vec2, Vec2]): number => length2(sub2(pair[0], first[0]));
  return [first, ...between]
    .filter((pair) => distance(pair) <= least + SAME)
    .reduce((best, pair) => (reach(pair) > reach(best) ? pair : best), first);
}

/** Distances that differ by less are the same, millimetres: half of what is reported. */
const SAME = 0.05;

const half = (p: Vec2, q: Vec2): Vec2 => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
