/** Plane curves as points in millimetres: arcs drawn within ARC_SAGITTA, their vertices on the true arc. */
import { chordsFor } from '../geometry/polygon.js';
import { cross2, length2, sub2 } from '../geometry/vector.js';
import type { Polygon, Vec2 } from '../model.js';
import type { Placements } from './placement.js';
import { isArcIndex, type StepFile } from './step-file.js';
import { bool, list, num, nums, ref, refs } from './value.js';

export interface CurveContext {
  readonly file: StepFile;
  readonly placements: Placements;
  /** Millimetres per file unit. */
  readonly mm: number;
  /** Radians per file angle unit. */
  readonly angle: number;
}

/** A closed curve as an outline; undefined where its kind is not known to us. */
export function outlineOf(context: CurveContext, id: number | undefined): Polygon | undefined {
  const points = id === undefined ? undefined : curvePoints(context, id);
  if (!points || points.length < 3) return undefined;
  return withoutRepeats(points);
}

function withoutRepeats(points: readonly Vec2[]): Polygon {
  const kept = points.filter((p, i) => i === 0 || length2(sub2(p, points[i - 1]!)) > 1e-6);
  while (kept.length > 1 && length2(sub2(kept[0]!, kept[kept.length - 1]!)) < 1e-3) kept.pop();
  return kept;
}

function curvePoints(context: CurveContext, id: number): Vec2[] | undefined {
  const { file, placements } = context;
  const line = file.line(id);
  if (!line) return undefined;
  switch (file.entity(id)) {
    case 'IFCPOLYLINE':
      return refs(line.Points).map((p): Vec2 => {
        const at = placements.point(p);
        return [at[0], at[1]];
      });
    case 'IFCINDEXEDPOLYCURVE':
      return indexedPoints(context, ref(line.Points), line.Segments);
    case 'IFCCOMPOSITECURVE':
      return compositePoints(context, refs(line.Segments));
    case 'IFCCIRCLE':
    case 'IFCELLIPSE':
      return conicPoints(context, id, 0, 2 * Math.PI);
    case 'IFCTRIMMEDCURVE':
      return trimmedPoints(context, id);
    default:
      return undefined;
  }
}

function indexedPoints({ file, mm }: CurveContext, pointList: number | undefined, segments: unknown): Vec2[] {
  const points = list(file.line(pointList ?? 0)?.CoordList).map((c): Vec2 => {
    const [x, y] = nums(c);
    return [(x ?? 0) * mm, (y ?? 0) * mm];
  });
  if (!Array.isArray(segments)) return points;
  const out: Vec2[] = [];
  for (const segment of segments) {
    const indices = nums((segment as { value?: unknown }).value);
    const ends = indices.map((i) => points[i - 1]).filter((p): p is Vec2 => p !== undefined);
    if (isArcIndex(segment) && ends.length === 3) out.push(...arcThrough(ends[0]!, ends[1]!, ends[2]!));
    else out.push(...ends);
  }
  return out;
}

function compositePoints(context: CurveContext, segments: readonly number[]): Vec2[] | undefined {
  const out: Vec2[] = [];
  for (const id of segments) {
    const segment = context.file.line(id);
    const points = curvePoints(context, ref(segment?.ParentCurve) ?? 0);
    if (!points) return undefined;
    out.push(...(bool(segment?.SameSense) === false ? points.reverse() : points));
  }
  return out;
}

/** From start to end in radians of the conic's parameter; the end point is included. */
function conicPoints(context: CurveContext, id: number, start: number, sweep: number): Vec2[] | undefined {
  const { file, placements, mm } = context;
  const line = file.line(id);
  const radius = num(line?.Radius);
  const a = (radius ?? num(line?.SemiAxis1) ?? Number.NaN) * mm;
  const b = (radius ?? num(line?.SemiAxis2) ?? Number.NaN) * mm;
  if (!(a > 0 && b > 0)) return undefined;
  const at = placements.axis2(ref(line?.Position));
  const n = 4 * Math.ceil(chordsFor(Math.max(a, b), sweep) / 4);
  return Array.from({ length: n + 1 }, (_, i): Vec2 => {
    const t = start + (sweep * i) / n;
    const [x, y] = [a * Math.cos(t), b * Math.sin(t)];
    return [at.origin[0] + at.x[0] * x + at.y[0] * y, at.origin[1] + at.x[1] * x + at.y[1] * y];
  });
}

