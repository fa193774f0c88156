import { describe, expect, it } from 'vitest';
import type { DuctFacts, Penetration, Rating } from '../../src/model.js';
import { judge, loadRules } from '../../src/rules/index.js';
import {
  damper as aDamper,
  barrier,
  checkFields,
  choicesFor,
  crossings,
  document,
  duct,
  penetration,
  rating,
  treated,
} from './factories.js';
import { type RuleCase, ruleCases, shippedRules } from './rule-cases.js';

/** Codes apply where the brief names them, each by itself; where it names none, one finding says so for all places. */

const brief = (jurisdiction?: string, ...edition: string[]) => ({
  choices: { ...choicesFor(), jurisdiction, edition },
});
const systemOf = (longName: string, changes: Partial<DuctFacts> = {}): DuctFacts =>
  duct({ system: 'X1', systemNames: [longName], ...changes });
const damper = (changes: Partial<Rating> = {}, purpose: 'fire' | 'unknown' = 'fire'): Partial<Penetration> => ({
  ...treated('damper'),
  dampers: [aDamper({ purpose, rating: rating(changes) })],
});
const protection = (integrity: number | null, insulation = integrity): Partial<Penetration> => ({
  treatment: { ...treated('blanket').treatment, integrity, insulation },
});
const at = (longName: string, changes: Partial<Penetration>, of: Partial<DuctFacts> = {}) =>
  crossings({ penetrations: [penetration({ duct: systemOf(longName, of), ...changes })] });

const KITCHEN = 'Kitchen exhaust';
const CAR_PARK = 'Car park exhaust';
const BARRED = at('Supply', {});
const NO_SERVICE = { outcome: 'inapplicable' } as const;

/** The same for each: what the code allows, what it does not, what can't be told, and where it does not hold. */
function codeCases(
  code: readonly [jurisdiction: string, edition: string],
  good: ReturnType<typeof at>,
  bad: ReturnType<typeof at>,
  open: ReturnType<typeof at>,
  missing: string,
  measured: number | string | boolean,
): RuleCase[] {
  const [jurisdiction, edition] = code;
  const silent = { outcome: 'cantTell', missing: ['brief.jurisdiction', 'brief.edition'] } as const;
  return [
    { why: 'good', crossings: good, brief: brief(...code), findings: [{ outcome: 'cantTell', wouldBe: 'passed' }] },
    { why: 'bad', crossings: bad, brief: brief(...code), findings: [{ outcome: 'failed', measured }] },
    { why: 'open', crossings: open, brief: brief(...code), findings: [{ outcome: 'cantTell', missing: [missing] }] },
    { why: 'no brief', crossings: bad, findings: [silent] },
    {
      why: 'no edition',
      crossings: bad,
      brief: brief(jurisdiction),
      findings: [{ outcome: 'cantTell', missing: ['brief.edition'] }],
    },
    { why: 'no edition of another', crossings: bad, brief: brief('Estuaria'), findings: [NO_SERVICE] },
    { why: 'another edition', crossings: bad, brief: brief(jurisdiction, `${edition} A`), findings: [NO_SERVICE] },
    {
      why: 'among several editions, in other letters',
      crossings: bad,
      brief: brief(` ${jurisdiction.toUpperCase()}`, 'Another', edition.toLowerCase()),
      findings: [{ outcome: 'failed' }],
    },
  ];
}

ruleCases('code-named', [
  { why: 'nothing asks', crossings: BARRED, findings: [{ outcome: 'passed' }] },
  {
    why: 'a damper asks',
    crossings: at('Supply', damper()),
    findings: [{ outcome: 'cantTell', missing: ['brief.jurisdiction', 'brief.edition'] }],
  },
  {
    why: 'a jurisdiction without an edition',
    crossings: at('Supply', damper()),
    brief: brief('Canada'),
    findings: [{ outcome: 'cantTell', missing: ['brief.edition'] }],
  },
  {
    why: 'a jurisdiction that no check is of',
    crossings: at('Supply', damper()),
    brief: brief('Estuaria'),
    findings: [{ outcome: 'passed' }],
  },
]);

const noDamper = (longName: string, code: readonly [string, string]): RuleCase[] =>
  codeCases(
    code,
    at(longName, protection(120)),
    at(longName, damper()),
    at(longName, damper({}, 'unknown')),
    'penetration.damper.purpose',
    true,
  );
