/** Remedies of the demo building: some worked out by hand. */
import { beforeAll, describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { remediesFor } from '../../src/remedy/remedies.js';
import { demoBrief } from '../shipped-rules.js';
import { type RemediedBuilding, remedied } from './remedied.js';

let reviewed: RemediedBuilding;
beforeAll(async () => {
  reviewed = await remedied(demoBuilding().files, demoBrief);
});

const remedyOf = (duct: string, check: string) => {
  const { crossings, results } = reviewed;
  const own = crossings.penetrations.filter((p) => p.duct.name === duct).map(({ id }) => id);
  const found = results.filter(
    (one) => one.check === check && one.outcome === 'failed' && own.includes(one.subject.id),
  );
  return found.map(({ remedy }) => remedy);
};

describe('remedies of the demo building', () => {
  /**
   * By the usual costs (no unit): moving 20 + 0.1 each mm + 10 each piece that goes along, widening 40 + 0.2 each mm,
   * rebuilding 60 + 0.4 each mm.
   */
  it.each([
    // Right gap 140 of at most 50: 90 of wall at 60 + 0.4 × 90.
    ['SA-G-2', 'gap-within-tested-range', 'Rebuild 90 mm of wall on the right in its rated construction.'],
    // 4 of at least 10: 6 at 40 + 1.2; the damper would take three pieces along, at 20 + 0.6 + 30.
    ['FD-G-5', 'gap-within-tested-range', 'Widen the opening 6 mm at the bottom (structural engineer to agree).'],
    // Flanges of 20 leave 5 of a gap of 25; 10 are asked for, so 30 all round.
    [
      'SA-B-3b',
      'flange-leaves-gap',
      'Widen the opening 5 mm on the left, 5 mm on the right, 5 mm at the top and 5 mm at the bottom (structural engineer to agree).',
    ],
    // 400 × 250 with the middle of 10 to 50 on all sides.
    ['FD-G-2', 'opening-modelled', 'Make an opening of 460 × 310 mm about the duct (structural engineer to agree).'],
    // 150 of at least 200.
    [
      'FD-B-4',
      'separation-as-tested',
      'Move FD-B-4 50 mm to the left (3 pieces move along); widen the opening 35 mm on the left (structural engineer to agree); rebuild 25 mm of wall on the right in its rated construction.',
    ],
    // Straps hold 600, pins 3600; it is 700 wide.
    ['SP-S-1', 'fixing-width', 'Hold Illustrative blanket A with welded pins here.'],
  ])('are for %s by %s as worked out by hand', (duct, check, remedy) => {
    expect(remedyOf(duct, check)).toEqual([remedy]);
  });

  it('leave what no change within reach mends to the words of its rule', () => {
    const [skew] = reviewed.results.filter(
      (one) => one.check === 'skew-within-tested-range' && one.outcome === 'failed',
    );
    expect(skew?.change).toBeNull();
    expect(skew?.remedy).toMatch(/^Turn the duct square/);
  });

  it('are worked out for the worst places alone, and the others are counted', () => {
    const { judgement, results } = reviewed;
    expect(judgement.unsolvedPlaces).toBe(0);
    const judged = { judgement: { ...judgement, tested: [] }, results };
    const few = remediesFor(judged, { ...reviewed, mostPlaces: 2 });
    const fewer = remediesFor(judged, { ...reviewed, mostPlaces: 1 });
    expect(few.unsolvedPlaces).toBeGreaterThan(8);
    expect(fewer.unsolvedPlaces).toBe(few.unsolvedPlaces + 1);
    const isSolved = new Map(results.map((one) => [one.key, one.change]));
    for (const [key, { change }] of few.remedies) expect(change).toEqual(isSolved.get(key));
    const places = new Set(results.filter(({ key }) => few.remedies.has(key)).map(({ subject }) => subject.id));
    expect(places.size).toBeLessThanOrEqual(2);
  });
});
