/**
 * What stands beside a straight piece: by side, how near, where, and over which stretch of it. Exact for rectangles,
 * circles and flat ovals, since the piece is never tessellated: what is cut off at its two ends is laid on its section.
 */
import { onceForEach } from '../collect.js';
import type { Body, Frame, Prism, Vec3 } from '../model.js';
import { type Box, boxesMeet, boxOfBody, boxOfPoints, grown } from './box.js';
import { isWithin } from './clear-distance.js';
import { fromPlane } from './frame.js';
import { circleOf } from './polygon.js';
import {
  distanceTo,
  EQUAL,
  FOUR_SIDES,
  isOpposite,
  kept,
  leastDistance,
  meets,
  type OneSide,
  type Polygon3,
  placesOn,
  type StraightSection,
  sidesBy,
  stretchWithin,
  withinLength,
} from './section-sides.js';
import { treeOf, trianglesIn } from './triangle-tree.js';
import { add, cross, distance, length, lerp, scale, unit } from './vector.js';

export interface Beside {
  /** Clear, across the axis; 0 where they meet. */
  readonly distance: number;
  /** On the other body, in the middle of the nearest places. */
  readonly at: Vec3;
  /** Along the axis, from its start: where it is nearer than the reach. */
  readonly stretches: readonly (readonly [number, number])[];
}

/**
 * @param reach what is further off is left out
 * @returns `inside`: the piece lies within the body, whose surface is not near
 */
export function besideStraight(
  section: StraightSection,
  body: Body,
  reach: number,
): { readonly [S in OneSide]?: Beside } | 'inside' {
  const rod = body.kind === 'prism' ? rodOf(body) : undefined;
  const beside = rod && besideRod(section, rod, reach);
  if (beside) return beside;
  const near = boxOfStraight(section, reach);
  // What lies off one stretch of a long piece need not be taken apart into triangles for it.
  if (!boxesMeet(boxOfBody(body), near)) return {};
  const found = foundBeside(section, trianglesIn(treeOf(body), near), reach);
  const sides = sidesOf(found, section, reach);
  if (sides.length === 0) {
    const middle = add(section.frame.origin, scale(section.frame.z, section.length / 2));
    return isWithin(body, middle) ? 'inside' : {};
  }
  return Object.fromEntries(sides.map((side) => [side, described(found[side]!, section)]));
}

type BySide = { readonly [S in OneSide]?: Found };

/** A soffit is over a duct; that it is also near round the duct's upper corners says nothing more. */
const sidesOf = (found: BySide, section: StraightSection, reach: number): OneSide[] =>
  FOUR_SIDES.filter((side) => {
    const one = found[side];
    if (!one || one.distance > reach) return false;
    const isNearest = FOUR_SIDES.every((other) => (found[other]?.distance ?? Infinity) >= one.distance);
    return isNearest || one.nearest.some((p) => isOpposite(p, section));
  });

function foundBeside(section: StraightSection, polygons: readonly Polygon3[], reach: number): BySide {
  const found: { [S in OneSide]?: Found } = {};
  const toLocal = localOf(section.frame);
  const within = withinLength(section.length);
  const halves = sidesBy(section);
  for (const polygon of polygons) {
    const cut = kept(polygon.map(toLocal), within);
    if (cut.length === 0) continue;
    for (const side of FOUR_SIDES) {
      const part = kept(cut, halves[side]);
      if (part.length === 0) continue;
      found[side] ??= { distance: Infinity, nearest: [], stretches: [] };
      take(found[side], part, section, side, reach);
    }
  }
  return found;
}

/** The axis of a round prism that stands square on its outline. */
interface Rod {
  readonly ends: readonly [Vec3, Vec3];
  readonly radius: number;
}

/** Null: it is no rod. */
const rodOf = onceForEach((prism: Prism): Rod | null => {
  const round = circleOf(prism.outline);
  const isSquare = length(cross(unit(prism.sweep), cross(prism.frame.x, prism.frame.y))) < 1e-6;
  const from = round && fromPlane(prism.frame, round.centre);
  return round && from && isSquare ? { ends: [from, add(from, prism.sweep)], radius: round.radius } : null;
});

/**
 * A pipe is as near as its axis less its radius: exact and quick. Undefined where it meets the piece, or is nearest at
 * one of its ends or of the ends of the piece; its facets tell then.
 */
