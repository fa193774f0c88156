import type { Limit } from '../model.js';

export interface Comparison {
  readonly met: boolean;
  /** Distance inside the limit, negative when missed; null for what is not measured in numbers. */
  readonly margin: number | null;
}

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
