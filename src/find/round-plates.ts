/**
 * Curved walls. A duct passes one where its line meets the cylinder half-way between two round faces: the plate there
 * has the wall's own thickness and the normal of that very place. Its cuts follow the curve: they are made on cylinders,
 * and seen on the plane that touches the wall where the duct passes.
 */

import { onceForEach } from '../collect.js';
import { raised } from '../geometry/frame.js';
import { clip, contains, counterClockwise } from '../geometry/polygon.js';
import type { RoundFaces } from '../geometry/round-faces.js';
import { cutBody, cutMesh, type Region } from '../geometry/section.js';
import { add, dot, length2, scale, sub2, X } from '../geometry/vector.js';
import type { Body, Frame, Mesh, Polygon, Prism, Vec2, Vec3 } from '../model.js';
import { FACE_INSET } from '../tolerances.js';
import type { Curve, Plate } from './plates.js';

/** How far round from the crossing a curved wall is looked at, radians: beyond it turns out of sight. */
const SIGHT = (80 * Math.PI) / 180;
/** Crossings nearer than this are one, radians. */
const LEAST_ARC = 1e-9;
/** Steps in which the rim of a cut is carried to the plane, radians. */
const RIM_STEP = (2 * Math.PI) / 180;

/** Where the line meets the cylinder; none for lines that miss it or run along the axis. */
export function meetings({ centre }: RoundFaces, radius: number, at: Vec3, direction: Vec3): (Vec3 | undefined)[] {
  const d: Vec2 = [direction[0], direction[1]];
  const p = sub2([at[0], at[1]], centre);
  const a = d[0] ** 2 + d[1] ** 2;
  const b = p[0] * d[0] + p[1] * d[1];
  const root = b * b - a * (p[0] ** 2 + p[1] ** 2 - radius ** 2);
  if (a < 1e-12 || root < 0) return [undefined, undefined];
  return [-1, 1].map((sign) => add(at, scale(direction, (-b + sign * Math.sqrt(root)) / a)));
}

/** Unit, away from the axis. */
export function radial({ centre }: Pick<RoundFaces, 'centre'>, [x, y]: Vec3): Vec3 {
  const d = sub2([x, y], centre);
  const n = length2(d);
  return n > 0 ? [d[0] / n, d[1] / n, 0] : [1, 0, 0];
}

/** The cut at a height over the plate, on the cylinder through that height, in the coordinates of the plate's plane. */
export function cutRound(bodies: readonly Body[], { frame, thickness }: Plate, curve: Curve, s: number): Region {
  // Facets lie within the true circle by the chord error, so the face itself is looked at from that deep.
  const deepest = Math.max(0, thickness / 2 - FACE_INSET - 1.5 * curve.chordError);
  const within = Math.max(-deepest, Math.min(deepest, s));
  const cylinder: Cylinder = {
    axis: curve.centre,
    radius: curve.radius + within * curve.outward,
    outward: scale(frame.z, curve.outward),
  };
  const regions = bodies.map((body) => {
    if (body.kind === 'mesh') return onPlane(cutDeveloped(body, cylinder, curve.radius), cylinder, frame);
    return isUpright(body) ? onPlane(cutUpright(body, cylinder), cylinder, frame) : cutBody(body, raised(frame, s));
  });
  return {
    outers: regions.flatMap((r) => r.outers),
    holes: regions.flatMap((r) => r.holes),
    bridged: regions.reduce((sum, r) => sum + r.bridged, 0),
  };
}

interface Cylinder {
  readonly axis: Vec2;
  readonly radius: number;
  /** From the axis to the crossing, unit; angles are counted from here. */
  readonly outward: Vec3;
}

/** In (angle, height). */
type Developed = Region;

const isUpright = ({ sweep, frame }: Prism): boolean =>
  Math.hypot(sweep[0], sweep[1]) < 1e-9 * Math.abs(sweep[2]) && Math.abs(frame.z[2]) > 1 - 1e-12;

