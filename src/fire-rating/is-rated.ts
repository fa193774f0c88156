import type { Rating } from '../model.js';

/** Does the barrier hold back fire? Undefined where its rating does not say. */
export function isRated({ state, integrity, insulation }: Rating): boolean | undefined {
  if (state === 'durationOnly') return true;
  if (state === 'notRequired') return false;
  if (state !== 'stated') return undefined;
  if (typeof integrity === 'number' || typeof insulation === 'number') return true;
  return integrity === 'none' && insulation === 'none' ? false : undefined;
}
