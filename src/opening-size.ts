/** The size of an opening that gives equal gaps in a range: what is asked for, and what a remedy makes. */
import { dot } from './geometry/vector.js';
import type { Limit, Penetration, Vec2 } from './model.js';

/** Openings are set out in whole steps of this, millimetres. Common practice, no source. */
const STEP = 10;

/** Of floating point, not of lengths. */
const ROUNDING = 1e-6;

/**
 * The size that gives equal gaps on both sides, within the range on both faces: the whole ten millimetres nearest to
 * the middle of what is possible, else the whole millimetre. Undefined where nothing is possible.
 *
 * @param duct its size, mm
 * @param slide how far it moves across the opening from one face of the barrier to the other, mm
 */
export function openingSize(duct: number, slide: number, { atLeast = 0, atMost }: Limit): number | undefined {
  const least = duct + slide + 2 * atLeast;
  if (atMost === undefined) return Math.ceil(least / STEP) * STEP;
  const most = duct - slide + 2 * atMost;
  if (!(least <= most)) return undefined;
  const middle = (least + most) / 2;
  for (const step of [STEP, 1, 0.1]) {
    const size = Math.round(middle / step) * step;
    if (size >= least - ROUNDING && size <= most + ROUNDING) return Number(size.toFixed(1));
  }
  return Number(middle.toFixed(1));
}

/** The range that keeps to all of them; null where none is known or they have nothing in common. */
export function commonRange(limits: readonly (Limit | null)[]): Limit | null {
  const known = limits.filter((l): l is Limit => l?.atLeast !== undefined || l?.atMost !== undefined);
  const atLeast = Math.max(...known.flatMap((l) => l.atLeast ?? []));
  const atMost = Math.min(...known.flatMap((l) => l.atMost ?? []));
  if (known.length === 0 || atLeast > atMost) return null;
  return {
    ...(Number.isFinite(atLeast) ? { atLeast } : {}),
    ...(Number.isFinite(atMost) ? { atMost } : {}),
  };
}

/** How far a duct moves in the barrier's plane, to the right and up, from one face to the other. */
export function slideThrough(
  { duct, frame, skew }: Pick<Penetration, 'frame' | 'skew'> & { readonly duct: Pick<Penetration['duct'], 'axis'> },
  thickness: number,
): Vec2 {
  if (skew === 0) return [0, 0];
  if (!duct.axis) {
    const slide = thickness * Math.tan((skew * Math.PI) / 180);
    return [slide, slide];
  }
  const [from, to] = duct.axis;
  const along = [to[0] - from[0], to[1] - from[1], to[2] - from[2]] as const;
  const through = dot(along, frame.normal);
  return [(thickness * dot(along, frame.right)) / through, (thickness * dot(along, frame.up)) / through];
}
