/** Where a piece of ductwork enters the gross body of a barrier: which plate, from where to where, and how cleanly. */
import type { Box } from '../geometry/box.js';
import { fromPlane, raised } from '../geometry/frame.js';
import { bounds, boxGap, centroid, circleOf, contains, densify, pointEdgeDistance } from '../geometry/polygon.js';
import { cutBodies, extent, forEachVertex } from '../geometry/section.js';
import { add, dot, length2, lerp, lineAngle, scale, sub, sub2 } from '../geometry/vector.js';
import type { Polygon, Vec2, Vec3 } from '../model.js';
import { CONTACT, GRAZING, PARALLEL, TAKEN_IN } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import type { Piece } from './pieces.js';
import { faceHeights, type Plate } from './plates.js';
import type { Straight } from './straight.js';

export interface Intrusion {
  readonly piece: Piece;
  readonly plate: Plate;
  /** Part of the plate's thickness that the piece fills, along its normal; the faces are at ± thickness / 2. */
  readonly low: number;
  readonly high: number;
  /** Every outline tested lies within the barrier's outline; false: it leaves by another face. */
  readonly contained: boolean;
}

/** Steps at which outlines are tested against the barrier's edge. */
const OUTLINE_STEP = 100;
/** Shares of a line at which points of it are tried. */
const STATIONS = [0.1, 0.3, 0.5, 0.7, 0.9];
/** Lines along a duct, beside its centre line, that are tried. */
const MOST_LINES = 24;
/** The ribs of decks, the cores of slabs and walls are no narrower. */
const RIB_STEP = 40;
/** Points of a piece without a direction of its own that are tried. */
const MOST_SAMPLES = 24;

/** A piece whose axis nothing settles is taken to go the way in which it passes the barrier, where it does. */
export function intrusionsOf(piece: Piece, gross: GrossBody, barrierBox: Box): Intrusion[] {
  const found = intrusionsAlong(piece, gross, barrierBox);
  if (piece.otherReadings.length === 0 || found.some(passes)) return found;
  for (const other of piece.otherReadings) {
    const otherwise = intrusionsAlong(other, gross, barrierBox);
    if (otherwise.some(passes)) return otherwise;
  }
  return found;
}

const passes = ({ piece, contained, low, high, plate }: Intrusion): boolean =>
  contained && high - low >= plate.thickness - 2 * CONTACT && !isParallel(piece, plate);

const isParallel = ({ straight }: Piece, plate: Plate): boolean =>
  straight !== undefined && lineAngle(straight.direction, plate.frame.z) >= 90 - GRAZING;

function intrusionsAlong(piece: Piece, gross: GrossBody, barrierBox: Box): Intrusion[] {
  const found = new Map<string, Intrusion>();
  for (const plate of candidatePlates(piece, gross, barrierBox)) {
    const key = [...plate.frame.origin, ...plate.frame.z, plate.thickness].map((v) => v.toFixed(1)).join();
    if (found.has(key)) continue;
    const intrusion = intrusionAt(piece, gross, plate);
    if (intrusion) found.set(key, intrusion);
  }
  return [...found.values()];
}

function candidatePlates(piece: Piece, gross: GrossBody, barrierBox: Box): Plate[] {
  const { straight } = piece;
  if (straight) {
    const [start] = straight.axis;
    const reached = (plates: Plate[]) => plates.filter((plate) => rangeIn(piece, plate) !== undefined);
    const onAxis = reached(gross.platesOn(start, straight.direction));
    if (onAxis.length > 0 && !gross.isStepped) return onAxis;
    const onRim = reached(
      rimOf(straight, gross.isStepped).flatMap((p) => gross.platesOn(fromPlane(straight.plane, p), straight.direction)),
    );
    if (onAxis.length > 0) return onAxis.map((plate) => thinnestOf(plate, onRim));
    // The centre line misses the barrier, but an edge of the duct may not.
    if (onRim.length > 0) return onRim;
  }
  return samplePoints(piece, barrierBox).flatMap((p) => gross.platesNear(p));
}

