import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { BarrierFacts, Crossings, Penetration } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { slices } from '../slices.js';
import {
  barrier,
  choicesFor,
  crossings,
  damper,
  duct,
  facingEnds,
  modelInfo,
  NO_CHOICES,
  NOT_REQUIRED,
  opening,
  penetration,
  rating,
  treated,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { shippedRules } from './rule-cases.js';

/** Whatever `find` or a host program may give: every field that it may leave open is left open some time. */

const RATINGS = [
  rating(),
  rating({ integrity: 60, insulation: null }),
  rating({ integrity: null, insulation: null }),
  rating({ integrity: 'none', insulation: 'none' }),
  rating({ state: 'durationOnly', integrity: null, insulation: null, duration: 60 }),
  UNSTATED,
  UNREADABLE,
  NOT_REQUIRED,
];
const length = fc.option(fc.constantFrom(-5, 0, 9.9, 10, 30, 50, 50.1, 1e6), { nil: null });
const name = fc.constantFrom('', 'unknown', 'Duct {measured} & "one"', 'D');

const anyBarrier = fc.record({
  globalId: fc.constantFrom('W1', 'W2'),
  name,
  kind: fc.constantFrom('wall', 'floor', 'roof' as const),
  thickness: length,
  construction: fc.constantFrom('steelStud', 'unknown' as const),
  rating: fc.constantFrom(...RATINGS),
});

const anyPenetration = fc
  .record({
    barrier: anyBarrier,
    crossing: fc.constantFrom('through', 'endsInside', 'partial' as const),
    name,
    ductShape: fc.constantFrom('rectangular', 'circular', 'oval', 'unknown' as const),
    openingShape: fc.option(fc.constantFrom('rectangular', 'circular', 'other' as const), { nil: null }),
    gaps: fc.record({ top: length, bottom: length, left: length, right: length, min: length, max: length }),
    facing: fc.constantFrom({}, { left: 'P-0002' }),
    skew: fc.constantFrom(0, 10, 10.01, 89),
    treatment: fc.constantFrom('blanket', 'board', 'both', 'damper', 'none', 'unknown' as const),
    layers: fc.constantFrom(null, 1, 2, 3),
    minutes: fc.constantFrom(null, 0, 60, 120),
    system: fc.constantFrom(null, 'SA', 'KX', 'XX'),
    stated: length,
    dampers: fc.subarray(['fire', 'fireSmoke', 'smoke', 'control', 'unknown'] as const),
    distance: fc.option(fc.constantFrom(0, 199.9, 200, 500), { nil: null }),
    outline: fc.boolean(),
  })
  .map(
    (c): Penetration => ({
      ...penetration(),
      treatment: { ...treated(c.treatment).treatment, layers: c.layers, integrity: c.minutes, insulation: c.minutes },
      barrier: barrier(c.barrier),
      crossing: c.crossing,
      duct: duct({
        name: c.name,
        shape: c.ductShape,
        system: c.system,
        stated: { width: c.stated, height: c.stated, diameter: null },
      }),
      opening: c.openingShape === null ? null : opening({ shape: c.openingShape }),
      gaps: { ...c.gaps, facing: c.facing },
      skew: c.skew,
      dampers: c.dampers.map((purpose) => damper({ globalId: purpose, purpose, rating: UNSTATED })),
      neighbours: c.distance === null ? [] : [{ penetration: 'P-0000', distance: c.distance }],
      ...(c.outline ? {} : { outlines: { duct: [], opening: [] } }),
    }),
  );

const numbered = (found: readonly Penetration[]): Penetration[] =>
  found.map((one, i) => ({ ...one, id: `P-000${i}`, key: `key-${i}`, neighbours: i === 0 ? [] : one.neighbours }));

const anyCrossings = fc
  .record({
    penetrations: fc.array(anyPenetration, { maxLength: 5 }).map(numbered),
    ends: fc.array(anyBarrier, { maxLength: 2 }),
    untouched: fc.array(anyBarrier, { maxLength: 2 }),
    apart: fc.constantFrom([], [{ model: 'm1', from: 'm2', distance: 2000, offset: [2000, 0, 0] as const }]),
  })
  .map(({ penetrations, ends, untouched, apart }): Crossings => {
    const facing = ends.map((given) => facingEnds({ barrier: barrier(given) }));
    const barriers: BarrierFacts[] = [
      ...untouched.map(barrier),
      ...crossings({ penetrations, facingEnds: facing }).barriers,
    ];
    return {
      barriers,
      penetrations,
      facingEnds: facing,
      openings: [],
      runs: [],
      access: [],
      compartments: [],
      doors: [],
      apart,
    };
  });

const anyModels = fc.option(fc.constantFrom([], [modelInfo({ ducts: 0 })], [modelInfo()]), { nil: undefined });

const anyChoices = fc.constantFrom(
  undefined,
  choicesFor(),
  choicesFor({}),
  choicesFor({ fixing: undefined }, { system: 'KX', dampers: 'never', integrity: 240 }),
  { ...NO_CHOICES, testedSystems: ['demonstration-blanket'], testedDampers: ['demonstration-damper'] },
);

it.each(slices(400, 20, 20260102))(
  'judges without a fault whatever it is given, and what it counts is what it lists: seed $seed',
  (slice) => {
    const listed = new Set<string>();
    fc.assert(
      fc.property(anyCrossings, anyModels, fc.boolean(), anyChoices, (found, models, demonstration, choices) => {
        const options = { brief: { demonstration, ...(choices && { choices }) }, ...(models && { models }) };
        const few = judge(found, shippedRules, options);
        const all = judge(found, shippedRules, { ...options, allFindings: true });
        expect(all.checks).toEqual(few.checks);
        for (const { id, about, outcomes } of all.checks) {
          const own = all.findings.filter(({ check }) => check === id);
          const count = (outcome: string) => own.filter((finding) => finding.outcome === outcome).length;
          expect(outcomes).toEqual({
            passed: about === 'fire' && !(demonstration && choices) ? 0 : count('passed'),
            failed: count('failed'),
            cantTell: count('cantTell'),
            inapplicable: count('inapplicable'),
            untested: count('untested'),
            wouldPass: own.filter(({ wouldBe }) => wouldBe === 'passed').length,
          });
        }
        for (const finding of all.findings) {
          listed.add(`${finding.check} ${finding.outcome} ${finding.wouldBe}`);
          for (const text of [finding.message, finding.remedy ?? '']) {
            // Names may hold anything; they are put in as they stand.
            expect(text.replaceAll('Duct {measured} & "one"', 'D')).not.toMatch(/[{}\n]|undefined|null|NaN/);
          }
        }
        // What is not listed is said by what is.
        const said = new Set(few.findings.flatMap(({ missing }) => missing));
        const keysListed = new Set(few.findings.map(({ key }) => key));
        for (const { outcome, wouldBe, missing, key } of all.findings) {
          if (outcome !== 'cantTell' || wouldBe !== null || keysListed.has(key)) continue;
          for (const fact of missing) {
            expect(
              [...said].some((one) => fact === one || fact.startsWith(`${one}.`)),
              fact,
            ).toBe(true);
          }
        }
        const keys = new Set(all.findings.map(({ key }) => key));
        expect(keys.size).toBe(all.findings.length);
        // A finding is the same whether or not the others are listed; only its number differs.
        const unnumbered = new Map(all.findings.map(({ id: _, ...finding }) => [finding.key, finding]));
        for (const { id: _, ...finding } of few.findings) expect(unnumbered.get(finding.key)).toEqual(finding);
      }),
      slice,
    );
    // Every check was there to be judged, and in many ways.
    expect(listed.size).toBeGreaterThan(22);
  },
);
