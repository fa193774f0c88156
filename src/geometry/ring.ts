/**
 * Rings round an outline: how wide one can be before something stands in it. Corners are sharp, as those of boards and
 * angles are, so the width at a point is the furthest that it lies out of any of the outline's edges; of a circle its
 * distance from the circle. Both grow evenly outwards, so over a straight line the least is exact.
 */
import type { Clear } from '../clear-width.js';
import type { Polygon, Vec2, Vec3 } from '../model.js';
import { centroid, circleOf, contains, convexHull } from './polygon.js';
import { dot2, length2, sub2 } from './vector.js';

export interface Reached {
  /** Of the widest ring that is still clear, mm; 0: it lies on the outline or within. */
  readonly width: number;
  /** Outwards, where the ring meets it. */
  readonly towards: Vec2;
}

export interface Ring {
  readonly centre: Vec2;
  readonly leastOn: (a: Vec2, b: Vec2) => Reached;
}

/** Round the convex hull of all the outlines. */
export function ringRound(outlines: readonly Polygon[]): Ring {
  const circle = outlines.length === 1 ? circleOf(outlines[0]!) : null;
  if (circle) return { centre: circle.centre, leastOn: (a, b) => leastRound(circle, a, b) };
  const hull = convexHull(outlines.flat());
  const edges = hull.map((p, i): Edge => {
    const along = sub2(hull[(i + 1) % hull.length]!, p);
    const size = length2(along);
    const normal: Vec2 = [along[1] / size, -along[0] / size];
    return { normal, offset: dot2(normal, p) };
  });
  return { centre: centroid(hull), leastOn: (a, b) => leastOverEdges(edges, a, b) };
}

interface Edge {
  readonly normal: Vec2;
  readonly offset: number;
}

function leastRound({ centre, radius }: { centre: Vec2; radius: number }, a: Vec2, b: Vec2): Reached {
  const along = sub2(b, a);
  const size = dot2(along, along);
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, dot2(sub2(centre, a), along) / size));
  const from = sub2([a[0] + along[0] * t, a[1] + along[1] * t], centre);
  const distance = length2(from);
  return { width: distance - radius, towards: distance === 0 ? [0, 1] : [from[0] / distance, from[1] / distance] };
}

/** The largest of many straight lines over 0…1 is least where a falling one meets a rising one: close in on that. */
function leastOverEdges(edges: readonly Edge[], a: Vec2, b: Vec2): Reached {
  const along = sub2(b, a);
  const at = (t: number): Line => {
    const p: Vec2 = [a[0] + along[0] * t, a[1] + along[1] * t];
    let edge = edges[0]!;
    for (const one of edges) if (dot2(one.normal, p) - one.offset > dot2(edge.normal, p) - edge.offset) edge = one;
    return { t, width: dot2(edge.normal, p) - edge.offset, slope: dot2(edge.normal, along), edge };
  };
  const found = ({ width, edge }: Line): Reached => ({ width, towards: edge.normal });
  let [falling, rising] = [at(0), at(1)];
  if (falling.slope >= 0) return found(falling);
  if (rising.slope <= 0) return found(rising);
  for (;;) {
    const met = meeting(falling, rising);
    const there = at(met.t);
    if (there.width - met.width < 1e-9 || there.slope === 0) return found(there);
    if (there.slope < 0) falling = there;
    else rising = there;
  }
}

interface Line {
  readonly t: number;
  readonly width: number;
  readonly slope: number;
  readonly edge: Edge;
}

function meeting(p: Line, q: Line): { readonly t: number; readonly width: number } {
  const t = (q.width - q.slope * q.t - p.width + p.slope * p.t) / (p.slope - q.slope);
  return { t, width: p.width + p.slope * (t - p.t) };
}

/** Flat pieces of surfaces before a face: x and y in its plane, z the depth before it. */
export type Facet = readonly Vec3[];

/** With how near it comes as a whole: those that come nearest are looked at first, and most of the others never. */
export interface RankedFacet extends Reached {
  readonly facet: Facet;
}

