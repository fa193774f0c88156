/** One body read as straight along one direction, where its sections agree. */
import { edgeDistance } from '../geometry/edge-distance.js';
import { type Fit, fitShape, outlineOfFit } from '../geometry/fit.js';
import { frameAlong, fromPlane } from '../geometry/frame.js';
import { lineHits } from '../geometry/mesh.js';
import { area, centroid, contains, convexHull, interiorPoint } from '../geometry/polygon.js';
import { cutBody, extent, forEachVertex } from '../geometry/section.js';
import { add, dot, dot2, length2, lineAngle, scale, sub, sub2, Z, ZERO } from '../geometry/vector.js';
import type { Body, Frame, Polygon, Prism, Vec2, Vec3 } from '../model.js';
import { CONTACT, FIT_RESIDUAL, JOINT, MOST_BRIDGED } from '../tolerances.js';
import type { Straight } from './straight.js';

/** Where along the length sections are compared. */
const STATIONS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
/** Looked at first, since most ways are none: where no two of these agree, six of all do not. */
const FIRST_STATIONS = [0.3, 0.5, 0.7];
/** So many of them must agree; the others may be cut short at an end, or stand out all round as a stiffener does. */
const LEAST_AGREEING = 6;
/** Another body this much as long as the main one takes part in its section. */
const LEAST_SHARE = 0.8;
/** How near to an end its section is looked at, mm. */
const END_INSET = 0.5;

interface Cut {
  readonly outline: Polygon;
  /** Of the outline: each cut is compared with all others. */
  readonly area: number;
  readonly centre: Vec2;
  readonly hole: Polygon | undefined;
}

/**
 * @param bodies all of the element, the main one among them
 * @returns undefined where the body is not straight this way
 */
export function readAlong(main: Body, direction: Vec3, bodies: readonly Body[]): Omit<Straight, 'shells'> | undefined {
  const [low, high] = extent([main], ZERO, direction);
  const hint = main.kind === 'prism' ? main.frame.x : Math.abs(direction[2]) > 0.9 ? ([1, 0, 0] as const) : Z;
  const planeAt = (s: number): Frame => frameAlong(scale(direction, s), direction, hint);
  const cutAt = (s: number) => sectionOf(main, planeAt(s));
  const atStation = (t: number) => cutAt(low + (high - low) * t);
  const isEverywhere = isUniform(main, direction);
  const common = isEverywhere ? uniformSection(atStation(0.5)) : commonSection(atStation);
  if (!common) return undefined;
  const { section, isWhole } = common;
  const middle = planeAt((low + high) / 2);
  const beside = bodies.filter((body) => body !== main && isAsLong(body, direction, high - low));
  const { outline: drawn, parts } = joinedOutline(section.outline, beside, middle);
  const fit = fitShape(drawn);
  const isExact = [main, ...parts].every((body) => body.kind === 'prism');
  // A mesh section that is no clean shape (rounded corners) is measured as it is drawn.
  const outline = isExact || fit.shape === 'unknown' || fit.residual > FIT_RESIDUAL ? drawn : outlineOfFit(fit);
  const isSquare =
    isEverywhere ||
    [low + END_INSET, high - END_INSET].every((s) => {
      const end = cutAt(s);
      return end && isSame(end, section);
    });
  const base = planeAt(low);
  const prism: Prism = { kind: 'prism', frame: base, outline, voids: [], sweep: scale(direction, high - low) };
  const replaced = isSquare ? [main, ...parts] : [];
  // Flanges and the like stand out beyond the fitted section: then the mesh itself stays, to be measured to as well.
  const keep = isSquare && main.kind === 'mesh' && standsOut(main, base, outline);
  const centre = fromPlane(base, fit.shape === 'unknown' ? centroid(outline) : fit.centre);
  const [from, to] = axisEnds({ main, centre, direction, low, high, isSquare, beside: bodies, section, planeAt });
  return {
    axis: [add(centre, scale(direction, from - low)), add(centre, scale(direction, to - low))],
    direction,
    plane: base,
    outline,
    fit,
    inside: insideOf(section, main),
    isWhole,
    from: isExact ? 'profile' : 'mesh',
    bodies: [
      ...(isSquare ? [prism] : []),
      ...(keep ? [main] : []),
      ...bodies.filter((body) => !replaced.includes(body)),
    ],
    section: isSquare ? [prism] : [main, ...parts],
  };
}

