import { type ComparableRating, type Criterion, compareRatings } from '../fire-rating/index.js';
import type { Penetration, Rating } from '../model.js';
import { type BriefSays, briefSays, type Strategy } from './brief-says.js';

/** Minutes that are asked for and minutes that are there, so that numbers compare as the ratings themselves do. */

export interface SeparationMinutes {
  readonly integrity: number | undefined;
  readonly insulation: number | undefined;
}

/** Of the barrier and of the demand on the run the greater. A bare duration is the most that may be asked. */
export function requiredMinutes(rating: Rating, says: BriefSays): SeparationMinutes {
  const required = (criterion: 'integrity' | 'insulation'): number | undefined => {
    const atBarrier = askedMinutes(rating, criterion);
    const least = says.demand[criterion];
    return atBarrier === undefined || least === null ? undefined : Math.max(atBarrier, least);
  };
  return { integrity: required('integrity'), insulation: required('insulation') };
}

/** Minutes asked for at a penetration; null where that is not known. */
export function requiredAt(
  { duct, barrier }: Pick<Penetration, 'duct' | 'barrier'>,
  strategy: Strategy,
): { integrity: number | null; insulation: number | null } {
  const { integrity, insulation } = requiredMinutes(barrier.rating, briefSays(duct, strategy));
  return { integrity: integrity ?? null, insulation: insulation ?? null };
}

/** Longer than any test: what is asked and can't be met by this was asked of another test. */
const ENDLESS = 1e6;

function askedMinutes(rating: Rating, criterion: Criterion): number | undefined {
  if (rating.state === 'notRequired') return 0;
  if (compareRatings(rating, plain(criterion, ENDLESS), [criterion]) !== 'met') return undefined;
  const asked = rating[criterion] ?? rating.duration;
  return asked === 'none' ? 0 : (asked ?? undefined);
}

const plain = (criterion: Criterion, minutes: number): ComparableRating => ({
  state: 'stated',
  text: null,
  duration: null,
  flags: [],
  loadbearing: 'none',
  integrity: 'none',
  insulation: 'none',
  [criterion]: minutes,
});

/** Minutes of the damper where that is all there is, else of the protection as it is declared. */
export function treatmentMinutes(penetration: Penetration, required: SeparationMinutes): SeparationMinutes {
  const { treatment, dampers } = penetration;
  if (treatment.kind !== 'damper' || dampers.length === 0) {
    return { integrity: treatment.integrity ?? undefined, insulation: treatment.insulation ?? undefined };
  }
  const holding = dampers.filter(({ purpose }) => purpose === 'fire' || purpose === 'fireSmoke');
  const best = (criterion: 'integrity' | 'insulation'): number | undefined => {
    // Of several dampers in one duct one alone holds the fire, and which one is not known: the least counts.
    const all = holding.map(({ rating }) => providedMinutes(rating, criterion, required[criterion] ?? 1));
    return all.length === 0 || all.includes(undefined) ? undefined : Math.min(...all.map((minutes) => minutes ?? 0));
  };
  return { integrity: best('integrity'), insulation: best('insulation') };
}

/** undefined where a comparison with what is asked would not be known. */
function providedMinutes(rating: Rating, criterion: Criterion, asked: number): number | undefined {
  if (compareRatings(plain(criterion, Math.max(asked, 1)), rating, [criterion]) === 'unknown') return undefined;
  const given = rating[criterion] ?? rating.duration;
  return given === 'none' ? 0 : (given ?? undefined);
}
