import type { Minutes, Rating } from '../model.js';

/**
 * The rating of a barrier made of two leaves.
 * - A leaf that is `unstated` does not count beside one that is not, nor one that is `notRequired` beside a rated one
 *   (beside an unstated one it does not settle the matter: unstated).
 * - An `unreadable` leaf makes the whole unreadable: it may be the lower one.
 * - Per criterion the lower number counts. `none` beside a number does not: a leaf that is not asked for a criterion
 *   says nothing against the other, and "nothing asked" is the one answer that could wrongly pass. Unknown beside
 *   anything stays unknown, unless the other number is too low for it to matter.
 * - Two durations without criteria are taken as ratings of one kind: the shorter counts.
 * Where one leaf already has the lower value in everything it is returned as it is.
 */
export function lowerRating(a: Rating, b: Rating): Rating {
  for (const state of ['unreadable', 'rated', 'unstated'] as const) {
    const [inA, inB] = [inState(a, state), inState(b, state)];
    if (inA && inB) return state === 'rated' ? lowerOfRated(a, b) : firstByText(a, b);
    if (inA) return a;
    if (inB) return b;
  }
  return firstByText(a, b);
}

function inState(rating: Rating, state: 'unreadable' | 'rated' | 'unstated'): boolean {
  const rated = rating.state === 'stated' || rating.state === 'durationOnly';
  return state === 'rated' ? rated : rating.state === state;
}

function lowerOfRated(a: Rating, b: Rating): Rating {
  if (a.state === 'durationOnly' && b.state === 'durationOnly' && a.duration !== b.duration) {
    return (a.duration ?? Number.POSITIVE_INFINITY) < (b.duration ?? Number.POSITIVE_INFINITY) ? a : b;
  }
  const values = {
    loadbearing: lower(a.loadbearing, b.loadbearing, a, b),
    integrity: lower(a.integrity, b.integrity, a, b),
    insulation: lower(a.insulation, b.insulation, a, b),
  };
  // A duration beside criteria is no limit to the whole: it may be about a criterion that the other leaf lacks.
  const same = [a, b].filter(
    (leaf) =>
      (leaf.state === 'stated' || a.state === b.state) &&
      leaf.loadbearing === values.loadbearing &&
      leaf.integrity === values.integrity &&
      leaf.insulation === values.insulation,
  );
  const [only, other] = same;
  if (only) return other ? firstByText(only, other) : only;
  return {
    state: 'stated',
    text: [a.text ?? '', b.text ?? ''].sort().join(' | '),
    ...values,
    duration: null,
    from: a.from === b.from ? a.from : null,
  };
}

function lower(inA: Minutes, inB: Minutes, a: Rating, b: Rating): Minutes {
  if (inA === null) return inB === null ? null : besideUnknown(inB, a);
  if (inB === null) return besideUnknown(inA, b);
  if (inA === 'none') return inB;
  return inB === 'none' ? inA : Math.min(inA, inB);
}

/** With one duration the unknown value is that duration or nothing, so a number not above it is the lower one. */
function besideUnknown(known: number | 'none', unknown: Rating): Minutes {
  const most = unknown.state === 'durationOnly' ? unknown.duration : null;
  return known !== 'none' && most !== null && known <= most ? known : null;
}

/** The same choice whichever way round the leaves come. */
function firstByText(a: Rating, b: Rating): Rating {
  return (a.text ?? '') <= (b.text ?? '') ? a : b;
}

/** null of none. */
export const lowestRating = (ratings: readonly Rating[]): Rating | null =>
  ratings.reduce<Rating | null>((least, one) => (least ? lowerRating(least, one) : one), null);
