/**
 * Straight pieces of ductwork: which way air goes through them, and their section square to it. Exact from swept
 * profiles, fitted for bare meshes. The extrusion direction alone proves nothing: some programs draw rectangular ducts
 * sideways.
 */
import { type Fit, fitShape } from '../geometry/fit.js';
import { frameAlong, fromPlane } from '../geometry/frame.js';
import { area, centroid, circle } from '../geometry/polygon.js';
import { principalDirections } from '../geometry/principal.js';
import { cutBody, extent, forEachVertex } from '../geometry/section.js';
import { add, distance, dot, length, lineAngle, scale, sub, unit, Z } from '../geometry/vector.js';
import type { AirElement, Body, Frame, Polygon, Prism, Vec2, Vec3 } from '../model.js';
import { FIT_RESIDUAL, PORT_ON_FACE } from '../tolerances.js';

/** A straight piece: a section carried along an axis. */
export interface Straight {
  /** Centre line from end to end. */
  readonly axis: readonly [Vec3, Vec3];
  readonly direction: Vec3;
  /** Square to the axis; carries `outline` and `fit`. */
  readonly plane: Frame;
  readonly outline: Polygon;
  readonly fit: Fit;
  /** The modelled profile has an air space in it, so its outline is the outside of the sheet. */
  readonly hollow: boolean;
  readonly from: 'profile' | 'mesh';
  /** What to measure with: the exact prism in place of the body it was read from, and every other body. */
  readonly bodies: readonly Body[];
}

/** Sections at these parts of the length must agree, or the piece is not straight. */
const STATIONS = [0.1, 0.5, 0.9];
/** Directions nearer than this to each other are one, degrees. */
const SAME_DIRECTION = 1;

/** Every way in which the element is straight, the likeliest first; empty for bends, branches and transitions. */
export function straightReadings(element: AirElement): Straight[] {
  const main = largest(element.bodies);
  if (!main) return [];
  const readings: Straight[] = [];
  for (const direction of directions(main)) {
    const reading = readAlong(main, direction, element.bodies);
    if (reading) readings.push(reading);
  }
  const portAxis = axisOfPorts(element);
  const known = portAxis ? readings.filter((r) => lineAngle(r.direction, portAxis) < SAME_DIRECTION) : [];
  if (portAxis) return known;
  // Air goes along a tube, and along a pipe-shaped piece, whatever its length.
  const certain = readings.filter((r) => r.hollow || r.fit.shape === 'circular' || r.fit.shape === 'oval');
  return certain.length > 0 ? certain : readings.sort((a, b) => lengthOf(b) - lengthOf(a));
}

export const lengthOf = (s: Straight): number => distance(s.axis[0], s.axis[1]);

/**
 * Chooses among several readings (a plain box is straight in three directions): the one whose ends meet other ductwork,
 * else the longest, which only a duct segment may be judged by.
 */
export function chooseReading(
  readings: readonly Straight[],
  element: AirElement,
  isJointAt: (end: Vec3, direction: Vec3) => boolean,
): { readonly straight: Straight | undefined; readonly isCertain: boolean } {
  if (readings.length < 2) return { straight: readings[0], isCertain: true };
  const joined = readings.map((r) => r.axis.filter((end) => isJointAt(end, r.direction)).length);
  const most = Math.max(...joined);
  if (most > 0) return { straight: readings[joined.indexOf(most)], isCertain: true };
  const isDuct = element.kind === 'segment' || element.kind === 'flexible';
  return { straight: isDuct ? readings[0] : undefined, isCertain: false };
}

function axisOfPorts(element: AirElement): Vec3 | undefined {
  let best: Vec3 | undefined;
  for (const a of element.ports)
    for (const b of element.ports) {
      const d = sub(b.at, a.at);
      if (length(d) > PORT_ON_FACE && (!best || length(d) > length(best))) best = d;
    }
  return best && unit(best);
}

function largest(bodies: readonly Body[]): Body | undefined {
  const size = (body: Body): number => {
    const [x, y, z] = ([0, 1, 2] as const).map((i) => {
      const axis: Vec3 = [i === 0 ? 1 : 0, i === 1 ? 1 : 0, i === 2 ? 1 : 0];
      const [low, high] = extent([body], [0, 0, 0], axis);
      return high - low + 1;
    });
    return x! * y! * z!;
  };
  return [...bodies].sort((a, b) => size(b) - size(a))[0];
}

