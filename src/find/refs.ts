/** Elements of a compartment in one order, and the least that they are rated for. */
import { lowerRating } from '../fire-rating/index.js';
import type { ElementRef, Rating } from '../model.js';
import { refOf } from './pieces.js';

/** Each once, in the order of files and GlobalIds. */
export const inOrderOfRefs = <T extends ElementRef>(items: readonly T[]): T[] =>
  [...new Map(items.map((one) => [`${one.model} ${one.globalId}`, one])).entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, one]) => one);

export const refsOf = (items: readonly ElementRef[]): ElementRef[] => inOrderOfRefs(items.map(refOf));

/** null of none. */
export const leastOf = (ratings: readonly Rating[]): Rating | null =>
  ratings.reduce<Rating | null>((least, one) => (least ? lowerRating(least, one) : one), null);