function besideRod(
  section: StraightSection,
  { ends, radius }: Rod,
  reach: number,
): { readonly [S in OneSide]?: Beside } | undefined {
  const around = { ...section, radius: section.radius + radius };
  const toLocal = localOf(section.frame);
  const along = ends.map((p) => toLocal(p)[2]);
  const isParallel = Math.abs(along[0]! - along[1]!) > distance(...ends) * (1 - 1e-9);
  const found = foundBeside(around, [ends], reach);
  const near = sidesOf(found, around, reach).map((side) => [side, found[side]!] as const);
  const isEnd = (p: Vec3) =>
    [0, section.length].some((z) => Math.abs(p[2] - z) < EQUAL) ||
    ends.some((end) => distance(toLocal(end), p) < EQUAL);
  if (near.length !== 1 || near[0]![1].distance === 0) return undefined;
  const [side, one] = near[0]!;
  if (!isParallel && one.nearest.some(isEnd)) return undefined;
  const { at, distance: clear, stretches } = described(one, section);
  // The axis of what crosses is a point along the piece; the pipe itself is as wide as it lies askew.
  const askew = radius * Math.sqrt(Math.max(0, 1 - (Math.abs(along[0]! - along[1]!) / distance(...ends)) ** 2));
  const widened = stretches.map(
    ([from, to]) => [Math.max(0, from - askew), Math.min(section.length, to + askew)] as const,
  );
  const inner = toLocal(at);
  const core: Vec3 = [clamped(inner[0], section.half[0]), clamped(inner[1], section.half[1]), inner[2]];
  const outside = lerp(inner, core, radius / distance(inner, core));
  return {
    [side]: {
      distance: clear,
      stretches: united(widened),
      at: add(fromPlane(section.frame, [outside[0], outside[1]]), scale(section.frame.z, outside[2])),
    },
  };
}

const clamped = (v: number, half: number): number => Math.max(-half, Math.min(half, v));

export function boxOfStraight({ frame, length, half, radius }: StraightSection, reach: number): Box {
  const [x, y] = [half[0] + radius, half[1] + radius];
  const corners = [-x, x].flatMap((u) => [-y, y].map((v) => fromPlane(frame, [u, v])));
  return grown(boxOfPoints([...corners, ...corners.map((p) => add(p, scale(frame.z, length)))]), reach);
}

const localOf =
  ({ origin, x, y, z }: Frame) =>
  (p: Vec3): Vec3 => {
    const [a, b, c] = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]];
    return [a * x[0] + b * x[1] + c * x[2], a * y[0] + b * y[1] + c * y[2], a * z[0] + b * z[1] + c * z[2]];
  };

/** Of all polygons so far. */
interface Found {
  distance: number;
  nearest: Vec3[];
  readonly stretches: (readonly [number, number])[];
}

/** Added to what was found before: bodies have thousands of triangles. */
function take(found: Found, part: Polygon3, section: StraightSection, side: OneSide, reach: number): void {
  const stretch = stretchWithin(part, section, side, reach);
  if (stretch) found.stretches.push(stretch);
  const known = found.distance;
  // Beyond the reach nobody asks how far it is.
  if (leastDistance(part, section) > Math.min(known, reach) + EQUAL) return;
  const places = placesOn(part, section);
  const distances = places.map((p) => distanceTo(p, section));
  const least = meets(part, section) ? 0 : Math.min(...distances);
  if (least > known + EQUAL) return;
  if (least < known - EQUAL) found.nearest = [];
  const own = places.filter((_, i) => distances[i]! <= least + EQUAL);
  found.nearest.push(...(own.length > 0 ? own : part));
  found.distance = Math.min(least, known);
}

/** Half-way along the equally near places, on the one that is next to that. */
function described({ distance, nearest, stretches }: Found, { frame }: StraightSection): Beside {
  const along = nearest.map((p) => p[2]);
  const middle = (Math.min(...along) + Math.max(...along)) / 2;
  const [at] = [...nearest].sort((a, b) => Math.abs(a[2] - middle) - Math.abs(b[2] - middle));
  const place = add(fromPlane(frame, [at![0], at![1]]), scale(frame.z, at![2]));
  return { distance, at: place, stretches: united(stretches) };
}

export function united(stretches: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const whole: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const last = whole[whole.length - 1];
    if (last && from <= last[1] + EQUAL) last[1] = Math.max(last[1], to);
    else whole.push([from, to]);
  }
  return whole;
}
