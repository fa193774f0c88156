/** Affine maps of the plane, for outlines of many points: no array is made on the way. */
import type { Polygon, Vec2 } from '../model.js';
import { circleOf, counterClockwise, keepCircle } from './polygon.js';

/** (u, v) ↦ origin + u · x + v · y */
export interface PlaneMap {
  readonly origin: Vec2;
  readonly x: Vec2;
  readonly y: Vec2;
}

const mapPoint = ({ origin, x, y }: PlaneMap, { 0: u, 1: v }: Vec2): Vec2 => [
  origin[0] + u * x[0] + v * y[0],
  origin[1] + u * x[1] + v * y[1],
];

/** Axes whose lengths and angle differ by less keep a circle one, as a share. */
const RIGID = 1e-9;

const isRigid = ({ x, y }: PlaneMap): boolean =>
  Math.abs(Math.hypot(...x) - 1) < RIGID &&
  Math.abs(Math.hypot(...y) - 1) < RIGID &&
  Math.abs(x[0] * y[0] + x[1] * y[1]) < RIGID;

/** Counter-clockwise. A circle that is moved as a whole stays known as one. */
export function mapOutline(outline: Polygon, map: PlaneMap): Polygon {
  const mapped = counterClockwise(outline.map((q) => mapPoint(map, q)));
  if (!isRigid(map)) return mapped;
  const round = circleOf(outline);
  keepCircle(mapped, round && { centre: mapPoint(map, round.centre), radius: round.radius });
  return mapped;
}