const UK_KITCHEN = ['United Kingdom', 'BS 9999:2017'] as const;
const UK = ['United Kingdom', 'Approved Document B'] as const;
const IMC = ['United States', 'IMC'] as const;
const IBC = ['United States', 'IBC 2012'] as const;
const GERMANY = ['Germany', 'M-LüAR'] as const;
const AUSTRALIA = ['Australia', 'AS/NZS 1668.1'] as const;

ruleCases('uk-kitchen-exhaust-no-dampers', noDamper(KITCHEN, UK_KITCHEN));
ruleCases('us-grease-duct-no-dampers', noDamper('Grease duct', ['United States', 'NFPA 96']));
ruleCases('au-kitchen-exhaust-no-dampers', noDamper(KITCHEN, ['Australia', 'AS 1668']));
ruleCases('uk-car-park-exhaust-no-dampers', noDamper(CAR_PARK, UK));
ruleCases('us-smoke-control-no-dampers', [
  ...noDamper('Stair pressurization', IBC),
  {
    why: 'smoke exhaust too',
    crossings: at('Smoke exhaust', damper()),
    brief: brief(...IBC),
    findings: [{ outcome: 'failed' }],
  },
  { why: 'another service', crossings: at(KITCHEN, damper()), brief: brief(...IBC), findings: [NO_SERVICE] },
  {
    why: 'a system that may be anything',
    crossings: at('Unit 7', damper(), { systemType: null }),
    brief: brief(...IBC),
    findings: [{ outcome: 'cantTell', missing: ['duct.service'] }],
  },
]);

const materials = (longName: string, bad: 'plastic' | 'aluminium', code: readonly [string, string]): RuleCase[] =>
  codeCases(
    code,
    at(longName, {}, { material: 'steel' }),
    at(longName, {}, { material: bad }),
    at(longName, {}, { material: 'unknown' }),
    'duct.material',
    bad,
  );
ruleCases('de-kitchen-exhaust-materials', materials('Küchenabluft', 'plastic', GERMANY));
ruleCases('uk-car-park-exhaust-melting-point', materials(CAR_PARK, 'aluminium', UK));

const reaching = (longName: string, good: number, bad: number, code: readonly [string, string]): RuleCase[] =>
  codeCases(
    code,
    at(longName, protection(good)),
    at(longName, protection(bad)),
    at(longName, protection(null)),
    'penetration.treatment.rating',
    bad,
  );
ruleCases('de-kitchen-exhaust-integrity', reaching(KITCHEN, 90, 89, GERMANY));
ruleCases('de-kitchen-exhaust-insulation', reaching(KITCHEN, 90, 89, GERMANY));
ruleCases('us-grease-duct-integrity', reaching(KITCHEN, 60, 59, IMC));
ruleCases('us-grease-duct-insulation', reaching(KITCHEN, 60, 59, IMC));
// As the wall is rated: -/120/120.
ruleCases('au-smoke-duct-integrity', reaching('Smoke spill', 120, 119, AUSTRALIA));
ruleCases('au-smoke-duct-insulation', reaching('Smoke spill', 120, 119, AUSTRALIA));

const dampersOf = (wall: number, good: number, bad: number, code: readonly [string, string]): RuleCase[] => {
  const through = (changes: Partial<Penetration>) =>
    at('Supply', { ...changes, barrier: barrier({ rating: rating({ integrity: wall, insulation: wall }) }) });
  return codeCases(
    code,
    through(damper({ integrity: good })),
    through(damper({ integrity: bad })),
    through(damper({ state: 'unstated', integrity: null, duration: null })),
    'penetration.damper.rating',
    bad,
  );
};
// IBC Table 717.3.2.1 (from memory): under 3 h a damper of 1½ h, else of 3 h.
ruleCases('us-damper-rating', [
  ...dampersOf(120, 90, 89, IBC),
  {
    why: 'a wall of 3 h',
    crossings: at('Supply', {
      ...damper({ integrity: 179 }),
      barrier: barrier({ rating: rating({ integrity: 180 }) }),
    }),
    brief: brief(...IBC),
    findings: [{ outcome: 'failed', limit: { atLeast: 180 } }],
  },
  {
    why: '1.5 hours without criteria',
    crossings: at('Supply', damper({ state: 'durationOnly', integrity: null, insulation: null, duration: 90 })),
    brief: brief(...IBC),
    findings: [{ wouldBe: 'passed', outcome: 'cantTell', measured: 90, limit: { atLeast: 90 } }],
  },
]);
ruleCases('ca-damper-rating', dampersOf(90, 60, 59, ['Canada', 'NBC']));
ruleCases('uk-damper-integrity', dampersOf(30, 60, 59, ['United Kingdom', 'Approved Document B, volume 2, 2019']));
ruleCases(
  'uk-appliance-duct-half',
  codeCases(
    UK,
    at('Combustion air', protection(60)),
    at('Combustion air', protection(54)),
    at('Combustion air', protection(null)),
    'penetration.treatment.rating',
    0.45,
  ),
);

