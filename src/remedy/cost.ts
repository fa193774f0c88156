/** What a change costs: the formula stands in `allowed.ts`. */
import { length } from '../geometry/vector.js';
import type { Change, ChangeOpening, Penetration } from '../model.js';
import type { Costs } from './allowed.js';
import { singlesOf } from './singles.js';

export function costOf(change: Change, costs: Costs, penetrations: ReadonlyMap<string, Penetration>): number {
  const work = new Set<'move' | 'widen' | 'rebuild' | 'newOpening'>();
  let cost = 0;
  for (const one of singlesOf(change)) {
    if (one.kind === 'moveDuct') {
      work.add('move');
      cost += costs.movePerMm * length(one.by);
      cost += costs.perElement * (one.elements.length - 1) + costs.perLength * one.lengths.length;
    } else if (one.kind === 'changeOpening') {
      for (const by of edgesOf(one)) {
        if (by !== 0) work.add(by > 0 ? 'widen' : 'rebuild');
        cost += by > 0 ? costs.widenPerMm * by : -costs.rebuildPerMm * by;
      }
    } else if (one.kind === 'newOpening') {
      work.add('newOpening');
      const old = one.instead && penetrations.get(one.penetration)?.opening;
      if (!old) continue;
      work.add('rebuild');
      cost += costs.rebuildPerMm * Math.max(0, old.width + old.height - one.width - one.height);
    }
  }
  return [...work].reduce((sum, kind) => sum + costs[kind], cost);
}

const edgesOf = ({ sides, diameter }: ChangeOpening): number[] => [
  ...[sides.top, sides.bottom, sides.left, sides.right],
  diameter,
];