function trimmedPoints(context: CurveContext, id: number): Vec2[] | undefined {
  const { file, placements } = context;
  const line = file.line(id);
  const basis = ref(line?.BasisCurve) ?? 0;
  const forward = bool(line?.SenseAgreement) !== false;
  const entity = file.entity(basis);
  if (entity === 'IFCLINE') {
    const ends = [trimPoint(context, line?.Trim1, basis), trimPoint(context, line?.Trim2, basis)];
    return ends[0] && ends[1] ? [ends[0], ends[1]] : undefined;
  }
  if (entity !== 'IFCCIRCLE' && entity !== 'IFCELLIPSE') return undefined;
  const from = trimAngle(context, line?.Trim1, basis);
  const to = trimAngle(context, line?.Trim2, basis);
  if (from === undefined || to === undefined) return undefined;
  const turn = 2 * Math.PI;
  const sweep = forward
    ? (((to - from) % turn) + turn) % turn || turn
    : -((((from - to) % turn) + turn) % turn || turn);
  return conicPoints(context, basis, from, sweep);

  function trimPoint(c: CurveContext, trim: unknown, lineId: number): Vec2 | undefined {
    const point = refs(trim)[0];
    if (point !== undefined) {
      const p = placements.point(point);
      return [p[0], p[1]];
    }
    const t = nums(trim)[0];
    const base = c.file.line(lineId);
    const vector = c.file.line(ref(base?.Dir) ?? 0);
    const d = placements.direction(ref(vector?.Orientation));
    if (t === undefined || !d) return undefined;
    const p = placements.point(ref(base?.Pnt));
    const k = t * (num(vector?.Magnitude) ?? 1) * c.mm;
    return [p[0] + d[0] * k, p[1] + d[1] * k];
  }
}

function trimAngle(context: CurveContext, trim: unknown, conic: number): number | undefined {
  const { file, placements, mm, angle } = context;
  const parameter = nums(trim)[0];
  if (parameter !== undefined) return parameter * angle;
  const point = refs(trim)[0];
  if (point === undefined) return undefined;
  const line = file.line(conic);
  const at = placements.axis2(ref(line?.Position));
  const p = placements.point(point);
  const d: Vec2 = [p[0] - at.origin[0], p[1] - at.origin[1]];
  const a = num(line?.Radius) ?? num(line?.SemiAxis1) ?? 1;
  const b = num(line?.Radius) ?? num(line?.SemiAxis2) ?? 1;
  return Math.atan2((d[0] * at.y[0] + d[1] * at.y[1]) / (b * mm), (d[0] * at.x[0] + d[1] * at.x[1]) / (a * mm));
}

/** The arc from a through b to c, both ends included; a straight line where the three lie on one. */
export function arcThrough(a: Vec2, b: Vec2, c: Vec2): Vec2[] {
  const ab = sub2(b, a);
  const ac = sub2(c, a);
  const d = 2 * cross2(ab, ac);
  if (Math.abs(d) < 1e-9 * length2(ab) * length2(ac)) return [a, b, c];
  const [l1, l2] = [ab[0] ** 2 + ab[1] ** 2, ac[0] ** 2 + ac[1] ** 2];
  const centre: Vec2 = [a[0] + (ac[1] * l1 - ab[1] * l2) / d, a[1] + (ab[0] * l2 - ac[0] * l1) / d];
  const angleOf = (p: Vec2) => Math.atan2(p[1] - centre[1], p[0] - centre[0]);
  const radius = length2(sub2(a, centre));
  const start = angleOf(a);
  const turn = 2 * Math.PI;
  let sweep = (((angleOf(c) - start) % turn) + turn) % turn;
  if (d < 0) sweep -= turn; // clockwise
  const n = chordsFor(radius, sweep);
  return Array.from({ length: n + 1 }, (_, i): Vec2 => {
    if (i === 0) return a;
    if (i === n) return c;
    const t = start + (sweep * i) / n;
    return [centre[0] + radius * Math.cos(t), centre[1] + radius * Math.sin(t)];
  });
}
