import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding, Penetration } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { slices } from '../slices.js';
import {
  barrier,
  choicesFor,
  crossings,
  damper,
  duct,
  gaps,
  opening,
  rating,
  treated,
  UNREADABLE,
  UNSTATED,
  wrapped,
} from './factories.js';
import { shippedRules } from './rule-cases.js';

/**
 * Evidence about a penetration is lost or garbled, one piece or several: under the demonstration brief, where passes
 * exist to be wrong, nothing that failed or could not be told becomes passed, and nothing that failed would pass.
 */

const brief = {
  demonstration: true,
  choices: {
    ...choicesFor({}, { system: 'SB', fixing: 'straps', integrity: 120 }, { system: 'KX', dampers: 'never' }),
    testedSystems: ['demonstration-blanket'],
    testedDampers: ['demonstration-damper'],
  },
};

const fireDamper = damper();
const tooWide = { width: 1600, height: 400, diameter: null, from: 'property' } as const;
const tooNear = { side: 'left', kind: 'corner', distance: 50, element: { model: 'm2', globalId: 'W2' } } as const;
const UNREACHED = { panel: null, distance: null, withinReach: false };

const withDampers = (p: Penetration, changes: Partial<Penetration['dampers'][number]>): Penetration => ({
  ...p,
  dampers: p.dampers.map((one) => ({ ...one, ...changes })),
});

const anyPenetration: fc.Arbitrary<Penetration> = fc
  .record({
    barrier: fc.record({
      rating: fc.constantFrom(rating(), rating({ integrity: 60, insulation: 'none' }), rating({ integrity: 240 })),
      construction: fc.constantFrom('steelStud', 'concrete', 'timberStud' as const),
      thickness: fc.constantFrom(50, 116, 200),
      kind: fc.constantFrom('wall', 'floor' as const),
    }),
    duct: fc.record({
      system: fc.constantFrom('SA', 'SB', 'KX'),
      material: fc.constantFrom('steel', 'plastic' as const),
      element: fc.constantFrom('segment', 'flexible', 'damper' as const),
      width: fc.constantFrom(300, 600, 700, 3700),
      stated: fc.constantFrom(
        { width: null, height: null, diameter: null },
        { width: 600, height: 400, diameter: null },
        { width: 600, height: 600, diameter: null },
      ),
    }),
    kind: fc.constantFrom('blanket', 'board', 'damper', 'both', 'none' as const),
    layers: fc.constantFrom(1, 2, 3),
    minutes: fc.constantFrom(60, 120),
    dampers: fc.constantFrom([], [fireDamper], [{ ...fireDamper, purpose: 'control' as const, rating: UNSTATED }]),
    fireDamper: fc.constantFrom(
      fireDamper,
      damper({ offset: 100 }),
      damper({ orientation: 'floor' }),
      damper({ size: tooWide }),
      damper({ construction: tooNear, access: UNREACHED }),
    ),
    skew: fc.constantFrom(0, 25),
    bottom: fc.constantFrom(30, 70),
    others: fc.constantFrom([], [{ model: 'm1', globalId: 'Y', kind: 'pipe' as const }]),
  })
  .map((c) =>
    wrapped({
      barrier: barrier(c.barrier),
      duct: duct(c.duct),
      treatment: { ...treated(c.kind).treatment, layers: c.layers, integrity: c.minutes, insulation: c.minutes },
      dampers: c.kind === 'damper' || c.kind === 'both' ? [c.fireDamper] : c.dampers,
      skew: c.skew,
      gaps: gaps({ bottom: c.bottom, max: c.bottom }),
      others: c.others,
      opening: opening(),
    }),
  );

const NOTHING = { width: null, height: null, diameter: null };
/**
 * What models say, and how many layers the brief declares. Minutes that the brief declares are no evidence: where they
 * are less than what was tested with these layers they count, but nobody need declare any.
 */
