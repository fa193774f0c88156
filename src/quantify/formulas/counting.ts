/** How many stand in a row or a grid. Lengths in mm. */

/** Of a quotient that would be whole but for floating point: 2.1 / 0.3 = 7.000000000000001. */
const WHOLE = 1e-9;

/** ⌈q⌉, where q may be whole but for floating point. */
export const roundedUp = (quotient: number): number => Math.ceil(quotient - WHOLE);

/**
 * n = ⌈(L − 2e) / s⌉ + 1 on a line of length L, both ends fixed e from its ends, at most s apart. Shorter than 2e, but not
 * of no length: one in the middle. Arithmetic.
 *
 * @throws RangeError for a spacing that is not greater than 0
 */
export function countAlong(length: number, spacing: number, fromEnd = 0): number {
  if (!(spacing > 0)) throw new RangeError(`A spacing must be greater than 0; ${spacing} is not.`);
  if (length <= 0) return 0;
  const between = length - 2 * fromEnd;
  return between <= 0 ? 1 : roundedUp(between / spacing) + 1;
}

/** n = max(3, ⌈U / s⌉) round a closed line of length U, at most s apart. Arithmetic; fewer than three hold no ring. */
export function countAround(around: number, spacing: number): number {
  if (!(spacing > 0)) throw new RangeError(`A spacing must be greater than 0; ${spacing} is not.`);
  return around <= 0 ? 0 : Math.max(3, roundedUp(around / spacing));
}

/** n = n(a)·n(b), rows and columns each counted with both ends fixed. Arithmetic. */
export const countGrid = (a: number, b: number, spacing: number, fromEdge = 0): number =>
  countAlong(a, spacing, fromEdge) * countAlong(b, spacing, fromEdge);
