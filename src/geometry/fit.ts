/** What shape is this outline? Rectangle, circle or flat oval, with how far the outline misses the fitted shape. */
import { onceForEach } from '../collect.js';
import type { Polygon, Vec2 } from '../model.js';
import { FIT_RESIDUAL, FIT_RESIDUAL_SHARE } from '../tolerances.js';
import { area, centroid, circle, convexHull, pointEdgeDistance, pointSegmentDistance, rectangle } from './polygon.js';
import { cross2, distance2, dot2, length2, sub2 } from './vector.js';

/** A flat oval: a rectangle with half circles at its two short sides. */
export interface Fit {
  readonly shape: 'rectangular' | 'circular' | 'oval' | 'unknown';
  readonly centre: Vec2;
  /** Direction of `length`; unit. */
  readonly along: Vec2;
  /** Size along `along`; the longer side (rectangle, oval), or the diameter. */
  readonly length: number;
  /** Size square to `along`. */
  readonly breadth: number;
  /** Largest distance between a vertex of the outline and the fitted shape. */
  readonly residual: number;
  /** Largest distance between an edge of the outline and the fitted shape: how far the chords cut into the true arcs. */
  readonly chord: number;
}

/** Fewer vertices than this are no circle: a coarse circle in real files has 11 and more, an octagon is a shape. */
const LEAST_CIRCLE_VERTICES = 10;
/** How far the sides of the coarsest circle lie within it, as a share of its radius. */
const MOST_SAGITTA = 1.2 * (1 - Math.cos(Math.PI / LEAST_CIRCLE_VERTICES));
/** A rectangle, or an oval, fills at least this share of what it is fitted to; rounded and chamfered corners pass. */
const LEAST_FILL = 0.96;
/** Of each side of a rectangle at least this share is straight. */
const LEAST_STRAIGHT = 0.5;

const tolerance = (size: number): number => Math.max(FIT_RESIDUAL, size * FIT_RESIDUAL_SHARE);

/** Worked out once: the same cut is fitted for its sizes, its sides and its edges. */
export const fitShape = onceForEach((outline: Polygon): Fit => {
  const hull = withoutStraight(convexHull(outline));
  const middles = hull.map((p, i): Vec2 => {
    const q = hull[(i + 1) % hull.length]!;
    return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  });
  const fit = fitVertices(outline, hull, middles);
  return { ...fit, chord: largest(middles, (p) => Math.abs(missBy(p, fit))) };
});

/** No array on the way, and none that is spread: outlines have hundreds of corners. */
function largest<T>(items: readonly T[], sizeOf: (item: T) => number): number {
  let most = -Infinity;
  for (const item of items) most = Math.max(most, sizeOf(item));
  return most;
}

type VertexFit = Omit<Fit, 'chord'>;

function missBy(p: Vec2, fit: VertexFit): number {
  if (fit.shape === 'circular') return distance2(p, fit.centre) - fit.length / 2;
  return fit.shape === 'oval' ? ovalDistance(p, fit) : rectangleDistance(p, fit);
}

function fitVertices(outline: Polygon, hull: Polygon, middles: Polygon): VertexFit {
  const round = fitCircle(hull, middles);
  if (round && round.residual <= Math.min(FIT_RESIDUAL, round.length * FIT_RESIDUAL_SHARE)) return round;
  const box = leastRectangle(hull);
  const filled = area(outline) / (box.length * box.breadth);
  if (filled >= LEAST_FILL && area(outline) / area(hull) > 0.99 && hasFourSides(hull, box))
    return { ...box, shape: 'rectangular', residual: rectangleResidual(outline, box) };
  const ovalResidual = Math.max(...outline.map((p) => Math.abs(ovalDistance(p, box))));
  const ovalArea = (box.length - box.breadth) * box.breadth + (Math.PI / 4) * box.breadth ** 2;
  if (
    box.length > box.breadth * 1.02 &&
    outline.length >= LEAST_CIRCLE_VERTICES &&
    ovalResidual <= tolerance(box.breadth) &&
    area(outline) / ovalArea >= LEAST_FILL
  )
    return { ...box, shape: 'oval', residual: ovalResidual };
  return { ...box, shape: 'unknown', residual: rectangleResidual(outline, box) };
}

/** Corners that stand out less than this are points on an edge: where triangles of one facet are cut, mm. */
const LEAST_CORNER = 1e-4;

function withoutStraight(hull: Polygon): Polygon {
  const kept: Vec2[] = [];
  for (const [i, p] of hull.entries()) {
    const [before, after] = [kept[kept.length - 1] ?? hull[hull.length - 1]!, hull[(i + 1) % hull.length]!];
    if (pointSegmentDistance(p, before, after) > LEAST_CORNER) kept.push(p);
  }
  return kept.length > 2 ? kept : hull;
}