const angleOf = ({ axis, outward }: Pick<Cylinder, 'axis' | 'outward'>, [x, y]: Vec2): number => {
  const d = sub2([x, y], axis);
  return Math.atan2(outward[0] * d[1] - outward[1] * d[0], outward[0] * d[0] + outward[1] * d[1]);
};

function cutUpright(body: Prism, cylinder: Cylinder): Developed {
  const { frame, sweep } = body;
  const [low, high] = [frame.origin[2], frame.origin[2] + sweep[2]].sort((a, b) => a - b) as [number, number];
  const zero = Math.atan2(cylinder.outward[1], cylinder.outward[0]);
  const seen = arcsIn(body, cylinder)
    .flatMap((arc) => inSight(arc, zero))
    .filter(([from, to]) => to - from >= LEAST_ARC)
    .sort(([a], [b]) => a - b);
  const outers = seen.map(
    ([from, to]): Polygon => [
      [from, low],
      [to, low],
      [to, high],
      [from, high],
    ],
  );
  return { outers, holes: [], bridged: 0 };
}

/** What of an arc lies in sight of an angle, counted from there: one that goes most of the way round may come back into it. */
function inSight([start, end]: Arc, zero: number): Arc[] {
  const round = 2 * Math.PI;
  if (end - start > round - LEAST_ARC) return [[-SIGHT, SIGHT]];
  const first = start - zero - Math.round((start - zero) / round) * round;
  return [first, first - round].map((from): Arc => [Math.max(-SIGHT, from), Math.min(SIGHT, from + end - start)]);
}

/** Radians. */
type Arc = readonly [from: number, to: number];
/** A wall is cut on one cylinder at hundreds of places: once for each body, by axis and radius. */
const arcsKnown = onceForEach((_: Prism) => new Map<string, readonly Arc[]>());

/** Where the circle is in the profile, as angles about its axis, counted from x. */
function arcsIn(body: Prism, { axis, radius }: Cylinder): readonly Arc[] {
  const known = arcsKnown(body);
  const key = [...axis, radius].join();
  const found = known.get(key) ?? arcsOf(body, { axis, radius, outward: X });
  known.set(key, found);
  return found;
}

/** Exact: the circle enters and leaves the profile at its edges, and between them is in it or not. */
function arcsOf({ frame, outline, voids }: Prism, circle: Cylinder): Arc[] {
  const plan = (p: Polygon): Polygon =>
    p.map(
      ([u, v]): Vec2 => [
        frame.origin[0] + frame.x[0] * u + frame.y[0] * v,
        frame.origin[1] + frame.x[1] * u + frame.y[1] * v,
      ],
    );
  const [outer, inner] = [plan(outline), voids.map(plan)];
  const angles = [outer, ...inner].flatMap(edgesOf).flatMap((edge) => crossingAngles(edge, circle));
  angles.sort((a, b) => a - b);
  const [first = -Math.PI] = angles;
  return [...angles, first + 2 * Math.PI]
    .map((to, i): Arc => [angles[i - 1] ?? first, to])
    .filter(([from, to]) => to - from >= LEAST_ARC)
    .filter(([from, to]) => {
      const middle = planPoint(circle, (from + to) / 2);
      return contains(outer, middle) && !inner.some((hole) => contains(hole, middle));
    });
}

const edgesOf = (p: Polygon): (readonly [Vec2, Vec2])[] => p.map((a, i) => [a, p[(i + 1) % p.length]!] as const);