/** Every cut square to the direction is the same: of a right prism along its sweep, of a box along its sides too. */
function isUniform(body: Body, direction: Vec3): boolean {
  if (body.kind !== 'prism' || lineAngle(body.frame.z, body.sweep) > EXACT) return false;
  if (lineAngle(direction, body.sweep) <= EXACT) return true;
  const { frame, outline, voids } = body;
  if (voids.length > 0 || !isRectangle(outline)) return false;
  const [p, ...beside] = [outline[0]!, outline[1]!, outline[3]!].map((corner) => fromPlane(frame, corner));
  return beside.some((q) => lineAngle(direction, sub(q, p!)) <= EXACT);
}

/** Directions that are one but for rounding noise, degrees. */
const EXACT = 1e-7;
/** Corners that are one but for rounding noise, mm. */
const NOISE = 1e-6;

function isRectangle(outline: Polygon): boolean {
  const [a, b, c, d] = outline;
  if (!a || !b || !c || !d || outline.length > 4) return false;
  const [u, v] = [sub2(b, a), sub2(d, a)];
  const isParallelogram = length2(sub2(sub2(c, b), v)) <= NOISE;
  return isParallelogram && Math.abs(dot2(u, v)) <= NOISE * Math.min(length2(u), length2(v));
}

/** Whether cuts square to the direction, at the middle and near both ends, meet a gap in the surface. */
export function isOpenAlong(body: Body, direction: Vec3): boolean {
  const [low, high] = extent([body], ZERO, direction);
  return [0.1, 0.5, 0.9].some((t) => {
    const at = scale(direction, low + (high - low) * t);
    return cutBody(body, frameAlong(at, direction, Z)).bridged > 0;
  });
}

/** The one outline of the body on the plane; undefined where there are several, or where too much of it is a guess. */
function sectionOf(body: Body, plane: Frame): Cut | undefined {
  const { outers, holes, bridged } = cutBody(body, plane);
  const [outline] = [...outers].sort((a, b) => area(b) - area(a));
  if (!outline || outers.some((o) => o !== outline && !contains(outline, interiorPoint(o)))) return undefined;
  if (bridged > MOST_BRIDGED * perimeter(outline)) return undefined;
  const [hole] = [...holes].sort((a, b) => area(b) - area(a));
  return { outline, area: area(outline), centre: centroid(outline), hole };
}

function perimeter(p: Polygon): number {
  return p.reduce((sum, [x, y], i) => {
    const [u, v] = p[(i + 1) % p.length]!;
    return sum + Math.hypot(u - x, v - y);
  }, 0);
}

const isSameAnywhere = ([a, b, c]: readonly (Cut | undefined)[]): boolean =>
  [[a, b] as const, [b, c] as const, [a, c] as const].some(([p, q]) => p && q && isSame(p, q));

interface Common {
  readonly section: Cut;
  readonly isWhole: boolean;
}

const uniformSection = (cut: Cut | undefined): Common | undefined => cut && { section: cut, isWhole: true };