/** Vertices of a tessellated circle lie on the true circle, so the radius is theirs and not the chords'. */
function fitCircle(hull: Polygon, middles: Polygon): VertexFit | undefined {
  if (hull.length < LEAST_CIRCLE_VERTICES) return undefined;
  const centre = centroid(hull);
  const radii = hull.map((p) => distance2(p, centre));
  const radius = radii.reduce((sum, r) => sum + r, 0) / radii.length;
  const residual = largest(radii, (r) => Math.abs(r - radius));
  // The corners of a rectangle lie on a circle too; its sides do not.
  const sagitta = largest(middles, (p) => radius - distance2(p, centre));
  if (sagitta > radius * MOST_SAGITTA) return undefined;
  return { shape: 'circular', centre, along: [1, 0], length: 2 * radius, breadth: 2 * radius, residual };
}

type Box = Omit<VertexFit, 'shape' | 'residual'>;

/** The rectangle of least area round a convex outline: one of its sides lies on one of the outline's edges. */
function leastRectangle(hull: Polygon): Box {
  let best: Box | undefined;
  for (let i = 0; i < hull.length; i++) {
    const edge = sub2(hull[(i + 1) % hull.length]!, hull[i]!);
    const n = length2(edge);
    if (n < 1e-9) continue;
    const u: Vec2 = [edge[0] / n, edge[1] / n];
    const v: Vec2 = [-u[1], u[0]];
    let [u0, u1, v0, v1] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const p of hull) {
      const [a, b] = [dot2(p, u), dot2(p, v)];
      [u0, u1, v0, v1] = [Math.min(u0, a), Math.max(u1, a), Math.min(v0, b), Math.max(v1, b)];
    }
    const [du, dv] = [u1 - u0, v1 - v0];
    // A true margin, so that the four equal answers of a drawn rectangle don't flip with rounding noise.
    if (best && du * dv > best.length * best.breadth * (1 - 1e-9)) continue;
    const [cu, cv] = [(u0 + u1) / 2, (v0 + v1) / 2];
    const centre: Vec2 = [u[0] * cu + v[0] * cv, u[1] * cu + v[1] * cv];
    best = du >= dv ? { centre, along: u, length: du, breadth: dv } : { centre, along: v, length: dv, breadth: du };
  }
  return best ?? { centre: hull[0] ?? [0, 0], along: [1, 0], length: 0, breadth: 0 };
}

/** Tells a rectangle with rounded corners, however large, from a trapezoid. */
function hasFourSides(hull: Polygon, box: Box): boolean {
  const local = hull.map((p): Vec2 => {
    const d = sub2(p, box.centre);
    return [dot2(d, box.along), cross2(box.along, d)];
  });
  const reach = tolerance(box.breadth);
  const straight = (along: 0 | 1, at: number): number =>
    local.reduce((sum, p, i) => {
      const q = local[(i + 1) % local.length]!;
      const across = along === 0 ? 1 : 0;
      const lies = Math.abs(p[across] - at) <= reach && Math.abs(q[across] - at) <= reach;
      return lies ? sum + Math.abs(q[along] - p[along]) : sum;
    }, 0);
  const [l, b] = [box.length / 2, box.breadth / 2];
  return (
    [straight(0, b), straight(0, -b)].every((s) => s >= box.length * LEAST_STRAIGHT) &&
    [straight(1, l), straight(1, -l)].every((s) => s >= box.breadth * LEAST_STRAIGHT)
  );
}

function localAbs(p: Vec2, box: Box): Vec2 {
  const d = sub2(p, box.centre);
  return [Math.abs(dot2(d, box.along)), Math.abs(cross2(box.along, d))];
}

const rectangleResidual = (outline: Polygon, box: Box): number =>
  Math.max(...outline.map((p) => rectangleDistance(p, box)));

function rectangleDistance(p: Vec2, box: Box): number {
  const [h, b] = [box.length / 2, box.breadth / 2];
  const corners: Polygon = [
    [-h, -b],
    [h, -b],
    [h, b],
    [-h, b],
  ];
  return pointEdgeDistance(localAbs(p, box), corners);
}

/** Signed distance to the flat oval of the box. */
function ovalDistance(p: Vec2, box: Box): number {
  const [a, b] = localAbs(p, box);
  const straight = (box.length - box.breadth) / 2;
  return Math.hypot(Math.max(0, a - straight), b) - box.breadth / 2;
}

/** The fitted shape's own size along a direction (unit), between the two edges that face that way. */
export function sizeAlong(fit: Fit, direction: Vec2): number {
  return Math.abs(dot2(fit.along, direction)) >= Math.SQRT1_2 ? fit.length : fit.breadth;
}

/** The fitted shape itself, drawn out; with `inset` the shape that lies that far inside it. */
export function outlineOfFit(fit: Fit, inset = 0): Polygon {
  const [length, breadth] = [fit.length - 2 * inset, fit.breadth - 2 * inset];
  if (fit.shape === 'circular') return circle(length, fit.centre);
  const place = ([a, b]: Vec2): Vec2 => [
    fit.centre[0] + fit.along[0] * a - fit.along[1] * b,
    fit.centre[1] + fit.along[1] * a + fit.along[0] * b,
  ];
  if (fit.shape !== 'oval') return rectangle(length, breadth).map(place);
  const straight = (length - breadth) / 2;
  return circle(breadth).map(([x, y]): Vec2 => place([x + (x >= 0 ? straight : -straight), y]));
}
