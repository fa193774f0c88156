/** Where one stands to look, what is in the picture and what is cut away. Inner frame, millimetres. */
import {
  add,
  cross,
  dot,
  length,
  negate,
  perpendicularPart,
  scale,
  sub,
  unit,
  X,
  Y,
  Z,
} from '../../src/geometry/vector.js';
import type { Vec2, Vec3 } from '../../src/model.js';
import type { ModelView, Side } from '../state/state.js';
import type { Bounds } from './elements.js';
import { middleOfRim, onFace, outwards, type Place } from './place.js';

/** A camera by what it looks at. In parallel projection the picture's height is `2 halfHeight`; so it is in perspective at the target. */
export interface Pose {
  readonly target: Vec3;
  /** Unit; the way that one looks. */
  readonly direction: Vec3;
  /** Unit, square to the direction. */
  readonly up: Vec3;
  readonly halfHeight: number;
  readonly perspective: boolean;
  /** How far before and behind the target something is drawn. */
  readonly reach: readonly [number, number];
}

/** What lies on the side that `outwards` points to is cut away. */
export interface Cut {
  readonly at: Vec3;
  readonly outwards: Vec3;
}

export interface Standpoint {
  readonly pose: Pose;
  readonly cut: Cut | null;
}

/** What is seen round a rim, mm: about three metres in all, with its neighbours. */
const AROUND = 900;
/** How far into what is behind the face one looks. */
const BEHIND = 3000;
/** The face itself is kept. */
const BEFORE_FACE = 1;
/** Half the angle of sight in perspective. */
export const HALF_VIEW = (20 * Math.PI) / 180;

/** @param aspect width over height of the picture */
export function standpointFor(place: Place, view: ModelView, side: Side, aspect: number): Standpoint {
  const out = outwards(place, side);
  const { x, y } = place.frame;
  const { min, max } = place.rim;
  const [width, height] = [max[0] - min[0], max[1] - min[1]];
  const middle = middleOfRim(place);
  const seen = (w: number, h: number): number => Math.max(h / 2 + AROUND, (w / 2 + AROUND) / aspect);
  const common = { perspective: false, reach: [BEHIND, BEHIND] as const };
  switch (view) {
    case 'front':
    case 'otherSide': {
      const pose = { ...common, target: onFace(place, side, middle), direction: negate(out), up: y };
      const cut = { at: onFace(place, side, middle, BEFORE_FACE), outwards: out };
      return { pose: { ...pose, halfHeight: seen(width, height) }, cut };
    }
    case 'along': {
      // Beside the duct, which runs from left to right; what stands before it is cut away at the rim.
      const towards = side === 'A' ? x : negate(x);
      const near = side === 'A' ? min[0] : max[0];
      const target = add(place.frame.origin, scale(y, middle[1]));
      const pose = { ...common, target: add(target, scale(x, middle[0])), direction: towards, up: y };
      const cut = { at: add(target, scale(x, near - Math.sign(dot(towards, x)) * BESIDE)), outwards: negate(towards) };
      return { pose: { ...pose, halfHeight: seen(place.thickness, height) }, cut };
    }
    case 'above': {
      const isFloor = Math.abs(dot(place.frame.z, Z)) > Math.SQRT1_2;
      if (isFloor) {
        const top: Side = dot(outwards(place, 'A'), Z) > 0 ? 'A' : 'B';
        return standpointFor(place, 'front', top, aspect);
      }
      const target = add(add(place.frame.origin, scale(x, middle[0])), scale(y, middle[1]));
      const up = unit(perpendicularPart(negate(out), Z));
      const pose = { ...common, target, direction: negate(Z), up };
      const cut = { at: add(target, scale(Z, height / 2 + BESIDE)), outwards: Z };
      return { pose: { ...pose, halfHeight: seen(width, place.thickness) }, cut };
    }
    case 'free': {
      const target = onFace(place, side, middle);
      const ahead = negate(out);
      const isFloor = Math.abs(dot(ahead, Z)) > Math.SQRT1_2;
      // From the side and above; over a floor from the south.
      const aside = scale(cross(ahead, y), -0.45);
      const direction = unit(add(ahead, add(aside, isFloor ? scale(y, 0.8) : scale(Z, -0.35))));
      const up = unit(perpendicularPart(Z, direction));
      const pose = { target, direction, up, halfHeight: seen(width, height), perspective: true, reach: FREE_REACH };
      return { pose, cut: null };
    }
  }
}
/** mm between a rim and where it is cut beside it: less than the gaps of most openings. */
const BESIDE = 60;
const FREE_REACH = [40_000, 40_000] as const;