function commonSection(atStation: (t: number) => Cut | undefined): Common | undefined {
  if (!isSameAnywhere(FIRST_STATIONS.map(atStation))) return undefined;
  const cuts = STATIONS.map(atStation);
  const known = cuts.filter((cut) => cut !== undefined);
  const agreeing = (cut: Cut) => known.filter((other) => isSame(cut, other)).length;
  const fromMiddle = (cut: Cut) => Math.abs(cuts.indexOf(cut) - (cuts.length - 1) / 2);
  const [common] = [...known].sort((a, b) => agreeing(b) - agreeing(a) || fromMiddle(a) - fromMiddle(b));
  if (!common || agreeing(common) < LEAST_AGREEING) return undefined;
  const rest = cuts.filter((cut) => !cut || !isSame(cut, common));
  const fits = (cut: Cut | undefined): boolean => {
    if (!cut) return false;
    if (cut.area < common.area) return cut.outline.every((p) => isIn(common.outline, p));
    return centreDistance(cut, common) <= FIT_RESIDUAL;
  };
  return rest.every(fits) ? { section: common, isWhole: rest.length === 0 } : undefined;
}

const isIn = (outline: Polygon, p: Polygon[number]): boolean =>
  contains(outline, p) || edgeDistance(outline, [p, p, p]) <= FIT_RESIDUAL;

const centreDistance = (a: Cut, b: Cut): number => Math.hypot(a.centre[0] - b.centre[0], a.centre[1] - b.centre[1]);

const isSame = (a: Cut, b: Cut): boolean =>
  Math.abs(a.area - b.area) <= 0.01 * b.area && centreDistance(a, b) <= FIT_RESIDUAL;

function isAsLong(body: Body, direction: Vec3, length: number): boolean {
  const [low, high] = extent([body], ZERO, direction);
  return high - low >= LEAST_SHARE * length;
}

/** Bodies side by side that fill one outline, such as the parts of a composite profile. */
function joinedOutline(own: Polygon, beside: readonly Body[], plane: Frame): { outline: Polygon; parts: Body[] } {
  const outlines: Polygon[] = [own];
  const parts: Body[] = [];
  for (const body of beside) {
    const { outers } = cutBody(body, plane);
    const touches = outers.some(
      (o) => !contains(own, interiorPoint(o)) && !contains(o, interiorPoint(own)) && edgeDistance(o, own) <= CONTACT,
    );
    if (!touches) continue;
    outlines.push(...outers);
    parts.push(body);
  }
  const hull = convexHull(outlines.flat());
  const filled = outlines.reduce((sum, o) => sum + area(o), 0) / area(hull);
  return parts.length > 0 && Math.abs(filled - 1) < 0.01 ? { outline: hull, parts } : { outline: own, parts: [] };
}

const insideOf = ({ hole }: Cut, main: Body): Fit | undefined => {
  if (main.kind === 'prism' && main.voids.length === 0) return undefined;
  return hole && fitShape(hole);
};

interface Ends {
  readonly main: Body;
  readonly centre: Vec3;
  readonly direction: Vec3;
  readonly low: number;
  readonly high: number;
  readonly isSquare: boolean;
  readonly beside: readonly Body[];
  readonly section: Cut;
  readonly planeAt: (s: number) => Frame;
}

/** Where the centre line leaves the body, and the bodies that carry the same section on without a gap. */
function axisEnds({ main, centre, direction, beside, section, planeAt, ...ends }: Ends): readonly [number, number] {
  let { low, high } = ends;
  if (!ends.isSquare && main.kind === 'mesh') {
    const hits = lineHits(main, centre, direction);
    if (hits.length > 1) [low, high] = [ends.low + Math.min(...hits), ends.low + Math.max(...hits)];
  }
  const pieces = beside
    .filter((body) => body !== main)
    .map((body) => extent([body], ZERO, direction))
    .map(([from, to], i) => ({ from, to, body: beside.filter((b) => b !== main)[i]! }))
    .sort((a, b) => a.from - b.from);
  const goesOn = (body: Body, from: number, to: number): boolean => {
    const cut = sectionOf(body, planeAt((from + to) / 2));
    return cut !== undefined && isSame(cut, section);
  };
  for (const { from, to, body } of pieces)
    if (to > high && from <= high + JOINT && goesOn(body, Math.max(from, high), to)) high = to;
  for (const { from, to, body } of pieces.reverse())
    if (from < low && to >= low - JOINT && goesOn(body, from, Math.min(to, low))) low = from;
  return [low, high];
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
