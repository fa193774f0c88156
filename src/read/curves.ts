/**
 * Curves as points in millimetres: arcs drawn with their vertices on the true arc. Each curve keeps its own parameter
 * (ISO 10303-42), because trims and the ends of swept disks are given in it.
 */
import { arcThrough, type Chords } from '../geometry/arc.js';
import { chordsFor } from '../geometry/polygon.js';
import { add, dot, length2, lerp, scale, sub, sub2 } from '../geometry/vector.js';
import type { Polygon, Vec2, Vec3 } from '../model.js';
import { MOST_CORNERS } from './limits.js';
import type { Placements } from './placement.js';
import type { Profile } from './profiles.js';
import { splineCurve } from './spline-curve.js';
import { isArcIndex, type Line, type StepFile } from './step-file.js';
import { UnreadableGeometry } from './unreadable.js';
import { bool, list, num, nums, ref, refs, text } from './value.js';

export interface CurveContext {
  readonly file: StepFile;
  readonly placements: Placements;
  /** Millimetres per file unit. */
  readonly mm: number;
  /** Radians per file angle unit. */
  readonly angle: number;
  /** How arcs are drawn; within ARC_SAGITTA when left out. */
  readonly chords?: Chords;
  /** Profiles that were drawn within ARC_SAGITTA, by what they are drawn from: a building has thousands that are alike. */
  readonly profiles?: Map<string, Profile>;
}

export interface Curve {
  readonly from: number;
  readonly to: number;
  /** From one parameter to another, both ends included; backwards where the first is the larger. */
  points(from: number, to: number): Vec3[];
  /** The parameter at a point that lies on the curve; undefined where this kind of curve can't tell. */
  parameterAt?(p: Vec3): number | undefined;
  /** Length of the parameter's full turn, where the curve closes on itself. */
  readonly period?: number;
  /** Of a composite curve: how many segments it has. */
  readonly segments?: number;
}

/** Deepest nesting of curves in curves that is followed. */
const DEEPEST = 8;

/** A closed curve as an outline; undefined where its kind is not known to us. */
export function outlineOf(context: CurveContext, id: number | undefined): Polygon | undefined {
  const curve = id === undefined ? undefined : readCurve(context, id);
  if (!curve || !Number.isFinite(curve.to - curve.from)) return undefined;
  const points = withinLimit(withoutRepeats(curve.points(curve.from, curve.to).map(([x, y]): Vec2 => [x, y])));
  return points.length < 3 ? undefined : points;
}

function withinLimit(points: Polygon): Polygon {
  if (points.length > MOST_CORNERS)
    throw new UnreadableGeometry(`its outline has ${points.length} corners, more than ${MOST_CORNERS}`);
  return points;
}

function withoutRepeats(points: readonly Vec2[]): Polygon {
  const kept = points.filter((p, i) => i === 0 || length2(sub2(p, points[i - 1]!)) > 1e-6);
  while (kept.length > 1 && length2(sub2(kept[0]!, kept[kept.length - 1]!)) < 1e-3) kept.pop();
  return kept;
}

export function readCurve(context: CurveContext, id: number, depth = 0): Curve | undefined {
  const { file, placements } = context;
  const line = file.line(id);
  if (!line || depth > DEEPEST) return undefined;
  switch (file.entity(id)) {
    case 'IFCPOLYLINE':
      return chained(refs(line.Points).map((p) => [placements.point(p)]));
    case 'IFCINDEXEDPOLYCURVE':
      return indexed(context, line);
    case 'IFCCOMPOSITECURVE':
    case 'IFC2DCOMPOSITECURVE':
      return composite(context, refs(line.Segments), depth);
    case 'IFCCIRCLE':
    case 'IFCELLIPSE':
      return conic(context, line);
    case 'IFCLINE':
      return straight(context, line);
    case 'IFCTRIMMEDCURVE':
      return trimmed(context, line, depth);
    case 'IFCSURFACECURVE':
      return readCurve(context, ref(line.Curve3D) ?? 0, depth + 1);
    case 'IFCBSPLINECURVEWITHKNOTS':
    case 'IFCRATIONALBSPLINECURVEWITHKNOTS':
    case 'IFCBEZIERCURVE':
    case 'IFCRATIONALBEZIERCURVE':
      return splineCurve(context.placements, line);
    default:
      return undefined;
  }
}

/** Legs of one parameter each, given by their points after the start; the first leg is the start alone. */
function chained(legs: readonly (readonly Vec3[])[]): Curve | undefined {
  if (legs.length < 2) return undefined;
  const ends = legs.map((leg) => leg[leg.length - 1]!);
  const between = (k: number, a: number, b: number): Vec3[] => {
    const leg = [ends[k]!, ...legs[k + 1]!];
    const at = (t: number): Vec3 => {
      const s = t * (leg.length - 1);
      const i = Math.min(Math.floor(s), leg.length - 2);
      return lerp(leg[i]!, leg[i + 1]!, s - i);
    };
    const inner = leg.filter((_, i) => i / (leg.length - 1) > a && i / (leg.length - 1) < b);
    return [at(a), ...inner, at(b)];
  };
  return {
    from: 0,
    to: legs.length - 1,
    points: eitherWay((from, to) => {
      const out: Vec3[] = [];
      for (let k = 0; k + 1 < legs.length; k++) {
        const [a, b] = [Math.max(from - k, 0), Math.min(to - k, 1)];
        if (b > a) out.push(...between(k, a, b).slice(out.length > 0 ? 1 : 0));
      }
      return out;
    }),
  };
}

