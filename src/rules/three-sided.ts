/** A duct tight against a soffit or a wall: was the system tested with three sides covered there? */
import type { Neighbour } from '../model.js';
import type { TestedSystem } from './tested-system.js';

export interface ThreeSided {
  /** Undefined: it hangs on a construction that is not known. */
  readonly fits: boolean | undefined;
  /** What it was not tested for, in words. */
  readonly miss: string | null;
}

/**
 * @param isCorner another side lies tight too, so that two sides would stay open
 * @returns undefined where the system has no such detail, or nothing to lie against is there
 */
export function threeSidedAt(
  { scope }: Pick<TestedSystem, 'scope'>,
  { what, kind, construction }: Pick<Neighbour, 'what' | 'kind' | 'construction'>,
  distance: number,
  isCorner: boolean,
): ThreeSided | undefined {
  const rows = scope.threeSided ?? [];
  if (rows.length === 0 || what !== 'barrier') return undefined;
  if (isCorner) return { fits: false, miss: 'two sides that lie tight' };
  const near = rows.filter(({ gapAtMost }) => distance <= gapAtMost);
  if (near.length === 0) return { fits: false, miss: 'so wide a gap' };
  const ofKind = near.filter(({ kinds }) => !kinds || kinds.some((one) => one === kind));
  if (ofKind.length === 0) return { fits: false, miss: `a ${kind}` };
  if (construction === null || construction === 'unknown') return { fits: undefined, miss: null };
  const fits = ofKind.some(({ constructions }) => constructions.some((one) => one === construction));
  return { fits, miss: fits ? null : `a ${kind} of that construction` };
}
