/**
 * Solids swept along a curve: disks (flexible ducts, round ducts of some programs) and areas with a fixed reference. A
 * straight curve gives a prism, exactly; a bent one a mesh whose rings are mitred at the curve's points.
 */
import { type Affine, applyDirection, applyPoint, frameAlong, fromPlane } from '../geometry/frame.js';
import { loft, type Ring } from '../geometry/loft.js';
import { movedMesh, movedPrism } from '../geometry/mesh.js';
import { circle, circleOf } from '../geometry/polygon.js';
import {
  add,
  distance,
  dot,
  length,
  lineAngle,
  perpendicularPart,
  scale,
  sub,
  unit,
  X,
  Z,
} from '../geometry/vector.js';
import type { Body, Vec3 } from '../model.js';
import { type Curve, type CurveContext, readCurve } from './curves.js';
import { type Profile, readProfiles } from './profiles.js';
import type { Line } from './step-file.js';
import { forMesh } from './swept.js';
import { UnreadableGeometry } from './unreadable.js';
import { num, ref } from './value.js';

/** Legs that turn back on themselves more sharply than this have no mitre, degrees. */
const SHARPEST = 170;
/** Curve points nearer than this are one, mm. */
const REPEATED = 1e-6;
/** Turns smaller than this are rounding noise of a straight line, degrees. */
const STRAIGHT = 1e-4;

export function tubeBodies(context: CurveContext, line: Line, entity: string, placed: Affine): Body[] | undefined {
  switch (entity) {
    case 'IFCSWEPTDISKSOLID':
    case 'IFCSWEPTDISKSOLIDPOLYGONAL': {
      const path = filleted(directrix(context, line), (num(line.FilletRadius) ?? 0) * context.mm, context);
      return swept(path, diskProfile(isStraight(path) ? context : forMesh(context), line), X, placed);
    }
    case 'IFCSURFACECURVESWEPTAREASOLID': {
      // Which way the profile is turned makes no difference to a circle; the rest is left to web-ifc.
      const path = directrix(context, line);
      const profiles = readProfiles(isStraight(path) ? context : forMesh(context), ref(line.SweptArea));
      const [profile] = profiles ?? [];
      if (profiles?.length !== 1 || !profile || !isRound(profile)) return undefined;
      const at = context.placements.axis3(ref(line.Position));
      return swept(
        path.map((p) => applyPoint(at, p)),
        profile,
        X,
        placed,
      );
    }
    case 'IFCFIXEDREFERENCESWEPTAREASOLID': {
      const path = directrix(context, line);
      const reference = context.placements.direction(ref(line.FixedReference));
      const profiles = readProfiles(isStraight(path) ? context : forMesh(context), ref(line.SweptArea));
      if (!reference || !profiles) throw new UnreadableGeometry(`its ${entity} can not be drawn`);
      const at = context.placements.axis3(ref(line.Position));
      const toProduct = (p: Vec3): Vec3 => applyPoint(at, p);
      const turned = applyDirection(at, reference);
      // Square to the whole curve, the reference turns with the mitres by itself; else the profile would twist.
      const legs = path.slice(1).map((p, i) => unit(sub(p, path[i]!)));
      if (!isStraight(path) && legs.some((leg) => Math.abs(dot(leg, reference)) > 1e-6))
        throw new UnreadableGeometry(`its ${entity} twists, which is not read`);
      return profiles.flatMap((profile) => swept(path.map(toProduct), profile, turned, placed));
    }
    default:
      return undefined;
  }
}

const isRound = ({ outline, voids }: Profile): boolean =>
  [outline, ...voids].every((loop) => {
    const round = circleOf(loop);
    return round !== null && Math.hypot(...round.centre) < 1e-6 * round.radius;
  });

function diskProfile(context: CurveContext, line: Line): Profile {
  const [radius, inner] = [(num(line.Radius) ?? Number.NaN) * context.mm, (num(line.InnerRadius) ?? 0) * context.mm];
  if (!(radius > 0)) throw new UnreadableGeometry('its swept disk has no radius');
  const round = (r: number) => circle(2 * r, [0, 0], context.chords);
  return { outline: round(radius), voids: inner > 0 && inner < radius ? [round(inner)] : [] };
}