export const rankedFacets = (ring: Ring, facets: readonly Facet[]): RankedFacet[] =>
  facets.map((facet) => ({ facet, ...leastOf(ring, facet) })).sort((a, b) => a.width - b.width);

/** The least of all that stands up to a depth; infinite where nothing does. */
function widthUpTo(ring: Ring, ranked: readonly RankedFacet[], depth: number): number {
  let least = Infinity;
  for (const { facet, width } of ranked) {
    if (width >= least) break;
    const part = clipDepth(facet, depth, 1);
    if (part.length > 0) least = Math.min(least, part === facet ? width : leastOf(ring, part).width);
  }
  return Math.max(0, least);
}

function leastOf(ring: Ring, facet: Facet): Reached {
  const flat = facet.map(([x, y]): Vec2 => [x, y]);
  if (flat.length > 2 && contains(flat, ring.centre)) return { width: -Infinity, towards: [0, 1] };
  let least: Reached = { width: Infinity, towards: [0, 1] };
  for (let i = 0, j = flat.length - 1; i < flat.length; j = i++) {
    const on = ring.leastOn(flat[j]!, flat[i]!);
    if (on.width < least.width) least = on;
  }
  return least;
}

/** What of a facet lies up to a depth (sense 1), or beyond it (-1). */
export function clipDepth(facet: Facet, depth: number, sense: 1 | -1): Facet {
  const over = facet.map((p) => (p[2] - depth) * sense);
  if (over.every((height) => height <= 0)) return facet;
  const kept: Vec3[] = [];
  for (let i = 0, j = facet.length - 1; i < facet.length; j = i++) {
    const [p, q, hp, hq] = [facet[j]!, facet[i]!, over[j]!, over[i]!];
    if (hp <= 0 !== hq <= 0) {
      const k = hp / (hp - hq);
      kept.push([p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k, depth]);
    }
    if (hq <= 0) kept.push(q);
  }
  return kept;
}

/**
 * How the clear ring shrinks with the depth that it is to have, from where the first thing stands within `reach`; the
 * line keeps within 0.2 mm of width or 0.1 mm of depth of what is looked at. Empty where nothing stands so near.
 *
 * @param nearest least depth that matters
 */
export function clearance(
  ring: Ring,
  ranked: readonly RankedFacet[],
  { nearest, furthest, reach }: { readonly nearest: number; readonly furthest: number; readonly reach: number },
): Clear {
  const width = (depth: number): number => widthUpTo(ring, ranked, depth);
  const last = width(furthest);
  if (last > reach) return [];
  let first = nearest;
  if (width(nearest) > reach) {
    let [clear, taken] = [nearest, furthest];
    while (taken - clear > DEPTH_STEP / 2) {
      const middle = (clear + taken) / 2;
      if (width(middle) > reach) clear = middle;
      else taken = middle;
    }
    first = taken;
  }
  const points: [number, number][] = [[first, width(first)]];
  const refine = (from: number, to: number, end: number): void => {
    const start = points.at(-1)![1];
    const inner = [1, 2, 3].map((i): [number, number] => {
      const depth = from + ((to - from) * i) / 4;
      return [depth, start === end ? end : width(depth)];
    });
    const isStraight = inner.every(([, at], i) => Math.abs(start + ((end - start) * (i + 1)) / 4 - at) <= WIDTH_STEP);
    if (isStraight || to - from <= DEPTH_STEP) {
      points.push([to, end]);
      return;
    }
    refine(from, inner[1]![0], inner[1]![1]);
    refine(inner[1]![0], to, end);
  };
  refine(first, furthest, last);
  return points;
}

const WIDTH_STEP = 0.2;
const DEPTH_STEP = 0.1;

/** Points in the middle of level stretches say nothing, nor does the end of one that nothing follows. */
export function withoutLevelPoints(points: Clear): Clear {
  const isSame = (i: number, j: number) => points[i]?.[1] === points[j]?.[1];
  return points.filter((_, i) => i === 0 || !isSame(i, i - 1) || (i + 1 < points.length && !isSame(i, i + 1)));
}
