/**
 * Swept solids: straight ones exactly, as prisms; tapered, revolved and bent ones as meshes whose vertices lie on the
 * true surface and whose chords keep within SWEPT_SAGITTA of it. web-ifc draws some of them wrong or not at all.
 */
import { type Affine, applyDirection, applyPoint } from '../geometry/frame.js';
import { loft, type Ring } from '../geometry/loft.js';
import { movedMesh, movedPrism } from '../geometry/mesh.js';
import { chordsFor } from '../geometry/polygon.js';
import { add, cross, dot, length, perpendicularPart, scale, sub, Z } from '../geometry/vector.js';
import type { Body, Polygon, Vec3 } from '../model.js';
import { SWEPT_SAGITTA } from '../tolerances.js';
import type { CurveContext } from './curves.js';
import { type Profile, readProfiles } from './profiles.js';
import type { Line } from './step-file.js';
import { UnreadableGeometry } from './unreadable.js';
import { num, ref } from './value.js';

/** Arcs as coarse as in the meshes they end up in. */
export const forMesh = (context: CurveContext): CurveContext => ({
  ...context,
  chords: (radius, angle) => chordsFor(radius, angle, SWEPT_SAGITTA),
});

/** Bodies of one swept solid; undefined where its profile is of a kind that is left to web-ifc. */
export function sweptBodies(context: CurveContext, line: Line, entity: string, placed: Affine): Body[] | undefined {
  switch (entity) {
    case 'IFCEXTRUDEDAREASOLID':
      return extrusion(context, line, placed);
    case 'IFCEXTRUDEDAREASOLIDTAPERED':
      return tapered(context, line, placed);
    case 'IFCREVOLVEDAREASOLID':
      return revolved(context, line, placed);
    default:
      return undefined;
  }
}

function extrusion(context: CurveContext, line: Line, placed: Affine): Body[] | undefined {
  const { placements } = context;
  const profiles = readProfiles(context, ref(line.SweptArea));
  const sweep = sweepOf(context, line);
  if (!profiles) return undefined;
  const at = placements.axis3(ref(line.Position));
  const along = applyDirection(at, sweep);
  return profiles.map(
    (profile) =>
      movedPrism({ kind: 'prism', frame: at, ...profile, sweep: along }, placed) ??
      movedMesh(straightLoft(profile, profile, at, along), placed),
  );
}

/** The direction is a direction: its length does not scale the depth. */
function sweepOf({ placements, mm }: CurveContext, line: Line): Vec3 {
  const depth = (num(line.Depth) ?? Number.NaN) * mm;
  const sweep = scale(placements.direction(ref(line.ExtrudedDirection)) ?? Z, depth);
  if (!(depth > 0)) throw new UnreadableGeometry('its extrusion has no depth');
  if (Math.abs(sweep[2]) < 1e-9 * depth) throw new UnreadableGeometry('its extrusion runs along its own profile');
  return sweep;
}

function straightLoft(from: Profile, to: Profile, at: Affine, sweep: Vec3) {
  const ring = (profile: Profile, by: Vec3): Ring => {
    const lift = (p: Polygon) => p.map(([x, y]) => add(applyPoint(at, [x, y, 0]), by));
    return { outline: lift(profile.outline), voids: profile.voids.map(lift) };
  };
  return loft(from, [ring(from, [0, 0, 0]), ring(to, sweep)]);
}

/** Chords of a full turn in tapered solids: both ends must have equally many, whatever their radius. */
const TAPER_CHORDS = 192;

function tapered(context: CurveContext, line: Line, placed: Affine): Body[] | undefined {
  const even: CurveContext = {
    ...context,
    chords: (_, angle) => Math.max(1, Math.round((TAPER_CHORDS * Math.abs(angle)) / (2 * Math.PI))),
  };
  const [start, end] = [readProfiles(even, ref(line.SweptArea)), readProfiles(even, ref(line.EndSweptArea))];
  const sweep = sweepOf(context, line);
  const [from, to] = [start?.[0], end?.[0]];
  if (start?.length !== 1 || end?.length !== 1 || !from || !to || !isAlike(from, to)) return undefined;
  const loops = ({ outline, voids }: Profile) => [outline, ...voids].flat(2);
  if (loops(from).every((v, i) => Math.abs(v - loops(to)[i]!) < 1e-9)) return extrusion(context, line, placed);
  const at = context.placements.axis3(ref(line.Position));
  return [movedMesh(straightLoft(from, to, at, applyDirection(at, sweep)), placed)];
}

const isAlike = (a: Profile, b: Profile): boolean =>
  a.outline.length === b.outline.length &&
  a.voids.length === b.voids.length &&
  a.voids.every((v, i) => v.length === b.voids[i]!.length);

function revolved(context: CurveContext, line: Line, placed: Affine): Body[] | undefined {
  const { file, placements, angle } = context;
  const profiles = readProfiles(forMesh(context), ref(line.SweptArea));
  if (!profiles) return undefined;
  const turn = (num(line.Angle) ?? Number.NaN) * angle;
  const axis = file.line(ref(line.Axis) ?? 0);
  const origin = placements.point(ref(axis?.Location));
  const about = placements.direction(ref(axis?.Axis)) ?? Z;
  if (!(Math.abs(turn) > 1e-9)) throw new UnreadableGeometry('its revolved solid turns by no angle');
  const at = placements.axis3(ref(line.Position));
  const isClosed = Math.abs(turn) > 2 * Math.PI - 1e-6;
  return profiles.map((profile) => {
    const farthest = Math.max(
      ...profile.outline.map(([x, y]) => length(perpendicularPart(sub([x, y, 0], origin), about))),
    );
    const steps = Math.max(isClosed ? 3 : 1, chordsFor(farthest, turn, SWEPT_SAGITTA));
    const rings = Array.from({ length: isClosed ? steps : steps + 1 }, (_, k): Ring => {
      const t = (turn * k) / steps;
      const place = (p: Polygon) => p.map(([x, y]) => applyPoint(at, rotated([x, y, 0], origin, about, t)));
      return { outline: place(profile.outline), voids: profile.voids.map(place) };
    });
    return movedMesh(loft(profile, rings, isClosed), placed);
  });
}

/** Rodrigues' formula. */
function rotated(p: Vec3, origin: Vec3, axis: Vec3, t: number): Vec3 {
  const d = sub(p, origin);
  const [c, s] = [Math.cos(t), Math.sin(t)];
  const turned = add(add(scale(d, c), scale(cross(axis, d), s)), scale(axis, dot(axis, d) * (1 - c)));
  return add(origin, turned);
}
