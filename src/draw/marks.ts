/**
 * The marks of outcomes: the mark is the barrier, whole or broken. Each is told from the others without colour. Boxes and
 * dots on a grid of 24 units, y downwards.
 */
import type { Outcome } from '../model.js';

export const MARK_GRID = 24;

/** x, y of the least corner, width, height. */
export type MarkBox = readonly [number, number, number, number];
export interface Mark {
  readonly boxes: readonly MarkBox[];
  /** Centres of dots. */
  readonly dots: readonly (readonly [number, number])[];
}
export const DOT_RADIUS = 2;

const boxes = (...list: readonly MarkBox[]): Mark => ({ boxes: list, dots: [] });

export const MARKS: { readonly [O in Outcome]: Mark } = {
  passed: boxes([9, 2, 6, 20]),
  failed: boxes([5, 2, 6, 8], [13, 14, 6, 8]),
  // A hollow bar, x 7 to 17, whose long sides are open in the middle.
  cantTell: boxes([7, 2, 10, 2], [7, 20, 10, 2], [7, 2, 2, 8], [15, 2, 2, 8], [7, 14, 2, 8], [15, 14, 2, 8]),
  inapplicable: boxes([11, 2, 2, 20]),
  untested: {
    boxes: [],
    dots: [
      [12, 4],
      [12, 12],
      [12, 20],
    ],
  },
};
