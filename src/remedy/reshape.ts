/** Bodies with some of their corners elsewhere: exact prisms stay prisms where that is possible. */
import { fromPlane, toPlane } from '../geometry/frame.js';
import { prismMesh } from '../geometry/loft.js';
import { add, distance, dot, sub } from '../geometry/vector.js';
import type { Body, Polygon, Prism, Vec3 } from '../model.js';

/** Where a point goes from where it is. */
export type Shift = (at: Vec3) => Vec3;

export function reshape(body: Body, shift: Shift): Body {
  if (body.kind === 'prism') return reshapePrism(body, shift);
  const positions = Float64Array.from(body.positions);
  for (let i = 0; i < positions.length; i += 3) {
    const by = shift([positions[i]!, positions[i + 1]!, positions[i + 2]!]);
    for (const axis of [0, 1, 2] as const) positions[i + axis]! += by[axis];
  }
  return { ...body, positions };
}

/** Moved as a whole. */
export const shifted = (body: Body, by: Vec3): Body => reshape(body, () => by);

/** Rounding of numbers, not of lengths. */
const SAME = 1e-6;

function reshapePrism(body: Prism, shift: Shift): Body {
  const { frame, outline, voids, sweep } = body;
  const corners = [...outline, ...voids.flat()].map((p) => fromPlane(frame, p));
  const base = corners.map(shift);
  const top = corners.map((p) => shift(add(p, sweep)));
  const isSame = (list: readonly Vec3[]) => list.every((one) => distance(one, list[0]!) < SAME);
  if (isSame(base) && isSame(top))
    return {
      ...body,
      frame: { ...frame, origin: add(frame.origin, base[0]!) },
      sweep: add(sweep, sub(top[0]!, base[0]!)),
    };
  const isInPlane = base.every((by, i) => distance(by, top[i]!) < SAME && Math.abs(dot(by, frame.z)) < SAME);
  if (!isInPlane) return reshape(prismMesh(body), shift);
  const moved = (polygon: Polygon): Polygon =>
    polygon.map((p) => {
      const at = fromPlane(frame, p);
      return toPlane(frame, add(at, shift(at)));
    });
  return { ...body, outline: moved(outline), voids: voids.map(moved) };
}
