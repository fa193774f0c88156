import type { Penetration, Side } from '../model.js';
import type { FactObject } from './fact-schema.js';
import { gapMeasuredTo } from './facts.js';
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
export function gapFacts(penetration: Penetration, byId: ReadonlyMap<string, Penetration>): GapFacts[] {
  const { gaps } = penetration;
  const measuredTo = (facing: readonly string[]): number | null =>
    gapMeasuredTo(
      penetration.duct,
      facing.flatMap((id) => byId.get(id)?.duct ?? []),
    );
  const allRound = (which: 'narrowest' | 'widest'): GapFacts => {
    const [value, facing] = [which === 'narrowest' ? gaps.min : gaps.max, Object.values(gaps.facing)];
    const facts = { which, place: which, value, measuredTo: measuredTo(facing), facesService: facing.length > 0 };
    return { side: null, place: which, value, facts: known(facts) };
  };
  if (!hasSides(penetration)) return [allRound('narrowest'), allRound('widest')];
  const values = SIDES.map((side) => gaps[side] ?? 0);
  return [
    ...SIDES.map((side) => {
      const [value, other] = [gaps[side], gaps.facing[side]];
      const exactly = measuredTo(other === undefined ? [] : [other]);
      const facts = { side, place: side, value, measuredTo: exactly, facesService: other !== undefined };
      return { side, place: side, value, facts: known(facts) };
    }),
    ...(gaps.min !== null && gaps.min < Math.min(...values) - ROUNDING ? [allRound('narrowest')] : []),
    ...(gaps.max !== null && gaps.max > Math.max(...values) + ROUNDING ? [allRound('widest')] : []),
  ];
}

const hasSides = ({ duct, opening, gaps }: Penetration): boolean =>
  duct.shape === 'rectangular' && opening?.shape === 'rectangular' && SIDES.every((side) => gaps[side] !== null);
