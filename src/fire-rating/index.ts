/** Fire ratings: what a free text says, whether one rating does what another asks, and which of two is lower. */
export {
  type ComparableRating,
  type ComparisonOutcome,
  compareRatings,
  compareRatingsInDetail,
  type RatingComparison,
  type RatingNeed,
} from './compare.js';
export { lowerRating, lowestRating } from './lower.js';
export { parseRating } from './parse.js';
export { resistsFire } from './resists.js';
export type { Criterion, ParsedRating, RatingContext } from './types.js';
