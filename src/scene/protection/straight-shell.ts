/** One layer round a straight piece of ductwork, between the planes that end it. */

import { lookedAlong, rightOf, upOf } from '../../find/clearances.js';
import { readDuctWall } from '../../find/duct-wall.js';
import { type Straight, straightReadings } from '../../find/straight.js';
import type { Fit } from '../../geometry/fit.js';
import { add, dot, lineAngle, negate, scale, sub, unit } from '../../geometry/vector.js';
import type { AirElement, Polygon, Side, Vec2, Vec3 } from '../../model.js';
import { PARALLEL } from '../../tolerances.js';
import type { Triangles } from '../triangulate.js';
import { edgeWay, ringOf } from './rings.js';
import { tube } from './solids.js';

/** A plane that ends a shell. */
export interface EndPlane {
  readonly at: Vec3;
  readonly normal: Vec3;
}

/** The sheet of a straight piece. */
export interface StraightSheet {
  readonly straight: Straight;
  readonly section: Fit;
  /** Whether it was measured the way that it was read. */
  readonly isForward: boolean;
}

/** As it was read along the axis that it was measured by; undefined: its section is not known. */
export function straightSheet(element: AirElement, from: Vec3, to: Vec3): StraightSheet | undefined {
  const straight = straightReadings(element).find(({ direction }) => lineAngle(direction, sub(to, from)) < PARALLEL);
  const section = straight && readDuctWall(element, straight).sections.sheet;
  if (!straight || !section || section.shape === 'unknown') return undefined;
  return { straight, section, isForward: dot(sub(to, from), straight.direction) > 0 };
}

export interface LayerRound {
  /** From the sheet to its inside and its outside, mm. */
  readonly inner: number;
  readonly outer: number;
  readonly bare: Side | null;
}

/** Null: its ends lie within each other. */
export function straightShell(
  { straight, section, isForward }: StraightSheet,
  ends: readonly [EndPlane, EndPlane],
  { inner, outer, bare }: LayerRound,
): Triangles | null {
  const { plane, direction } = straight;
  const way = bare === null ? undefined : sideWay(bare, straight);
  const rings = [inner, outer].map((by) => ringOf(section, { by, bare: way })) as [Polygon, Polygon];
  const lift = (ring: Polygon, { at, normal }: EndPlane): Vec3[] =>
    ring.map(([x, y]) => {
      const foot = add(plane.origin, add(scale(plane.x, x), scale(plane.y, y)));
      return add(foot, scale(direction, dot(sub(at, foot), normal) / dot(direction, normal)));
    });
  const [first, second] = isForward ? ends : [ends[1], ends[0]];
  const [inside, outside] = rings.map((ring) => [lift(ring, first), lift(ring, second)] as const);
  const isLeft = outside![0].every((p, i) => dot(sub(outside![1][i]!, p), direction) > 0);
  return isLeft ? tube({ inner: inside!, outer: outside!, open: way && edgeTo(rings[0], way) }) : null;
}

/** In the plane of the section. */
function sideWay(side: Side, { plane, direction }: Straight): Vec2 {
  const looked = lookedAlong(direction);
  const [up, right] = [upOf(looked), rightOf(looked)];
  const way = unit({ top: up, bottom: negate(up), right, left: negate(right) }[side]);
  return [dot(way, plane.x), dot(way, plane.y)];
}

const edgeTo = (ring: Polygon, way: Vec2): number | undefined => {
  const places = ring.map((_, i) => i);
  const facing = (i: number): number => {
    const [x, y] = edgeWay(ring, i);
    return x * way[0] + y * way[1];
  };
  return places.length === 4 ? places.reduce((best, i) => (facing(i) > facing(best) ? i : best)) : undefined;
};
