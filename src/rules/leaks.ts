import { nameOf } from '../element-refs.js';
import { resistsFire } from '../fire-rating/index.js';
import type { BarrierFacts, Crossings, Leak } from '../model.js';

/** A leak between two walls as rules see it: once, whatever compartments it opens into. */
export interface WallLeak {
  readonly leak: Leak;
  /** The first of the two that is rated. */
  readonly barrier: BarrierFacts;
  readonly other: BarrierFacts;
  /** The first leak of the same two walls, the second … */
  readonly ordinal: number;
}

export function wallLeaks({ compartments, barriers }: Crossings): WallLeak[] {
  const byRef = new Map(barriers.map((barrier) => [nameOf(barrier), barrier]));
  const leaks = new Map(compartments.flatMap((one) => one.leaks).map((leak) => [placeOf(leak), leak]));
  const ordinals = new Map<string, number>();
  return [...leaks]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([, leak]) => {
      const [a, b] = leak.between.map((one) => byRef.get(nameOf(one)));
      if (!a || !b) return [];
      const [barrier, other] = resistsFire(b.rating) === true && resistsFire(a.rating) !== true ? [b, a] : [a, b];
      const pair = leak.between.map(nameOf).join(' ');
      const ordinal = (ordinals.get(pair) ?? 0) + 1;
      ordinals.set(pair, ordinal);
      return [{ leak, barrier, other, ordinal }];
    });
}

const placeOf = ({ at, between }: Leak): string => [...between.map(nameOf), ...at].join(' ');
