/** Barriers with all that is to be checked at them. */
import { compareTexts } from '../collect.js';
import { resistsFire } from '../fire-rating/index.js';
import type { BarrierFacts, Crossings, FacingEnds, Penetration } from '../model.js';
import { isSaidToStopShort } from './barrier-facts.js';
import { type WallLeak, wallLeaks } from './leaks.js';

export interface CrossedBarrier {
  readonly id: string;
  readonly penetrations: Penetration[];
  readonly facing: FacingEnds[];
  readonly leaks: WallLeak[];
  /** As each of its crossings shows it, and as itself where its head shows a gap. */
  readonly seen: BarrierFacts[];
}

/**
 * Barriers with a penetration, facing ends, a leak or something amiss at their head; the others give nothing to check. In
 * that order.
 */
export function crossedBarriers(crossings: Crossings): CrossedBarrier[] {
  const { penetrations, facingEnds, barriers } = crossings;
  const found = new Map<string, CrossedBarrier>();
  const at = (barrier: BarrierFacts): CrossedBarrier => {
    const id = identityOf(barrier);
    const known = found.get(id) ?? { id, penetrations: [], facing: [], leaks: [], seen: [] };
    found.set(id, known);
    known.seen.push(barrier);
    return known;
  };
  for (const penetration of [...penetrations].sort(byText(({ id }) => id))) {
    at(penetration.barrier).penetrations.push(penetration);
  }
  for (const ends of [...facingEnds].sort(byText(({ key }) => key))) at(ends.barrier).facing.push(ends);
  for (const leak of wallLeaks(crossings)) at(leak.barrier).leaks.push(leak);
  for (const barrier of [...barriers].sort(byText(identityOf)))
    if ((barrier.head?.gap ?? 0) > 0 || isSaidToStopShort(barrier)) at(barrier);
  return [...found.values()];
}

/**
 * GlobalIds may repeat even within one file, so what else tells two barriers apart belongs to it; not the thickness and
 * the rating, which may differ from one crossing of the same barrier to the next where other leaves stand before it.
 */
export const identityOf = ({ model, globalId, name, kind, storey }: BarrierFacts): string =>
  JSON.stringify([model, globalId, name, kind, storey?.globalId ?? null]);

/** As it is seen where least is known of its rating: what holds for the barrier must hold at all its crossings. */
export const leastKnown = ({ seen }: CrossedBarrier): BarrierFacts => seen.reduce(stricter);

/** The one whose rating is not known; of two known ones the one that asks more. */
export function stricter(a: BarrierFacts, b: BarrierFacts): BarrierFacts {
  const demand = (barrier: BarrierFacts): number =>
    resistsFire(barrier.rating) === undefined ? Number.POSITIVE_INFINITY : rankOf(barrier);
  return demand(b) > demand(a) ? b : a;
}

/** The integrity counts first; a bare duration stands in for it. What has no number comes last. */
export function rankOf({ rating }: BarrierFacts): number {
  if (resistsFire(rating) !== true) return 0;
  const minutes = [rating.integrity, rating.insulation, rating.duration].filter((value) => typeof value === 'number');
  return minutes[0] ?? 0;
}

function byText<T>(textOf: (item: T) => string): (a: T, b: T) => number {
  return (a, b) => compareTexts(textOf(a), textOf(b));
}