/** Points just within the outline: a few, or so many that no rib slips between them. */
function rimOf({ outline, fit }: Straight, isDense: boolean): Polygon {
  const points = isDense ? densify(outline, RIB_STEP) : outline;
  const few = isDense ? points : points.filter((_, i) => i % Math.ceil(points.length / 8) === 0);
  return few.map((p): Vec2 => {
    const inward = sub2(fit.centre, p);
    const n = length2(inward);
    return n > CONTACT ? [p[0] + (inward[0] * CONTACT) / n, p[1] + (inward[1] * CONTACT) / n] : p;
  });
}

/** Over a rib, a step or a pier the barrier is thicker than beside it: where a duct passes both, the thinner counts. */
function thinnestOf(plate: Plate, others: readonly Plate[]): Plate {
  const { origin, z } = plate.frame;
  const beside = others.filter(
    (other) =>
      lineAngle(other.frame.z, z) < PARALLEL &&
      Math.abs(dot(sub(other.frame.origin, origin), z)) < (plate.thickness + other.thickness) / 2 - CONTACT,
  );
  return beside.reduce((thin, other) => (other.thickness < thin.thickness - CONTACT ? other : thin), plate);
}

function samplePoints({ straight, element, bodies, box }: Piece, within: Box): Vec3[] {
  if (straight) {
    const onAxis = STATIONS.map((t) => lerp(straight.axis[0], straight.axis[1], t));
    return [...onAxis, ...pointsNear(straight, within)];
  }
  const near: Vec3[] = [];
  const isNear = (p: Vec3) => ([0, 1, 2] as const).every((i) => p[i] >= within.min[i] && p[i] <= within.max[i]);
  for (const body of bodies)
    forEachVertex(body, (p) => {
      if (isNear(p)) near.push(p);
    });
  const every = Math.ceil(near.length / MOST_SAMPLES);
  return [lerp(box.min, box.max, 0.5), ...element.ports.map((p) => p.at), ...near.filter((_, i) => i % every === 0)];
}

/** The part of the plate's thickness that the piece reaches; undefined when it only touches it. */
function rangeIn(piece: Piece, plate: Plate): readonly [number, number] | undefined {
  const [least, most] = extent(piece.bodies, plate.frame.origin, plate.frame.z);
  const low = Math.max(least, -plate.thickness / 2);
  const high = Math.min(most, plate.thickness / 2);
  return high - low > Math.min(CONTACT, plate.thickness / 4) ? [low, high] : undefined;
}

function intrusionAt(piece: Piece, gross: GrossBody, plate: Plate): Intrusion | undefined {
  const range = rangeIn(piece, plate);
  if (!range) return undefined;
  const [low, high] = range;
  const beside = besideFace(piece, plate);
  if (beside && !takesIn(piece, gross, plate, beside)) return undefined;
  let touched = false;
  let contained = !beside; // what takes the barrier in from one side leaves it by that side
  // What goes along the faces may be in the barrier between the usual heights only.
  const between = isParallel(piece, plate) ? STATIONS.map((t) => low + (high - low) * t) : [];
  for (const s of [...gross.testHeights(plate, low, high), ...between]) {
    const outlines = outlinesOf(piece, plate, s);
    const barrier = gross.outline(plate, s);
    for (const outline of outlines) {
      const at = liesIn(outline, barrier);
      if (at !== 'outside') touched = true;
      if (at !== 'inside') contained = false;
    }
  }
  return touched ? { piece, plate, low, high, contained } : undefined;
}

export const outlinesOf = (piece: Piece, plate: Plate, s: number): readonly Polygon[] =>
  cutBodies(piece.bodies, raised(plate.frame, s)).outers;

/** The side of a face, along the plate's normal, that a duct along the barrier has its whole centre line on. */
function besideFace(piece: Piece, plate: Plate): -1 | 1 | undefined {
  if (!piece.straight || !isParallel(piece, plate)) return undefined;
  const [low, high] = faceHeights(plate);
  const ends = piece.straight.axis.map((end) => dot(sub(end, plate.frame.origin), plate.frame.z));
  if (ends.every((s) => s > high)) return 1;
  return ends.every((s) => s < low) ? -1 : undefined;
}

