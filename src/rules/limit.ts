import type { Limit, Unit } from '../model.js';

export interface Comparison {
  readonly met: boolean;
  /** Distance inside the limit, negative when missed; null for what is not measured in numbers. */
  readonly margin: number | null;
}

const DECIMALS: { readonly [U in Unit]: number } = { mm: 1, deg: 2, min: 1 };

/** Without a unit a number is a count or a ratio; six decimals drop no more than binary noise. */
export const decimalsOf = (unit: Unit | undefined): number => (unit ? DECIMALS[unit] : 6);

/** What is judged is what is reported: lengths to 0.1 mm, angles to 0.01°. */
export const rounded = <T extends number | string | boolean>(value: T, unit: Unit | undefined): T =>
  typeof value === 'number' ? (round(value, decimalsOf(unit)) as T) : value;

/** Judges by the values as they are; only the margin is rounded, since a difference brings binary noise of its own. */
export function compare(measured: number | string | boolean, limit: Limit, decimals: number): Comparison {
  if (limit.equals !== undefined) return { met: measured === limit.equals, margin: null };
  if (limit.among !== undefined) return { met: limit.among.some((value) => value === measured), margin: null };
  if (typeof measured !== 'number') throw new Error(`A limit in numbers was set for "${measured}".`);
  const above = limit.atLeast === undefined ? Number.POSITIVE_INFINITY : measured - limit.atLeast;
  const below = limit.atMost === undefined ? Number.POSITIVE_INFINITY : limit.atMost - measured;
  const least = Math.min(above, below);
  return { met: least >= 0, margin: round(least, decimals) };
}

/** Margin as a part of the limit it belongs to, so that margins of different checks can be put in one order. */
export function relativeMargin(measured: number, limit: Limit, margin: number): number {
  const { atLeast, atMost } = limit;
  const fromBelow = atLeast !== undefined && (atMost === undefined || measured - atLeast < atMost - measured);
  return margin / Math.max(1, Math.abs(fromBelow ? atLeast : (atMost ?? 1)));
}

function round(value: number, decimals: number): number {
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? 0 : rounded; // no -0
}
