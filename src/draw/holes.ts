/** Openings as pictures need them: an outline in the barrier's middle, and how it moves on its way through. */
import { raised } from '../geometry/frame.js';
import { area, bounds, boxCentre, contains } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import type { Body, Frame, Polygon, Vec2 } from '../model.js';
import { CONTACT } from '../tolerances.js';
import type { Cutout } from './raster.js';

export interface Hole {
  /** Where z is 0, in the x, y of the place's frame. */
  readonly outline: Polygon;
  /** Movement along x and y for each mm along z. */
  readonly slope: Vec2;
}

interface Through {
  readonly frame: Frame;
  /** Of the barrier, about the frame's origin. */
  readonly thickness: number;
}

/** The hole whose middle is nearest to a point; undefined where the bodies have none. */
export function holeIn(
  bodies: readonly Body[],
  kind: 'outers' | 'holes',
  { frame, thickness }: Through,
  near: Vec2,
): Hole | undefined {
  // Well inside the faces: the thickness comes rounded.
  const half = thickness / 2 - CONTACT;
  const [middle, front, back] = [0, half, -half].map((z) => nearest(cutBodies(bodies, raised(frame, z))[kind], near));
  const outline = middle ?? front ?? back;
  if (!outline) return undefined;
  if (!front || !back) return { outline: thinned(outline), slope: [0, 0] };
  const [a, b] = [boxCentre([front]), boxCentre([back])];
  return { outline: thinned(outline), slope: [(a[0] - b[0]) / (2 * half), (a[1] - b[1]) / (2 * half)] };
}

function nearest(outlines: readonly Polygon[], near: Vec2): Polygon | undefined {
  const away = (outline: Polygon): number => {
    const [x, y] = boxCentre([outline]);
    return Math.hypot(x - near[0], y - near[1]);
  };
  return [...outlines].sort((a, b) => away(a) - away(b))[0];
}

/** Corners nearer to each other are too many for a picture: arcs come drawn to a hundredth of a millimetre. */
const LEAST_STEP = 15;
const MANY_CORNERS = 24;

function thinned(outline: Polygon): Polygon {
  if (outline.length <= MANY_CORNERS) return outline;
  const kept: Vec2[] = [];
  for (const q of outline) {
    const last = kept.at(-1);
    if (!last || Math.hypot(q[0] - last[0], q[1] - last[1]) >= LEAST_STEP) kept.push(q);
  }
  return kept;
}

/** A little more than the barrier, so that its faces are in the opening too. */
const BEYOND_FACE = 5;
/** An outline that fills its box but for rounding. */
const BOX_SHARE = 0.9999;

/** What of the barrier must not be drawn. */
export function cutoutOf(holes: readonly Hole[], thickness: number): Cutout {
  const half = thickness / 2 + BEYOND_FACE;
  const shapes = holes.map(({ outline, slope }) => {
    const { min, max } = bounds([outline]);
    const isBox = area(outline) > BOX_SHARE * (max[0] - min[0]) * (max[1] - min[1]);
    const [dx, dy] = [Math.abs(slope[0]) * half, Math.abs(slope[1]) * half];
    return { outline, slope, min, max, isBox, dx, dy };
  });
  return {
    touches: (minU, minV, maxU, maxV) =>
      shapes.some(
        ({ min, max, dx, dy }) => maxU > min[0] - dx && minU < max[0] + dx && maxV > min[1] - dy && minV < max[1] + dy,
      ),
    leavesOut(u, v, z) {
      if (z > half || z < -half) return false;
      for (const { outline, slope, min, max, isBox } of shapes) {
        const [x, y] = [u - slope[0] * z, v - slope[1] * z];
        if (x > min[0] && x < max[0] && y > min[1] && y < max[1] && (isBox || contains(outline, [x, y]))) return true;
      }
      return false;
    },
  };
}