/** A duct beside a face passes nothing unless its side reaches, somewhere within the barrier's outline, so deep into it. */
function takesIn(piece: Piece, gross: GrossBody, plate: Plate, side: -1 | 1): boolean {
  const depth = side * plate.thickness * (0.5 - TAKEN_IN);
  const barrier = gross.outline(plate, depth);
  return outlinesOf(piece, plate, depth).some((outline) => liesIn(outline, barrier) !== 'outside');
}

/** Edges within CONTACT of the barrier's own edge lie on it. */
function liesIn(outline: Polygon, barrier: readonly Polygon[]): 'inside' | 'outside' | 'across' {
  // Where no edge comes near, one point tells of all: so it is of most crossings and of most walls beside a duct.
  if (isClearOfEdges(outline, barrier)) return barrier.some((b) => contains(b, outline[0]!)) ? 'inside' : 'outside';
  let strictlyIn = 0;
  let out = 0;
  const { min, max } = bounds(barrier);
  const isFar = (p: Vec2) => ([0, 1] as const).some((i) => p[i] < min[i] - CONTACT || p[i] > max[i] + CONTACT);
  for (const p of densify(outline, OUTLINE_STEP)) {
    if (isFar(p)) {
      out++;
      continue;
    }
    const inside = barrier.some((b) => contains(b, p));
    const onEdge = barrier.some((b) => pointEdgeDistance(p, b) <= CONTACT);
    if (onEdge) continue;
    if (inside) strictlyIn++;
    else out++;
  }
  if (out === 0) return 'inside';
  if (strictlyIn > 0) return 'across';
  // The rim is outside all round: still across where the barrier is a strip narrower than the duct.
  const middle = centroid(outline);
  const within = outline.flatMap((p) =>
    [0, 0.3, 0.6].map((t): Vec2 => [middle[0] + (p[0] - middle[0]) * t, middle[1] + (p[1] - middle[1]) * t]),
  );
  return within.some((p) => barrier.some((b) => contains(b, p) && pointEdgeDistance(p, b) > CONTACT))
    ? 'across'
    : 'outside';
}

/** No edge of the barrier reaches into the box round the outline; true circles bulge beyond theirs, so they don't count. */
function isClearOfEdges(outline: Polygon, barrier: readonly Polygon[]): boolean {
  const { min, max } = bounds([outline]);
  return barrier.every(
    (b) =>
      circleOf(b) === null && b.every((p, i) => boxGap(b[i === 0 ? b.length - 1 : i - 1]!, p, min, max) > 2 * CONTACT),
  );
}

/** Along a barrier, or over its edge, only a short stretch of a duct may lie in it, and that off the centre line. */
function pointsNear({ axis, outline, plane }: Straight, within: Box): Vec3[] {
  // A thin wall may stand between lines that are far apart, so lines are left out only of those that reach it.
  const rim = densify(outline, RIB_STEP).map((p) => fromPlane(plane, p));
  const along = sub(axis[1], axis[0]);
  const lines = [axis[0], ...rim].map((from) => stretchIn(from, along, within)).filter((points) => points.length > 0);
  const every = Math.ceil(lines.length / MOST_LINES);
  return lines.filter((_, i) => i % every === 0).flat();
}

/** Points of a line, evenly spread over the part of it that is in the box. */
function stretchIn(from: Vec3, along: Vec3, { min, max }: Box): Vec3[] {
  let [enters, leaves] = [0, 1];
  for (const i of [0, 1, 2] as const) {
    if (along[i] === 0) {
      if (from[i] < min[i] || from[i] > max[i]) return [];
      continue;
    }
    const [a, b] = [(min[i] - from[i]) / along[i], (max[i] - from[i]) / along[i]];
    enters = Math.max(enters, Math.min(a, b));
    leaves = Math.min(leaves, Math.max(a, b));
  }
  return enters < leaves ? STATIONS.map((t) => add(from, scale(along, enters + (leaves - enters) * t))) : [];
}
