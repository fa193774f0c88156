/** Space as the eye has it: x to the right, y up, z away from it. What is cut away, and where the rest is on the picture. */
import { dot, lerp, sub } from '../geometry/vector.js';
import type { Frame, Vec3 } from '../model.js';
import { HORIZONTAL_TANGENT, turnedTo, VERTICAL_TANGENT } from './camera.js';
import type { Canvas, Corner } from './raster.js';
import type { Standpoint } from './standpoint.js';

/** Everything in the eye's space. */
export interface View {
  readonly canvas: Canvas;
  readonly toView: (p: Vec3) => Vec3;
  /** Its coordinates are carried along to every pixel. */
  readonly frame: Frame;
  /** Kept is where normal · p ≤ offset. */
  readonly cuts: readonly { readonly normal: Vec3; readonly offset: number }[];
}

/** Nothing nearer to the eye than this is drawn, mm. */
const NEAREST = 50;

export function viewFrom({ camera, planes }: Standpoint, frame: Frame, canvas: Canvas): View {
  const turn = turnedTo(camera);
  const toView = (p: Vec3): Vec3 => turn(sub(p, camera.eye));
  const cuts = planes.map(({ at, direction }) => {
    const normal = turn(direction);
    return { normal, offset: dot(normal, toView(at)) };
  });
  return {
    canvas,
    toView,
    frame: { origin: toView(frame.origin), x: turn(frame.x), y: turn(frame.y), z: turn(frame.z) },
    cuts: [{ normal: [0, 0, -1], offset: -NEAREST }, ...cuts],
  };
}

export const isKept = ({ cuts }: View, p: Vec3): boolean =>
  cuts.every(({ normal, offset }) => dot(normal, p) <= offset);

/** The part of a convex outline that is kept; empty where nothing is. */
export function cutOutline({ cuts }: View, outline: readonly Vec3[]): readonly Vec3[] {
  let kept = outline;
  for (const { normal, offset } of cuts) {
    const inside = (p: Vec3) => offset - dot(normal, p);
    kept = kept.flatMap((to, i) => {
      const from = kept.at(i - 1)!;
      const [a, b] = [inside(from), inside(to)];
      const crossed = a >= 0 === b >= 0 ? [] : [lerp(from, to, a / (a - b))];
      return b >= 0 ? [...crossed, to] : crossed;
    });
  }
  return kept;
}

export function cutLine({ cuts }: View, a: Vec3, b: Vec3): readonly [Vec3, Vec3] | undefined {
  let [first, last] = [0, 1];
  for (const { normal, offset } of cuts) {
    const [da, db] = [offset - dot(normal, a), offset - dot(normal, b)];
    if (da < 0 && db < 0) return undefined;
    if (da < 0) first = Math.max(first, da / (da - db));
    else if (db < 0) last = Math.min(last, da / (da - db));
  }
  return first < last ? [lerp(a, b, first), lerp(a, b, last)] : undefined;
}

export function onPicture({ canvas, frame }: View, p: Vec3): Corner {
  const [right, up, depth] = p;
  const d = sub(p, frame.origin);
  return {
    x: (canvas.width / 2) * (1 + right / depth / HORIZONTAL_TANGENT),
    y: (canvas.height / 2) * (1 - up / depth / VERTICAL_TANGENT),
    inverse: 1 / depth,
    carried: [dot(d, frame.x), dot(d, frame.y), dot(d, frame.z)],
  };
}
