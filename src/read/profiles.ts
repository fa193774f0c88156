/** Profiles of swept solids as exact outlines, millimetres, in the profile's own plane. */
import { type Affine, applyPoint } from '../geometry/frame.js';
import { area, counterClockwise, circle as fullCircle, rectangle } from '../geometry/polygon.js';
import type { Polygon, Vec2 } from '../model.js';
import { type CurveContext, outlineOf } from './curves.js';
import type { Line } from './step-file.js';
import { UnreadableGeometry } from './unreadable.js';
import { num, ref, refs } from './value.js';

/** All parts of a profile: one, but for composite profiles. Undefined as with {@link readProfile}. */
export function readProfiles(context: CurveContext, id: number | undefined, depth = 0): Profile[] | undefined {
  const line = id === undefined ? undefined : context.file.line(id);
  if (line && context.file.entity(id!) === 'IFCCOMPOSITEPROFILEDEF' && depth < DEEPEST) {
    const parts = refs(line.Profiles).map((part) => readProfiles(context, part, depth + 1));
    return parts.every((part) => part !== undefined) ? parts.flat() : undefined;
  }
  const profile = readProfile(context, id);
  return profile && [profile];
}

/** Deepest nesting of profiles in profiles that is followed. */
const DEEPEST = 4;

export interface Profile {
  readonly outline: Polygon;
  readonly voids: readonly Polygon[];
}

/** Undefined for kinds that we leave to tessellation (steel sections and the like, self-crossing outlines). */
export function readProfile(context: CurveContext, id: number | undefined, depth = 0): Profile | undefined {
  const line = id === undefined ? undefined : context.file.line(id);
  const { profiles } = context;
  const sizes = context.chords || !profiles || !line ? undefined : sizesOf(line);
  if (!sizes) return drawnProfile(context, id, depth);
  const key = `${context.file.entity(id!)} ${sizes}`;
  const known = profiles!.get(key) ?? drawnProfile(context, id, depth);
  if (known) profiles!.set(key, known);
  return known;
}

/** All that a profile is drawn from, where that is its place and sizes alone. */
function sizesOf(line: Line): string | undefined {
  const [, , position, ...sizes] = line.values;
  const isParametric = sizes.length > 0 && sizes.every((size) => size === null || typeof size === 'number');
  return isParametric && (position === null || ref(position)) ? `${ref(position)} ${sizes.join()}` : undefined;
}

