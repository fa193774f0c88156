import type { Limit, Tolerance, Unit } from '../model.js';

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

/** What a margin has to hold. The two are added: nothing says that they even out. */
export const neededMargin = ({ site, measuring }: Tolerance): number => round(site + measuring, decimalsOf(undefined));

/**
 * Whether a met limit is met by what the tolerance asks. The 0.1 mm that lengths are rounded to is no part of it: the
 * least site tolerance that anybody works to is many times that, and a limit must be met by a value that stands on it.
 */
export const holds = (measured: number, { atLeast, atMost }: Limit, tolerance: Tolerance): boolean =>
  [measured - (atLeast ?? Number.NEGATIVE_INFINITY), (atMost ?? Number.POSITIVE_INFINITY) - measured].every(
    (margin) => round(margin - neededMargin(tolerance), decimalsOf(undefined)) >= 0,
  );

/** The limit that what is modelled has to keep to, so that the margin holds the tolerance; of a number's limit. */
export const within = ({ atLeast, atMost }: Limit, tolerance: Tolerance | null): Limit => {
  const needed = tolerance ? neededMargin(tolerance) : 0;
  return {
    ...(atLeast !== undefined && { atLeast: round(atLeast + needed, decimalsOf(undefined)) }),
    ...(atMost !== undefined && { atMost: round(atMost - needed, decimalsOf(undefined)) }),
  };
};

/** Margin as a part of the limit it belongs to, so that margins of different checks can be put in one order. */
export function relativeMargin(measured: number, limit: Limit, margin: number): number {
  const { atLeast, atMost } = limit;
  const fromBelow = atLeast !== undefined && (atMost === undefined || measured - atLeast < atMost - measured);
  return margin / Math.max(1, Math.abs(fromBelow ? atLeast : (atMost ?? 1)));
}

function round(value: number, decimals: number): number {
  if (Number.isInteger(value)) return value === 0 ? 0 : value;
  // Most values stand on the step already, and printing them would cost more than all the rest of a comparison.
  const scale = 10 ** decimals;
  if (Math.round(value * scale) / scale === value) return value;
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? 0 : rounded; // no -0
}