/** A prism can be straight along its sweep, and across it where its profile is a rectangle. */
function directions(body: Body): Vec3[] {
  if (body.kind === 'prism') {
    const sides: Vec3[] = [];
    const fit = fitShape(body.outline);
    if (body.voids.length === 0 && fit.shape === 'rectangular') {
      const [u, v] = fit.along;
      const side = (a: number, b: number) => add(scale(body.frame.x, a), scale(body.frame.y, b));
      sides.push(side(u, v), side(-v, u));
    }
    return [unit(body.sweep), ...sides];
  }
  const points: Vec3[] = [];
  forEachVertex(body, (p) => points.push(p));
  return [...principalDirections(points)];
}

function readAlong(main: Body, direction: Vec3, bodies: readonly Body[]): Straight | undefined {
  const [low, high] = extent([main], [0, 0, 0], direction);
  const hint = main.kind === 'prism' ? main.frame.x : Math.abs(direction[2]) > 0.9 ? ([1, 0, 0] as const) : Z;
  const planeAt = (s: number): Frame => frameAlong(scale(direction, s), direction, hint);
  const cuts = STATIONS.map((t) => cutBody(main, planeAt(low + (high - low) * t)));
  const outlines = cuts.map((cut) => [...cut.outers].sort((a, b) => area(b) - area(a)));
  const middle = outlines[1]?.[0];
  if (!middle || outlines.some((o) => o.length !== 1 || !sameSection(o[0]!, middle))) return undefined;
  const fit = fitShape(middle);
  const exact = main.kind === 'prism';
  if (!exact && fit.shape === 'unknown') return undefined;
  // A mesh section that is no clean shape (rounded corners) is measured as it is drawn.
  const outline = exact || fit.residual > FIT_RESIDUAL ? middle : fittedOutline(fit);
  const base = planeAt(low);
  const sweep = scale(direction, high - low);
  const prism: Prism = { kind: 'prism', frame: base, outline, voids: [], sweep };
  // Flanges and the like stand out beyond the fitted section: then the mesh itself stays, to be measured to as well.
  const keep = !exact && standsOut(main, base, outline);
  const centre = fromPlane(base, fit.shape === 'unknown' ? centroid(outline) : fit.centre);
  return {
    axis: [centre, add(centre, sweep)],
    direction,
    plane: base,
    outline,
    fit,
    hollow: cuts[1]!.holes.length > 0,
    from: exact ? 'profile' : 'mesh',
    bodies: [prism, ...(keep ? [main] : []), ...bodies.filter((body) => body !== main)],
  };
}

function sameSection(a: Polygon, b: Polygon): boolean {
  const [ca, cb] = [centroid(a), centroid(b)];
  return Math.abs(area(a) - area(b)) <= 0.01 * area(b) && Math.hypot(ca[0] - cb[0], ca[1] - cb[1]) <= FIT_RESIDUAL;
}

function fittedOutline(fit: Fit): Polygon {
  if (fit.shape === 'circular') return circle(fit.length, fit.centre);
  const [u, v] = [fit.length / 2, fit.breadth / 2];
  const place = ([a, b]: Vec2): Vec2 => [
    fit.centre[0] + fit.along[0] * a - fit.along[1] * b,
    fit.centre[1] + fit.along[1] * a + fit.along[0] * b,
  ];
  if (fit.shape === 'rectangular')
    return (
      [
        [-u, -v],
        [u, -v],
        [u, v],
        [-u, v],
      ] as const
    ).map(place);
  const ends = circle(fit.breadth);
  const half = u - v;
  return ends.map(([x, y]): Vec2 => place([x + (x >= 0 ? half : -half), y]));
}

function standsOut(body: Body, plane: Frame, outline: Polygon): boolean {
  const [xs, ys] = [outline.map((p) => p[0]), outline.map((p) => p[1])];
  const box = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)] as const;
  let out = false;
  forEachVertex(body, (p) => {
    const d = sub(p, plane.origin);
    const [x, y] = [dot(d, plane.x), dot(d, plane.y)];
    if (Math.max(box[0] - x, x - box[1], box[2] - y, y - box[3]) > FIT_RESIDUAL) out = true;
  });
  return out;
}

/** The two section directions of the fit in space: along its longer side, and square to that. */
export function sectionDirections(s: Straight): readonly [Vec3, Vec3] {
  const [u, v] = s.fit.along;
  return [add(scale(s.plane.x, u), scale(s.plane.y, v)), add(scale(s.plane.x, -v), scale(s.plane.y, u))];
}
