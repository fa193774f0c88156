/**
 * Gaps between a duct and the edge of its opening, or another service in it, on cutting planes parallel to the faces:
 * see the contract, "Gaps".
 */
import { onceForEach } from '../collect.js';
import { edgeDistance } from '../geometry/edge-distance.js';
import { boxCentre, contains, densify, overlaps, pointEdgeDistance } from '../geometry/polygon.js';
import { dot2 } from '../geometry/vector.js';
import type { Polygon, Side, Vec2 } from '../model.js';

/** What one cutting plane shows, in the elevation's coordinates. */
export interface GapPlane<Service> {
  readonly duct: readonly Polygon[];
  readonly opening: Polygon;
  readonly services: readonly { readonly service: Service; readonly outlines: readonly Polygon[] }[];
}

export interface MeasuredGaps<Service> {
  readonly sides: { readonly [S in Side]: number } | undefined;
  readonly min: number;
  readonly max: number;
  readonly facing: { readonly [S in Side]?: Service };
}

/** Outward directions of a rectangular duct's four sides, unit, in the elevation's coordinates. */
export type SideDirections = { readonly [S in Side]: Vec2 };

const SIDES: readonly Side[] = ['top', 'bottom', 'left', 'right'];
/** Points within this of the outermost one belong to the side. */
const SIDE_DEPTH = 0.5;
/** Steps along an outline at which the distance to the opening's edge is looked at: at first, and near the largest. */
const ROUND_STEP = 10;
const FINE_STEP = 0.1;
/** Smaller differences between neighbouring points are the chords of round outlines. */
const LEAST_FALL = 0.03;

/**
 * @param directions of the four sides, for an opening that has four; undefined for openings of other shapes
 * @param isRectangular the duct is: then the widest gap is a side's; else it may lie towards a corner of the opening
 */
export function measureGaps<Service>(
  planes: readonly GapPlane<Service>[],
  directions: SideDirections | undefined,
  isRectangular: boolean,
): MeasuredGaps<Service> {
  const min = Math.min(...planes.map(leastAllRound));
  const allRound = () => Math.max(...planes.map(mostAllRound));
  if (!directions) return { sides: undefined, min, max: allRound(), facing: {} };
  const sides: Partial<Record<Side, number>> = {};
  const facing: Partial<Record<Side, Service>> = {};
  let max = -Infinity;
  for (const side of SIDES) {
    const measured = planes.map((plane) => sideGap(plane, directions[side]));
    const least = measured.reduce((a, b) => (b.gap < a.gap ? b : a));
    sides[side] = least.gap;
    if (least.service !== undefined) facing[side] = least.service;
    max = Math.max(max, ...measured.map((m) => m.gap));
  }
  return { sides: sides as Record<Side, number>, min, max: isRectangular ? max : allRound(), facing };
}

/** Along the outward direction, over the whole breadth of the side, to the first edge. Negative: the side is in the barrier. */
function sideGap<Service>(plane: GapPlane<Service>, out: Vec2): { gap: number; service?: Service } {
  const across: Vec2 = [-out[1], out[0]];
  const points = plane.duct.flat();
  const edge = Math.max(...points.map((p) => dot2(p, out)));
  const along = points.filter((p) => dot2(p, out) >= edge - SIDE_DEPTH).map((p) => dot2(p, across));
  const from = dot2(boxCentre(plane.duct), out);
  const strip = { out, across, low: Math.min(...along), high: Math.max(...along), from };
  const opened = firstEdge(plane.opening, strip);
  const middle = [0, 1].map((i) => out[i]! * edge + (across[i]! * (strip.low + strip.high)) / 2) as [number, number];
  // A side with no edge before it stands in the barrier as a whole.
  const own = Number.isFinite(opened) ? opened - edge : -pointEdgeDistance(middle, plane.opening);
  let nearest: { gap: number; service?: Service } = { gap: own };
  for (const { service, outlines } of plane.services)
    for (const outline of outlines) {
      const gap = firstEdge(outline, strip) - edge;
      if (gap < nearest.gap) nearest = { gap, service };
    }
  return nearest;
}

interface Strip {
  readonly out: Vec2;
  readonly across: Vec2;
  readonly low: number;
  readonly high: number;
  /** Edges behind this are on the other side of the duct. */
  readonly from: number;
}

function firstEdge(outline: Polygon, { out, across, low, high, from }: Strip): number {
  // A hair narrower than the side, so that edges that run along the strip's border do not count as in front of it.
  const [l, h] = [low + Math.min(SIDE_DEPTH, (high - low) / 4), high - Math.min(SIDE_DEPTH, (high - low) / 4)];
  let first = Infinity;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [a, b] = [outline[j]!, outline[i]!];
    const [va, vb] = [dot2(a, across), dot2(b, across)];
    if (Math.max(va, vb) < l || Math.min(va, vb) > h) continue;
    const at = (v: number): number => {
      const t = va === vb ? 0 : Math.max(0, Math.min(1, (v - va) / (vb - va)));
      return dot2(a, out) + (dot2(b, out) - dot2(a, out)) * t;
    };
    for (const u of va === vb ? [dot2(a, out), dot2(b, out)] : [at(l), at(h)])
      if (u >= from) first = Math.min(first, u);
  }
  return first;
}

const roundPoints = onceForEach((outline: Polygon): Polygon => densify(outline, ROUND_STEP));

function leastAllRound<Service>({ duct, opening, services }: GapPlane<Service>): number {
  const outside = duct.flatMap((p) => roundPoints(p).filter((q) => !contains(opening, q)));
  const deepest = Math.max(0, ...outside.map((q) => pointEdgeDistance(q, opening)));
  let least = deepest > 1e-6 ? -deepest : Math.min(...duct.map((p) => edgeDistance(p, opening)));
  for (const { outlines } of services)
    for (const outline of outlines)
      for (const p of duct) least = Math.min(least, overlaps(p, outline) ? 0 : edgeDistance(p, outline));
  return least;
}

/** A largest gap between two points of the outline shows at them as a peak that falls off to one side at least. */
function mostAllRound<Service>({ duct, opening, services }: GapPlane<Service>): number {
  const edges = [opening, ...services.flatMap((s) => s.outlines)];
  const gapAt = (q: Vec2): number => {
    const d = Math.min(...edges.map((e) => pointEdgeDistance(q, e)));
    return contains(opening, q) ? d : -d;
  };
  let most = -Infinity;
  for (const outline of duct) {
    const coarse = roundPoints(outline);
    const gaps = coarse.map(gapAt);
    for (const [i, gap] of gaps.entries()) {
      most = Math.max(most, gap);
      const [before, after] = [gaps.at(i - 1)!, gaps[(i + 1) % gaps.length]!];
      if (gap < before || gap < after || gap - Math.min(before, after) < LEAST_FALL) continue;
      for (const other of [coarse.at(i - 1)!, coarse[(i + 1) % coarse.length]!])
        for (const q of densify([coarse[i]!, other], FINE_STEP)) most = Math.max(most, gapAt(q));
    }
  }
  return most;
}
