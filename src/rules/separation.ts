import type { RuleSet } from './rule-set.js';
import { largestValue } from './size-value.js';

/** Largest distance, in mm, that any check or tested system wants between neighbours: `find` has to look that far. 0 where none does. */
export function largestSeparation(rules: RuleSet): number {
  const distances = rules.checks
    .filter((check) => check.each === 'neighbour' && check.definition.measure?.trim() === 'neighbour.distance')
    .map(({ limit: { atLeast } }) => {
      if (!atLeast) return 0;
      return 'table' in atLeast ? largestValue(atLeast.table) : 'literal' in atLeast ? atLeast.literal : 0;
    });
  const tested = [
    ...[...rules.systems, ...rules.dampers].map(({ scope }) => scope.separationAtLeast),
    ...rules.systems.flatMap(({ details }) => details.flatMap(({ separationAtLeast }) => separationAtLeast ?? [])),
  ];
  return Math.max(0, ...distances, ...tested.map(largestValue));
}