const LOSSES: { readonly [what: string]: (one: Penetration) => Penetration } = {
  'rating unreadable': (p) => ({ ...p, barrier: { ...p.barrier, rating: UNREADABLE } }),
  'rating missing': (p) => ({ ...p, barrier: { ...p.barrier, rating: UNSTATED } }),
  'insulation unknown': (p) => ({ ...p, barrier: { ...p.barrier, rating: { ...p.barrier.rating, insulation: null } } }),
  'integrity unknown': (p) => ({ ...p, barrier: { ...p.barrier, rating: { ...p.barrier.rating, integrity: null } } }),
  'construction unknown': (p) => ({ ...p, barrier: { ...p.barrier, construction: 'unknown' } }),
  'thickness unknown': (p) => ({ ...p, barrier: { ...p.barrier, thickness: null } }),
  'system missing': (p) => ({ ...p, duct: { ...p.duct, system: null } }),
  'system garbled': (p) => ({ ...p, duct: { ...p.duct, system: `${p.duct.system}?` } }),
  'material unknown': (p) => ({ ...p, duct: { ...p.duct, material: 'unknown' } }),
  'section unknown': (p) => ({ ...p, duct: { ...p.duct, ...NOTHING, shape: 'unknown' } }),
  'stated width missing': (p) => ({ ...p, duct: { ...p.duct, stated: { ...p.duct.stated, width: null } } }),
  'stated sizes missing': (p) => ({ ...p, duct: { ...p.duct, stated: NOTHING } }),
  'treatment unknown': (p) => ({ ...p, ...treated('unknown') }),
  'layers unknown': (p) => ({ ...p, treatment: { ...p.treatment, layers: null } }),
  'damper of unknown purpose': (p) => ({ ...p, dampers: p.dampers.map((one) => ({ ...one, purpose: 'unknown' })) }),
  'damper without rating': (p) => ({ ...p, dampers: p.dampers.map((one) => ({ ...one, rating: UNSTATED })) }),
  'damper without orientation': (p) => withDampers(p, { orientation: null }),
  'damper without actuation': (p) => withDampers(p, { actuation: null }),
  'damper without a size of its own': (p) => withDampers(p, { size: null }),
  'damper not placed': (p) => withDampers(p, { offset: null, standsOut: null }),
  'access not modelled': (p) => withDampers(p, { access: { panel: null, distance: null, withinReach: null } }),
  'opening missing': (p) => ({
    ...p,
    opening: null,
    others: [],
    gaps: { ...gaps(), top: null, bottom: null, left: null, right: null, min: null, max: null },
  }),
  'gaps unknown': (p) => ({
    ...p,
    gaps: { ...p.gaps, bottom: null, top: null, left: null, right: null, min: null, max: null },
  }),
};

const judged = (one: Penetration): Map<string, Finding> =>
  new Map(
    judge(crossings({ penetrations: [one] }), shippedRules, { brief, allFindings: true }).findings.map((finding) => [
      finding.key,
      finding,
    ]),
  );

const isBetter = (before: Finding, after: Finding): boolean =>
  (after.outcome === 'passed' && (before.outcome === 'failed' || before.outcome === 'cantTell')) ||
  (after.wouldBe === 'passed' && before.outcome === 'failed');

const ALONE_OR_MORE = Object.keys(LOSSES).flatMap((what) =>
  slices(120, 40, 20261125).map((slice) => ({ what, slice })),
);

describe('evidence that is lost makes nothing better', () => {
  const seen = new Set<string>();

  it.each(ALONE_OR_MORE)('$what, alone or with others, seed $slice.seed', ({ what, slice }) => {
    let changed = 0;
    fc.assert(
      fc.property(anyPenetration, fc.subarray(Object.keys(LOSSES), { maxLength: 3 }), (one, others) => {
        const lost = [...new Set([what, ...others])].reduce((left, name) => LOSSES[name]!(left), one);
        const [before, after] = [judged(one), judged(lost)];
        for (const [key, finding] of before) {
          seen.add(`${finding.check} ${finding.outcome}`);
          const now = after.get(key);
          if (!now) continue;
          if (now.outcome !== finding.outcome) changed++;
          expect(
            isBetter(finding, now),
            `${finding.check}: ${finding.outcome} -> ${now.outcome} (${now.message})`,
          ).toBe(false);
        }
      }),
      slice,
    );
    expect(changed).toBeGreaterThan(0);
  });

  it('and there was much that could have been wrong', () => {
    const passing = [...seen].filter((one) => one.endsWith(' passed'));
    expect(passing.length).toBeGreaterThan(20);
    expect([...seen].filter((one) => one.endsWith(' failed')).length).toBeGreaterThan(15);
  });
});