/** The part of the directrix between the start and end parameters, without repeated points. */
function directrix(context: CurveContext, line: Line): Vec3[] {
  const curve = readCurve(forMesh(context), ref(line.Directrix) ?? 0);
  if (!curve || !Number.isFinite(curve.to - curve.from))
    throw new UnreadableGeometry('the curve that its solid is swept along is of a kind that is not read');
  const [from, to] = range(curve, num(line.StartParam), num(line.EndParam));
  const points = curve.points(from, to);
  const path = points.filter((p, i) => i === 0 || distance(p, points[i - 1]!) > REPEATED);
  if (path.length < 2 || !path.flat().every(Number.isFinite))
    throw new UnreadableGeometry('the curve that its solid is swept along has no length');
  return withoutStraightJoints(path);
}

/**
 * IFC2X3 wants the parameters, and its composite curves are written by many as from 0 to 1 or to the number of segments
 * where the whole is meant.
 */
function range(curve: Curve, start: number | undefined, end: number | undefined): readonly [number, number] {
  const { from, to, segments } = curve;
  const slack = 1e-6 * (to - from);
  if (segments !== undefined && (start ?? 0) === 0 && (end === 1 || end === segments)) return [from, to];
  const [a, b] = [start ?? from, end ?? to];
  if (a < from - slack || b > to + slack || b <= a)
    throw new UnreadableGeometry('the start and end of its swept disk do not lie on its curve');
  return [Math.max(a, from), Math.min(b, to)];
}

const isStraight = (path: readonly Vec3[]): boolean => path.length === 2;

function withoutStraightJoints(path: readonly Vec3[]): Vec3[] {
  return path.filter((p, i) => {
    const [before, after] = [path[i - 1], path[i + 1]];
    if (!before || !after) return true;
    const [u, v] = [sub(p, before), sub(after, p)];
    return lineAngle(u, v) > STRAIGHT || dot(u, v) < 0;
  });
}

/** Corners rounded with one radius, as polygonal swept disks ask. */
function filleted(path: readonly Vec3[], radius: number, context: CurveContext): readonly Vec3[] {
  if (!(radius > 0)) return path;
  const chords = forMesh(context).chords!;
  return path.flatMap((p, i) => {
    const [before, after] = [path[i - 1], path[i + 1]];
    if (!before || !after) return [p];
    const [u, v] = [unit(sub(p, before)), unit(sub(after, p))];
    const angle = Math.acos(Math.max(-1, Math.min(1, dot(u, v))));
    const leg = radius * Math.tan(angle / 2);
    if (angle < 1e-6 || leg > distance(p, before) || leg > distance(p, after)) return [p];
    const start = add(p, scale(u, -leg));
    const inward = unit(perpendicularPart(v, u));
    const centre = add(start, scale(inward, radius));
    const steps = chords(radius, angle);
    return Array.from({ length: steps + 1 }, (_, k): Vec3 => {
      const t = (angle * k) / steps;
      return add(centre, add(scale(inward, -radius * Math.cos(t)), scale(u, radius * Math.sin(t))));
    });
  });
}

/** @param hint the profile's x at the start, as near as the curve allows */
function swept(path: readonly Vec3[], profile: Profile, hint: Vec3, placed: Affine): Body[] {
  const first = unit(sub(path[1]!, path[0]!));
  const side = Math.abs(dot(hint, first)) > 1 - 1e-9 ? Z : hint;
  if (isStraight(path)) {
    const frame = frameAlong(path[0]!, first, side);
    const prism = movedPrism({ kind: 'prism', frame, ...profile, sweep: sub(path[1]!, path[0]!) }, placed);
    if (prism) return [prism];
  }
  const start = frameAlong(path[0]!, first, side);
  const lift = (p: Profile['outline']) => p.map((q) => fromPlane(start, q));
  let ring: Ring = { outline: lift(profile.outline), voids: profile.voids.map(lift) };
  const rings = [ring];
  for (let i = 1; i < path.length; i++) {
    const along = unit(sub(path[i]!, path[i - 1]!));
    const next = path[i + 1] ? unit(sub(path[i + 1]!, path[i]!)) : along;
    const normal = unit(add(along, next));
    if (length(add(along, next)) < 2 * Math.cos(((SHARPEST / 2) * Math.PI) / 180))
      throw new UnreadableGeometry('the curve that its solid is swept along turns back on itself');
    const carry = (p: Vec3): Vec3 => add(p, scale(along, dot(sub(path[i]!, p), normal) / dot(along, normal)));
    ring = { outline: ring.outline.map(carry), voids: ring.voids.map((v) => v.map(carry)) };
    rings.push(ring);
  }
  return [movedMesh(loft(profile, rings), placed)];
}