function crossingAngles([a, b]: readonly [Vec2, Vec2], cylinder: Cylinder): number[] {
  const [p, d] = [sub2(a, cylinder.axis), sub2(b, a)];
  const [dd, pd, pp] = [d[0] ** 2 + d[1] ** 2, p[0] * d[0] + p[1] * d[1], p[0] ** 2 + p[1] ** 2];
  const root = pd * pd - dd * (pp - cylinder.radius ** 2);
  if (dd === 0 || root <= 0) return [];
  return [-1, 1]
    .map((sign) => (-pd + sign * Math.sqrt(root)) / dd)
    .filter((t) => t >= 0 && t <= 1)
    .map((t) => angleOf(cylinder, [a[0] + d[0] * t, a[1] + d[1] * t]));
}

const planPoint = ({ axis, radius, outward }: Cylinder, angle: number): Vec2 => {
  const [c, s] = [radius * Math.cos(angle), radius * Math.sin(angle)];
  return [axis[0] + outward[0] * c - outward[1] * s, axis[1] + outward[1] * c + outward[0] * s];
};

/**
 * The mesh unrolled: corner by corner into (arc length, height, distance from the middle cylinder), where round faces are
 * flat, and cut there. What lies behind is pressed together at the edge of sight, so that outlines close.
 */
function cutDeveloped({ positions, triangles }: Mesh, cylinder: Cylinder, middle: number): Developed {
  const edge = SIGHT * 1.2;
  const flat = new Float64Array(positions.length);
  const angles = new Float64Array(positions.length / 3);
  for (let i = 0; i < angles.length; i++) {
    const p: Vec2 = [positions[3 * i]!, positions[3 * i + 1]!];
    angles[i] = angleOf(cylinder, p);
    flat[3 * i] = Math.max(-edge, Math.min(edge, angles[i]!)) * middle;
    flat[3 * i + 1] = positions[3 * i + 2]!;
    flat[3 * i + 2] = length2(sub2(p, cylinder.axis)) - middle;
  }
  // A triangle across the far side of the axis would reach from one edge of sight to the other.
  const kept = Array.from({ length: triangles.length / 3 }, (_, f) => [...triangles.subarray(3 * f, 3 * f + 3)])
    .filter((t) => Math.max(...t.map((v) => angles[v]!)) - Math.min(...t.map((v) => angles[v]!)) < Math.PI)
    .flat();
  const developed: Mesh = { kind: 'mesh', positions: flat, triangles: Uint32Array.from(kept) };
  const height = cylinder.radius - middle;
  const plane: Frame = { origin: [0, 0, height], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };
  const toAngle = (p: Polygon): Polygon => p.map(([u, v]): Vec2 => [u / middle, v]);
  const { outers, holes, bridged } = cutMesh(developed, plane, edge * middle);
  return { outers: outers.map(toAngle), holes: holes.map(toAngle), bridged };
}

function onPlane({ outers, holes, bridged }: Developed, cylinder: Cylinder, frame: Frame): Region {
  const { radius, outward } = cylinder;
  // Sideways: along the wall where one turns counter-clockwise about the axis.
  const turn: Vec3 = [-outward[1], outward[0], 0];
  const right = dot(turn, frame.x);
  const up = frame.y[2];
  const carry = (p: Polygon): Polygon => {
    const seen = clip(clip(p, 1, 0, SIGHT), -1, 0, SIGHT);
    return counterClockwise(
      alongAngle(seen).map(([angle, z]): Vec2 => [right * radius * Math.sin(angle), up * (z - frame.origin[2])]),
    );
  };
  const isSizable = (p: Polygon) => p.length > 2;
  return { outers: outers.map(carry).filter(isSizable), holes: holes.map(carry).filter(isSizable), bridged };
}

/** Extra points so that no edge turns by more than one step. */
function alongAngle(p: Polygon): Polygon {
  return p.flatMap((a, i) => {
    const b = p[(i + 1) % p.length]!;
    const n = Math.max(1, Math.ceil(Math.abs(b[0] - a[0]) / RIM_STEP));
    return Array.from({ length: n }, (_, k): Vec2 => [a[0] + ((b[0] - a[0]) * k) / n, a[1] + ((b[1] - a[1]) * k) / n]);
  });
}