/** The whole building from above the south-west, standing still. */
export function overview({ min, max }: Bounds, view: ModelView, aspect: number): Standpoint {
  const target = scale(add(min, max), 0.5);
  const diagonal = Math.max(length(sub(max, min)), 1000);
  const isPlan = view === 'above';
  const direction = isPlan ? negate(Z) : unit([1, 1, -0.9]);
  const up = isPlan ? Y : unit(perpendicularPart(Z, direction));
  const right = cross(direction, up);
  const half = (axis: Vec3): number =>
    AXES.reduce<number>((sum, i) => sum + (Math.abs(axis[i]) * (max[i] - min[i])) / 2, 0);
  const halfHeight = 1.04 * Math.max(half(up), half(right) / aspect, 500);
  return {
    pose: { target, direction, up, halfHeight, perspective: view === 'free', reach: [diagonal, diagonal] },
    cut: null,
  };
}

const AXES = [0, 1, 2] as const;

/** In Free: about the vertical, and up or down, short of looking straight along it. */
export function turned(pose: Pose, about: number, over: number): Pose {
  const { direction: d } = pose;
  const heading = Math.atan2(d[1], d[0]) + about;
  const rise = Math.min(STEEPEST, Math.max(-STEEPEST, Math.asin(Math.max(-1, Math.min(1, d[2]))) + over));
  const direction: Vec3 = [Math.cos(heading) * Math.cos(rise), Math.sin(heading) * Math.cos(rise), Math.sin(rise)];
  return { ...pose, direction, up: unit(perpendicularPart(Z, direction)) };
}
const STEEPEST = (85 * Math.PI) / 180;

/** @param right, up in mm of the picture */
export const moved = (pose: Pose, right: number, up: number): Pose => ({
  ...pose,
  target: add(pose.target, add(scale(cross(pose.direction, pose.up), right), scale(pose.up, up))),
});

export const nearer = (pose: Pose, by: number): Pose => ({
  ...pose,
  halfHeight: Math.min(FURTHEST, Math.max(NEAREST, pose.halfHeight / by)),
});
const [NEAREST, FURTHEST] = [20, 1_000_000];

export const eyeDistance = ({ halfHeight, perspective, reach }: Pose): number =>
  perspective ? halfHeight / Math.tan(HALF_VIEW) : reach[0];

export const eyeOf = (pose: Pose): Vec3 => sub(pose.target, scale(pose.direction, eyeDistance(pose)));

/** Where a point is on a picture of that many pixels, y downwards; undefined behind the eye. */
export function onPicture(pose: Pose, [width, height]: Vec2, p: Vec3): Vec2 | undefined {
  const d = sub(p, pose.target);
  const depth = pose.perspective ? dot(d, pose.direction) + eyeDistance(pose) : 1;
  if (depth <= 0) return undefined;
  const share = pose.perspective ? eyeDistance(pose) / depth : 1;
  const scaled = ((height / 2) * share) / pose.halfHeight;
  return [width / 2 + dot(d, cross(pose.direction, pose.up)) * scaled, height / 2 - dot(d, pose.up) * scaled];
}

export interface Ray {
  readonly from: Vec3;
  /** Unit. */
  readonly along: Vec3;
}

/** Of sight through a pixel. */
export function rayThrough(pose: Pose, [width, height]: Vec2, [px, py]: Vec2): Ray {
  const scaled = (2 * pose.halfHeight) / height;
  const [right, up] = [(px - width / 2) * scaled, (height / 2 - py) * scaled];
  const onTarget = add(pose.target, add(scale(cross(pose.direction, pose.up), right), scale(pose.up, up)));
  if (!pose.perspective) return { from: sub(onTarget, scale(pose.direction, pose.reach[0])), along: pose.direction };
  const from = eyeOf(pose);
  return { from, along: unit(sub(onTarget, from)) };
}

/** Between two poses of the same projection; `share` 0 to 1. */
export function between(a: Pose, b: Pose, share: number): Pose {
  const mix = (p: Vec3, q: Vec3): Vec3 => add(scale(p, 1 - share), scale(q, share));
  const direction = unit(mix(a.direction, b.direction));
  const up = unit(perpendicularPart(mix(a.up, b.up), direction));
  // Opposite ways have no middle: one is simply there.
  if (length(direction) < 0.5 || length(up) < 0.5 || dot(a.direction, b.direction) < -0.9) return b;
  return {
    ...b,
    target: mix(a.target, b.target),
    direction,
    up,
    halfHeight: a.halfHeight * (b.halfHeight / a.halfHeight) ** share,
  };
}

export const isCut = (cut: Cut | null, p: Vec3): boolean => cut !== null && dot(sub(p, cut.at), cut.outwards) > 0;

/** Some direction to the right, for who has no barrier. */
export const WORLD_AXES = { right: X, up: Z, normal: Y } as const;