function drawnProfile(context: CurveContext, id: number | undefined, depth = 0): Profile | undefined {
  const { file, placements, mm } = context;
  const circle = (diameter: number) => fullCircle(diameter, [0, 0], context.chords);
  const roundedRectangle = (w: number, h: number, r: number) => withCorners(w, h, r, circle);
  const line = id === undefined ? undefined : file.line(id);
  if (!line || depth > DEEPEST) return undefined;
  const entity = file.entity(id!);
  const size = (x: unknown): number => {
    const given = num(x);
    // web-ifc would draw something of it.
    if (given === undefined && x !== null) throw new UnreadableGeometry('its profile has a size that is no number');
    return (given ?? Number.NaN) * mm;
  };
  const placed = (outline: Polygon, voids: readonly Polygon[] = []): Profile | undefined =>
    finite(transformed({ outline, voids }, placements.axis3(ref(line.Position))));

  switch (entity) {
    case 'IFCRECTANGLEPROFILEDEF':
      return placed(rectangle(size(line.XDim), size(line.YDim)));
    case 'IFCROUNDEDRECTANGLEPROFILEDEF':
      return placed(roundedRectangle(size(line.XDim), size(line.YDim), size(line.RoundingRadius)));
    case 'IFCRECTANGLEHOLLOWPROFILEDEF': {
      const [x, y, wall] = [size(line.XDim), size(line.YDim), size(line.WallThickness)];
      const outer = roundedRectangle(x, y, (num(line.OuterFilletRadius) ?? 0) * mm);
      const isHollow = wall > 0 && 2 * wall < Math.min(x, y);
      const inner = () => roundedRectangle(x - 2 * wall, y - 2 * wall, (num(line.InnerFilletRadius) ?? 0) * mm);
      return placed(outer, isHollow ? [inner()] : []);
    }
    case 'IFCCIRCLEPROFILEDEF':
      return placed(circle(2 * size(line.Radius)));
    case 'IFCCIRCLEHOLLOWPROFILEDEF': {
      const inside = size(line.Radius) - size(line.WallThickness);
      return placed(
        circle(2 * size(line.Radius)),
        inside > 0 && size(line.WallThickness) > 0 ? [circle(2 * inside)] : [],
      );
    }
    case 'IFCELLIPSEPROFILEDEF': {
      const [a, b] = [size(line.SemiAxis1), size(line.SemiAxis2)];
      return placed(
        circle(2 * Math.max(a, b)).map(([x, y]): Vec2 => [(x * a) / Math.max(a, b), (y * b) / Math.max(a, b)]),
      );
    }
    case 'IFCTRAPEZIUMPROFILEDEF': {
      const [bottom, top, y, offset] = [
        size(line.BottomXDim),
        size(line.TopXDim),
        size(line.YDim),
        size(line.TopXOffset),
      ];
      const left = offset - bottom / 2;
      return placed([
        [-bottom / 2, -y / 2],
        [bottom / 2, -y / 2],
        [left + top, y / 2],
        [left, y / 2],
      ]);
    }
    case 'IFCARBITRARYCLOSEDPROFILEDEF':
    case 'IFCARBITRARYPROFILEDEFWITHVOIDS': {
      const outline = outlineOf(context, ref(line.OuterCurve));
      const voids = refs(line.InnerCurves).map((curve) => outlineOf(context, curve));
      return outline && voids.every((v) => v !== undefined)
        ? finite({ outline: counterClockwise(outline), voids: (voids as Polygon[]).map(counterClockwise) })
        : undefined;
    }
    case 'IFCDERIVEDPROFILEDEF':
    case 'IFCMIRROREDPROFILEDEF': {
      const parent = readProfile(context, ref(line.ParentProfile), depth + 1);
      const mirror = { origin: [0, 0, 0], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;
      const map = entity === 'IFCMIRROREDPROFILEDEF' ? mirror : placements.operator(ref(line.Operator));
      return parent && transformed(parent, map);
    }
    default:
      return undefined;
  }
}

function transformed(profile: Profile, map: Affine): Profile {
  const move = (p: Polygon): Polygon =>
    counterClockwise(
      p.map(([x, y]): Vec2 => {
        const q = applyPoint(map, [x, y, 0]);
        return [q[0], q[1]];
      }),
    );
  return { outline: move(profile.outline), voids: profile.voids.map(move) };
}

function withCorners(width: number, height: number, radius: number, circle: (diameter: number) => Polygon): Polygon {
  const r = Math.min(radius, width / 2, height / 2);
  if (!(r > 0)) return rectangle(width, height);
  const corner = circle(2 * r); // starts at +x, counter-clockwise, a multiple of four vertices
  const quarter = corner.length / 4;
  const [dx, dy] = [width / 2 - r, height / 2 - r];
  const centres: Vec2[] = [
    [dx, dy],
    [-dx, dy],
    [-dx, -dy],
    [dx, -dy],
  ];
  return centres.flatMap(([cx, cy], q) =>
    Array.from({ length: quarter + 1 }, (_, i): Vec2 => {
      const p = corner[(q * quarter + i) % corner.length]!;
      return [cx + p[0], cy + p[1]];
    }),
  );
}

/** Profiles smaller than this enclose nothing, mm². */
const LEAST_AREA = 1;

function finite(profile: Profile): Profile | undefined {
  const loops = [profile.outline, ...profile.voids];
  if (!loops.every((p) => p.length > 2 && p.every((q) => q.every(Number.isFinite)))) return undefined;
  if (area(profile.outline) < LEAST_AREA) throw new UnreadableGeometry('its profile encloses no area');
  return profile;
}
