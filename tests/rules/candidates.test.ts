/** The best way of a tested system to make a penetration good, against all ways that its document has. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { candidatesOf, compareCandidates, heldBest, sealedBy } from '../../src/rules/candidates.js';
import { detailsFor, placeOf } from '../../src/rules/detail-facts.js';
import type { FactObject } from '../../src/rules/fact-schema.js';
import { fittingAt } from '../../src/rules/fitting.js';
import { isBuilt, scopeLines } from '../../src/rules/scope-lines.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import { coverMass } from '../../src/supports/masses.js';
import { shippedRules } from './rule-cases.js';

const { systems } = shippedRules;
const [shippedBlanket] = systems as [TestedSystem];
/** With details for narrow gaps and for narrow openings beside the shipped ones. */
const blanket: TestedSystem = {
  ...shippedBlanket,
  details: shippedBlanket.details.flatMap((one) => [
    one,
    { ...one, id: `${one.id}-narrow`, gap: { atLeast: 5, atMost: 35 }, edgeDistanceAtLeast: 10 },
    { ...one, id: `${one.id}-small`, openingAtMost: { width: 700, height: 700 } },
  ]),
};
const tried = [...systems, blanket];
const SIZES = [300, 400, 500, 600, 601, 1200, 3700];
const anySize = fc.constantFrom(...SIZES);

const anyFacts: fc.Arbitrary<FactObject> = fc
  .record({
    kind: fc.constantFrom('wall', 'floor'),
    construction: fc.constantFrom('steelStud', 'masonry', 'concrete', 'shaftWall', 'aeratedConcrete', 'timberStud'),
    thickness: fc.constantFrom(80, 128, 150, 200),
    shape: fc.constantFrom('rectangular', 'circular', 'oval'),
    size: fc.tuple(anySize, anySize),
    gaps: fc.tuple(fc.constantFrom(5, 10, 20, 30), fc.constantFrom(30, 40, 50, 55)),
    layers: fc.constantFrom(1, 2, 3),
    treatment: fc.constantFrom('blanket', 'board', 'fireResistingDuct'),
    minutes: fc.constantFrom(60, 120, 180),
    bothFacesReached: fc.boolean(),
    edgeDistance: fc.constantFrom(20, 60, 2000),
  })
  .map(({ kind, construction, thickness, shape, size: [width, height], gaps: [least, most], ...rest }) => ({
    barrier: { kind, construction, thickness, rated: true, rating: { state: 'stated' } },
    duct: {
      ...{ element: 'segment', material: 'steel', shape, wall: { sheet: 1 }, underside: width, measuredTo: 0 },
      ...(shape === 'circular' ? { diameter: width, aspectRatio: 1 } : { width, height }),
    },
    penetration: {
      ...{ crossing: 'through', skew: 0, gapsTo: 'sheet', narrowestGap: least, widestGap: most },
      ...{ edgeDistance: rest.edgeDistance, bothFacesReached: rest.bothFacesReached },
      opening: { present: true, width: width + 2 * least, height: height + 2 * most },
      treatment: { kind: rest.treatment, layers: rest.layers },
      required: { integrity: rest.minutes, insulation: rest.minutes },
    },
    brief: { fire: 'insideAndOutside', overPressure: 500, underPressure: 500 },
  }));

describe('the candidates of a penetration', () => {
  it('hold the best of every fixing with every detail', () => {
    let several = 0;
    fc.assert(
      fc.property(anyFacts, fc.constantFrom(...tried), (facts, system) => {
        const details = detailsFor(placeOf(system, facts));
        const fixings = system.fixings.length > 0 ? system.fixings : [undefined];
        const all = (details.length > 0 ? details : [undefined]).flatMap((detail) =>
          fixings.map((fixing) => sealedBy(heldBest(system, facts, fixing?.id), detail)),
        );
        if (all.length > 3) several++;
        const [best] = candidatesOf(system, facts);
        expect(all.filter((one) => compareCandidates(one, best!) < 0)).toEqual([]);
      }),
      { numRuns: 1500, seed: 8 },
    );
    expect(several).toBeGreaterThan(20);
  });

  it('count what their lines say one by one', () => {
    fc.assert(
      fc.property(anyFacts, fc.constantFrom(...tried), (facts, system) => {
        for (const one of candidatesOf(system, facts)) {
          const lines = scopeLines(one, facts);
          const margins = lines.flatMap((line) => (isBuilt(line) ? (line.relative ?? []) : []));
          expect(one).toMatchObject({
            misses: lines.filter(({ met }) => met === false).length,
            unknown: lines.filter(({ met }) => met === undefined).length,
            margin: Math.min(...margins),
          });
        }
      }),
      { numRuns: 500, seed: 10 },
    );
  });

  it('of which those that fit are all that miss nothing and leave nothing open', () => {
    let fitting = 0;
    fc.assert(
      fc.property(anyFacts, (facts) => {
        const { feasible, nearest } = fittingAt(facts, tried);
        fitting += feasible.length;
        for (const { misses, unknown } of feasible) expect(misses + unknown).toBe(0);
        expect(feasible.length > 0 ? nearest : [1]).not.toEqual(feasible.length > 0 ? [1] : []);
        const order = nearest.map(({ misses }) => misses);
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }),
      { numRuns: 1000, seed: 9 },
    );
    expect(fitting).toBeGreaterThan(50);
  });

  it('weigh what they take: the layers on a metre, and the build-up at both faces', () => {
    const facts: FactObject = {
      barrier: { kind: 'wall', construction: 'masonry', thickness: 190 },
      duct: { element: 'segment', shape: 'rectangular', width: 600, height: 400, material: 'steel' },
      penetration: { treatment: { kind: 'blanket', layers: 2 } },
    };
    // Two layers of 38 mm, 128 kg/m³: (752 × 552 − 600 × 400) mm² = 0.175104 m², 22.413 kg on a metre. The build-up is one
    // layer on that, 200 mm at each face: (828 × 628 − 752 × 552) mm² = 0.104880 m², 13.425 kg/m on 0.4 m = 5.370 kg.
    expect(candidatesOf(shippedBlanket, facts)[0]!.material).toBeCloseTo(22.413 + 5.37, 2);
    expect(coverMass({ shape: 'rectangular', width: 600, height: 400 }, 76, 128)).toBeCloseTo(22.413, 3);
  });
});
