/** What plans are made of: patterns of great value. */
import type { Effort } from './effort.js';
import type { Pattern } from './pattern.js';

export interface Priced {
  readonly pattern: Pattern;
  readonly value: number;
}

export interface Pricing {
  readonly effort: Effort;
  /**
   * A good pattern that takes no more of each kind than `most`; null where nothing of value fits.
   *
   * @param values of one part of each kind, whole numbers
   * @param steps that one look at what could be cut may take, about
   */
  fill(sheet: number, values: readonly number[], most: readonly number[], steps: number): Priced | null;
  /**
   * A pattern of greatest value: no pattern of the class that takes no more of each kind than `most` is worth more. It
   * may take more itself. Null where the effort does not allow it.
   */
  best(sheet: number, values: readonly number[], most: readonly number[]): Priced | null;
}
