import type { Gaps, Penetration, Side } from '../model.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';

const SIDES: readonly Side[] = ['top', 'bottom', 'left', 'right'];

export interface GapFacts {
  readonly side: Side | null;
  /** Side, or `narrowest` and `widest` all round. */
  readonly place: string;
  readonly value: number | null;
  readonly facts: FactObject;
}

/** One length, measured in two ways, may come out on either side of a rounding step of 0.1 mm. */
const ROUNDING = 0.11;

/**
 * The gaps to judge: one for each side of a rectangular duct in a rectangular opening, and all round whatever no side
 * shows. A round duct is widest towards a corner of its opening; an oblique one is wide on one side at one face and on
 * the other side at the other face, while a side holds the least of both.
 */
export function gapFacts(penetration: Penetration): GapFacts[] {
  const { gaps } = penetration;
  if (!hasSides(penetration)) return [allRound(gaps, 'narrowest'), allRound(gaps, 'widest')];
  const values = SIDES.map((side) => gaps[side] ?? 0);
  return [
    ...SIDES.map((side) => {
      const facts = known({ side, place: side, value: gaps[side], facesService: gaps.facing[side] !== undefined });
      return { side, place: side, value: gaps[side], facts };
    }),
    ...(gaps.min !== null && gaps.min < Math.min(...values) - ROUNDING ? [allRound(gaps, 'narrowest')] : []),
    ...(gaps.max !== null && gaps.max > Math.max(...values) + ROUNDING ? [allRound(gaps, 'widest')] : []),
  ];
}

const hasSides = ({ duct, opening, gaps }: Penetration): boolean =>
  duct.shape === 'rectangular' && opening?.shape === 'rectangular' && SIDES.every((side) => gaps[side] !== null);

function allRound(gaps: Gaps, which: 'narrowest' | 'widest'): GapFacts {
  const value = which === 'narrowest' ? gaps.min : gaps.max;
  const facesService = Object.keys(gaps.facing).length > 0;
  return { side: null, place: which, value, facts: known({ which, place: which, value, facesService }) };
}