const eitherWay =
  (forward: (from: number, to: number) => Vec3[]): Curve['points'] =>
  (from, to) =>
    from <= to ? forward(from, to) : forward(to, from).reverse();

function indexed(context: CurveContext, { Points, Segments }: Line): Curve | undefined {
  const { file, mm } = context;
  const points = list(file.line(ref(Points) ?? 0)?.CoordList).map((c): Vec3 => {
    const [x, y, z] = nums(c);
    return [(x ?? Number.NaN) * mm, (y ?? Number.NaN) * mm, (z ?? 0) * mm];
  });
  if (!Array.isArray(Segments)) return chained(points.map((p) => [p]));
  const legs: Vec3[][] = [];
  for (const segment of Segments) {
    const ends = nums((segment as { value?: unknown }).value)
      .map((i) => points[i - 1])
      .filter((p): p is Vec3 => p !== undefined);
    if (ends.length < 2) return undefined;
    if (legs.length === 0) legs.push([ends[0]!]);
    if (isArcIndex(segment) && ends.length === 3)
      legs.push(arcThrough(ends[0]!, ends[1]!, ends[2]!, chordsOf(context)).slice(1));
    else legs.push(...ends.slice(1).map((p) => [p]));
  }
  return chained(legs);
}

const chordsOf = ({ chords }: CurveContext): Chords => chords ?? chordsFor;

function composite(context: CurveContext, segments: readonly number[], depth: number): Curve | undefined {
  const parts: { curve: Curve; forward: boolean; start: number }[] = [];
  let total = 0;
  for (const id of segments) {
    const segment = context.file.line(id);
    const curve = readCurve(context, ref(segment?.ParentCurve) ?? 0, depth + 1);
    if (!curve || !Number.isFinite(curve.to - curve.from)) return undefined;
    parts.push({ curve, forward: bool(segment?.SameSense) !== false, start: total });
    total += curve.to - curve.from;
  }
  return {
    from: 0,
    to: total,
    segments: parts.length,
    points: eitherWay((from, to) =>
      parts.flatMap(({ curve, forward, start }) => {
        const [a, b] = [Math.max(from - start, 0), Math.min(to - start, curve.to - curve.from)];
        if (b <= a) return [];
        return forward ? curve.points(curve.from + a, curve.from + b) : curve.points(curve.to - a, curve.to - b);
      }),
    ),
  };
}

/** In the file's angle unit. */
function conic(context: CurveContext, line: Line): Curve | undefined {
  const { placements, mm, angle } = context;
  const radius = num(line.Radius);
  const a = (radius ?? num(line.SemiAxis1) ?? Number.NaN) * mm;
  const b = (radius ?? num(line.SemiAxis2) ?? Number.NaN) * mm;
  if (!(a > 0 && b > 0)) return undefined;
  const at = placements.axis3(ref(line.Position));
  const turn = (2 * Math.PI) / angle;
  return {
    from: 0,
    to: turn,
    period: turn,
    points: (from, to) => {
      const [start, sweep] = [from * angle, (to - from) * angle];
      const n = 4 * Math.ceil(chordsOf(context)(Math.max(a, b), sweep) / 4);
      return Array.from({ length: n + 1 }, (_, i): Vec3 => {
        const t = start + (sweep * i) / n;
        return add(at.origin, add(scale(at.x, a * Math.cos(t)), scale(at.y, b * Math.sin(t))));
      });
    },
    parameterAt: (p) => {
      const d = sub(p, at.origin);
      return Math.atan2(dot(d, at.y) / b, dot(d, at.x) / a) / angle;
    },
  };
}

function straight({ file, placements, mm }: CurveContext, line: Line): Curve | undefined {
  const vector = file.line(ref(line.Dir) ?? 0);
  const along = placements.direction(ref(vector?.Orientation));
  const step = (num(vector?.Magnitude) ?? 1) * mm;
  if (!along || !(step > 0)) return undefined;
  const start = placements.point(ref(line.Pnt));
  const at = (t: number): Vec3 => add(start, scale(along, t * step));
  return {
    from: Number.NEGATIVE_INFINITY,
    to: Number.POSITIVE_INFINITY,
    points: (from, to) => [at(from), at(to)],
    parameterAt: (p) => dot(sub(p, start), along) / step,
  };
}

/** Its own parameter starts at 0 and counts along its sense. */
function trimmed(context: CurveContext, line: Line, depth: number): Curve | undefined {
  const basis = readCurve(context, ref(line.BasisCurve) ?? 0, depth + 1);
  if (!basis) return undefined;
  const trim = (value: unknown): number | undefined => {
    const point = refs(value)[0];
    const parameter = nums(value)[0];
    const byPoint = point === undefined ? undefined : basis.parameterAt?.(context.placements.point(point));
    return text(line.MasterRepresentation) === 'CARTESIAN' ? (byPoint ?? parameter) : (parameter ?? byPoint);
  };
  const [first, last] = [trim(line.Trim1), trim(line.Trim2)];
  if (first === undefined || last === undefined) return undefined;
  let sense = bool(line.SenseAgreement) === false ? -1 : 1;
  let span = (last - first) * sense;
  if (basis.period !== undefined) {
    span = ((span % basis.period) + basis.period) % basis.period;
    if (span < 1e-9 * basis.period) span = basis.period;
  } else if (span < 0) [span, sense] = [-span, -sense]; // of a line only the two ends count
  if (!(span > 0)) return undefined;
  return { from: 0, to: span, points: (from, to) => basis.points(first + sense * from, first + sense * to) };
}
