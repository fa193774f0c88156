import type { Minutes, Rating } from '../model.js';
import { parseRating } from './parse.js';
import type { Criterion } from './types.js';

export type ComparisonOutcome = 'met' | 'missed' | 'unknown';

/** What a comparison looks at. Without `flags` they are read again from the text. */
export type ComparableRating = Pick<Rating, 'state' | 'text' | 'duration' | Criterion> & {
  readonly flags?: readonly string[];
};

/** What is asked for beyond minutes, e.g. `['ho', 'i>o', 'o>i', 'S']`. */
export interface RatingNeed {
  readonly flags?: readonly string[];
}

export interface RatingComparison {
  /** Missed when anything is missed, even beside unknowns; met only when everything is met. */
  readonly outcome: ComparisonOutcome;
  readonly criteria: readonly {
    readonly criterion: Criterion;
    readonly required: Minutes;
    readonly provided: Minutes;
    readonly outcome: ComparisonOutcome;
  }[];
  readonly flags: readonly { readonly flag: string; readonly outcome: ComparisonOutcome }[];
}

/** What stands in an opening or holds a seal is asked to keep the fire in, not to carry load. */
const SEPARATION: readonly Criterion[] = ['integrity', 'insulation'];

/** Tests so unlike the standard fire that their minutes mean nothing beside those of another test. */
const OTHER_TESTS = ['E300', 'E600', 'P'];
/** Either a class names some of a group, and lacks the others, or it says nothing of the group. */
const GROUPS = [
  ['ve', 'ho'],
  ['i>o', 'o>i'],
];

/** The outcome of {@link compareRatingsInDetail}. */
export function compareRatings(
  required: ComparableRating,
  provided: ComparableRating,
  criteria: readonly Criterion[] = SEPARATION,
  need: RatingNeed = {},
): ComparisonOutcome {
  return compareRatingsInDetail(required, provided, criteria, need).outcome;
}

/**
 * Does `provided` do what `required` asks, criterion by criterion?
 * - Nothing (or 0 minutes) asked: met by anything, even unknown.
 * - A number asked: met by that number or more, missed by less or by `none`, unknown when not known.
 * - Not known what is asked: unknown.
 * - One duration without criteria is the most that any of its criteria can be. So a required "1 HR" is met by a
 *   provided 60 (and else unknown: perhaps this criterion is not asked for), and a required 60 is missed by a provided
 *   "30 min" (but a provided "60 min" is unknown: perhaps this criterion is not given).
 */
export function compareRatingsInDetail(
  required: ComparableRating,
  provided: ComparableRating,
  criteria: readonly Criterion[] = SEPARATION,
  need: RatingNeed = {},
): RatingComparison {
  const compared = criteria.map((criterion) => ({
    criterion,
    required: required[criterion],
    provided: provided[criterion],
    outcome: compareCriterion(required, provided, criterion),
  }));
  const flags = (need.flags ?? []).map((flag) => ({ flag, outcome: compareFlag(flag, provided) }));
  return { outcome: worst([...compared, ...flags].map((part) => part.outcome)), criteria: compared, flags };
}

function compareCriterion(
  required: ComparableRating,
  provided: ComparableRating,
  criterion: Criterion,
): ComparisonOutcome {
  if (required.state === 'notRequired') return 'met';
  const otherTest = testOf(required);
  const asked = required[criterion] ?? (required.state === 'durationOnly' ? required.duration : null);
  if (asked === null) return 'unknown';
  if ((asked === 'none' || asked === 0) && otherTest === '') return 'met';
  if (asked === 'none' || otherTest !== testOf(provided)) return 'unknown';
  const given = provided[criterion];
  const enough = typeof given === 'number' && given >= asked;
  if (enough) return 'met';
  // What is asked is only the most that may be asked.
  if (required[criterion] === null) return 'unknown';
  if (given !== null) return 'missed';
  return provided.state === 'durationOnly' && provided.duration !== null && provided.duration < asked
    ? 'missed'
    : 'unknown';
}

/** A class that says nothing of orientation, fire side or suffixes may have been cut short, so nothing is missed yet. */
function compareFlag(flag: string, provided: ComparableRating): ComparisonOutcome {
  const stated = flagsOf(provided);
  if (stated.includes(flag)) return 'met';
  const group = GROUPS.find((flags) => flags.includes(flag));
  const speaksOfIt = stated.some((other) => group === undefined || group.includes(other));
  return speaksOfIt ? 'missed' : 'unknown';
}

function testOf(rating: ComparableRating): string {
  return OTHER_TESTS.filter((flag) => flagsOf(rating).includes(flag)).join();
}

/** A building has few ratings and compares each of them thousands of times. */
const FLAGS = new Map<string, readonly string[]>();

/** A plain Rating has no flags, but it has the text, and flags hardly depend on the object. */
function flagsOf({ flags, text }: ComparableRating): readonly string[] {
  if (flags || text === null) return flags ?? [];
  const known = FLAGS.get(text) ?? parseRating(text, { object: 'other' }).flags;
  FLAGS.set(text, known);
  return known;
}

/** Where nothing was compared nothing is proven. */
function worst(outcomes: readonly ComparisonOutcome[]): ComparisonOutcome {
  if (outcomes.includes('missed')) return 'missed';
  return outcomes.length === 0 || outcomes.includes('unknown') ? 'unknown' : 'met';
}
