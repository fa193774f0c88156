import type { Rating } from '../model.js';

/** Does what is rated so hold back fire for any time? Undefined where the rating does not say. */
export function resistsFire({ state, integrity, insulation }: Rating): boolean | undefined {
  if (state === 'durationOnly') return true;
  if (state === 'notRequired') return false;
  if (state !== 'stated') return undefined;
  if (typeof integrity === 'number' || typeof insulation === 'number') return true;
  return integrity === 'none' && insulation === 'none' ? false : undefined;
}
