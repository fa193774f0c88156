/** The fewest access panels on a way, against every choice of places. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fewestPanels, type WayToReach } from '../../src/rules/fewest-panels.js';

/** Whole steps of 1 mm: enough for ways of 12, with every subset of places tried. */
const small = fc
  .record({
    length: fc.integer({ min: 4, max: 11 }),
    spacing: fc.oneof(fc.integer({ min: 2, max: 6 }), fc.constant(Number.POSITIVE_INFINITY)),
    targets: fc.array(fc.record({ at: fc.integer({ min: 0, max: 11 }), within: fc.integer({ min: 0, max: 3 }) }), {
      maxLength: 3,
    }),
    allowed: fc.array(fc.tuple(fc.integer({ min: 0, max: 11 }), fc.integer({ min: 0, max: 5 })), { maxLength: 3 }),
  })
  .map(
    ({ length, spacing, targets, allowed }): WayToReach => ({
      ...{ length, spacing },
      targets: targets.filter(({ at }) => at <= length),
      allowed: allowed
        .map(([from, more]) => [from, Math.min(length, from + more)] as const)
        .filter(([from, to]) => from <= to && from < length)
        .sort((a, b) => a[0] - b[0]),
    }),
  );

const does = ({ length, spacing, targets }: WayToReach, places: readonly number[]): boolean => {
  const all = [0, ...places, length];
  return (
    all.slice(1).every((place, i) => place - all[i]! <= spacing + 0.01) &&
    targets.every(({ at, within }) => all.some((place) => Math.abs(place - at) <= within + 0.01))
  );
};

/** All ends are whole, so whole places do as well as any. */
function leastByTrying(way: WayToReach): number | null {
  const may = Array.from({ length: way.length - 1 }, (_, i) => i + 1).filter((x) =>
    way.allowed.some(([from, to]) => x >= from && x <= to),
  );
  let least: number | null = null;
  for (let chosen = 0; chosen < 1 << may.length; chosen++) {
    const places = may.filter((_, i) => chosen & (1 << i));
    if ((least === null || places.length < least) && does(way, places)) least = places.length;
  }
  return least;
}

it('needs as few as any choice of places, and says so where none does', () => {
  let proposed = 0;
  fc.assert(
    fc.property(small, (way) => {
      const places = fewestPanels(way);
      const least = leastByTrying(way);
      expect(places?.length ?? null).toBe(least);
      if (places === null) return;
      expect(does(way, places)).toBe(true);
      for (const place of places) expect(way.allowed.some(([a, b]) => place >= a && place <= b)).toBe(true);
      if (places.length > 0) proposed++;
    }),
    { numRuns: 3000, seed: 7 },
  );
  expect(proposed).toBeGreaterThan(300);
});
