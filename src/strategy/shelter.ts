/** Which compartments enclose ducts in place of their protection. */
import type { Compartment, Minutes } from '../model.js';
import type { Shelter } from './lapses.js';

/** Minutes asked of the run; undefined where they are not known. */
export interface AskedMinutes {
  readonly integrity: number | undefined;
  readonly insulation: number | undefined;
}

/** A shaft takes over only where all its faces and both its ends are rated, for as long as is asked of the run. */
export function shelterOf(compartment: Compartment | undefined, asked: AskedMinutes): Shelter {
  if (compartment?.shaft !== true) return 'no';
  const { complete, leastRating } = compartment.enclosure;
  if (complete === false) return 'no';
  const reached = (['integrity', 'insulation'] as const).map((criterion) =>
    reaches(leastRating?.[criterion] ?? null, asked[criterion]),
  );
  if (reached.includes(false)) return 'no';
  return complete === null || reached.includes(undefined) ? 'unknown' : 'yes';
}

function reaches(given: Minutes, asked: number | undefined): boolean | undefined {
  if (asked === undefined) return undefined;
  if (asked === 0) return true;
  if (given === null) return undefined;
  return given !== 'none' && given >= asked;
}