// NBC Table 3.1.8.4 (from memory): minutes of the separation, minutes of the closure.
it.each([
  [30, 20],
  [45, 45],
  [60, 45],
  [90, 60],
  [120, 90],
  [180, 120],
  [240, 180],
])('in Canada a separation of %i min asks for a damper of %i min', (wall, closure) => {
  const found = at('Supply', { ...damper(), barrier: barrier({ rating: rating({ integrity: wall }) }) });
  const [finding] = judge(found, shippedRules, { brief: brief('Canada', 'NBC'), allFindings: true }).findings.filter(
    ({ check }) => check === 'ca-damper-rating',
  );
  expect(finding?.limit).toEqual({ atLeast: closure });
});

describe('codes in the report of a judgement', () => {
  it('stand with their checks', () => {
    const { checks } = judge(BARRED, shippedRules);
    expect(checks.find(({ id }) => id === 'ca-damper-rating')?.basis).toEqual({
      source: 'National Building Code of Canada; from memory',
      clause: 'Table 3.1.8.4',
      status: 'unverified',
      jurisdiction: 'Canada',
      edition: 'NBC',
    });
    expect(checks.find(({ id }) => id === 'skew-limited')?.basis).toMatchObject({ jurisdiction: null, edition: null });
  });

  it('are named once for all places that wait, and only there', () => {
    const found = crossings({
      penetrations: [1, 2, 3].map((n) => penetration({ id: `P-${n}`, key: `key-${n}`, ...damper() })),
    });
    const { findings } = judge(found, shippedRules);
    const waiting = findings.filter(({ missing }) => missing.includes('brief.jurisdiction'));
    expect(waiting.map(({ check, subject }) => [check, subject.type])).toEqual([['code-named', 'model']]);
    expect(waiting[0]?.message).toContain('places that wait for it: 3');
    expect(waiting[0]?.message).toContain('Canada: NBC');
  });

  it('every check of a code can fail only under its own code', () => {
    const codes = shippedRules.checks.flatMap(({ definition: { basis } }) => basis.code ?? []);
    const found = crossings({
      penetrations: [KITCHEN, CAR_PARK, 'Smoke exhaust', 'Supply'].map((name, n) =>
        penetration({
          ...{ id: `P-${n}`, key: `key-${n}`, duct: systemOf(name, { material: 'plastic' }) },
          ...damper({ integrity: 10, insulation: 10 }),
        }),
      ),
    });
    for (const { jurisdiction, edition } of codes) {
      const failed = judge(found, shippedRules, { brief: brief(jurisdiction, edition) }).findings.filter(
        ({ outcome }) => outcome === 'failed',
      );
      const of = failed.flatMap(
        ({ check }) => shippedRules.checks.find((one) => one.definition.id === check)?.definition.basis.code ?? [],
      );
      for (const code of of) expect(code).toEqual({ jurisdiction, edition });
    }
  });

  it('an invented code of a project works like the shipped ones', () => {
    const basis = { source: 'invented', jurisdiction: 'Estuaria', edition: 'Code 1', status: 'unverified' };
    const rules = loadRules([{ file: 'estuaria.yaml', text: document([checkFields({ basis })]) }]);
    const skewed = crossings({ penetrations: [penetration({ skew: 25 })] });
    const outcomes = (of: ReturnType<typeof brief>) =>
      judge(skewed, rules, { brief: of, allFindings: true }).findings.map(({ outcome }) => outcome);
    expect(outcomes(brief('Estuaria', 'Code 1'))).toEqual(['failed']);
    expect(outcomes(brief('Estuaria', 'Code 2'))).toEqual(['inapplicable']);
    expect(outcomes(brief())).toEqual(['cantTell']);
  });
});
