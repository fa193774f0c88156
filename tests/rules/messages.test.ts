import { describe, expect, it } from 'vitest';
import type { BarrierFacts, Finding, Rating } from '../../src/model.js';
import { type JudgeOptions, judge } from '../../src/rules/index.js';
import { missingWords } from '../../src/rules/words.js';
import {
  barrier,
  choicesFor,
  compartment,
  crossings,
  damper,
  door,
  duct,
  facingEnds,
  gaps,
  leak,
  modelInfo,
  penetration,
  rating,
  rulesOf,
  run,
  shaft,
  stretch,
  treated,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { demonstrationBrief, protectedCrossings } from './protected.js';
import { ASKED, BESIDE, REACHED } from './room-and-access.js';
import { shippedRules } from './rule-cases.js';
import { supportedBrief, supportedCrossings } from './supported.js';

const NOT_RATED = rating({ text: '-/-/-', integrity: 'none', insulation: 'none' });
const ALL: JudgeOptions = { allFindings: true };
const all = (found: Parameters<typeof judge>[0]): readonly Finding[] =>
  judge(found, shippedRules, { ...ALL, models: [modelInfo()] }).findings;
const messageOf = (findings: readonly Finding[], check: string): string | undefined =>
  findings.find((finding) => finding.check === check)?.message;

/** What stands beside ducts and lies on them is said of a building of its own. */
const BESIDE_DUCTS: ReadonlySet<string> = new Set(['room', 'accessGap', 'bend', 'accessPanel']);
const SUPPORTS: ReadonlySet<string> = new Set(['support', 'supportSpan']);
const eachOf = (id: string) => shippedRules.checks.find(({ definition }) => definition.id === id)?.definition.each;

describe('with all facts there', () => {
  const wall = barrier({ storey: { globalId: 'S', name: 'Level 1', elevation: 0 } });
  const found = crossings({
    penetrations: [
      penetration({ barrier: wall, ...treated('none'), skew: 25, gaps: gaps({ bottom: 70, max: 70 }) }),
      penetration({
        id: 'P-0002',
        key: 'key-2',
        duct: duct({ globalId: 'D2', name: 'Duct 2', shape: 'circular', diameter: 200 }),
        elements: [{ model: 'm1', globalId: 'D2' }],
        barrier: wall,
        ...treated('damper'),
        dampers: [damper({ rating: rating({ insulation: 'none' }) })],
        neighbours: [{ penetration: 'P-0001', distance: 80 }],
      }),
    ],
    facingEnds: [facingEnds({ barrier: wall })],
    barriers: [wall, barrier({ globalId: 'W2', name: 'Wall 2' })],
    compartments: [compartment({ leaks: [leak(300)] }), shaft(false, 'leak', 'doorUnrated'), shaft(true)],
    doors: [door(), door({ rating: NOT_RATED })],
    runs: [run({ stretches: run().stretches.map((one) => ({ ...one, ends: [{ penetration: 'P-0001', part: 0 }] })) })],
  });
  const built = {
    ...protectedCrossings,
    runs: [run(), run({ id: 'R-003', stretches: [stretch({ clearances: BESIDE })] })],
    access: [REACHED],
  };
  const asked = { ...demonstrationBrief, choices: { ...demonstrationBrief.choices, access: ASKED } };
  const findings = [
    ...all(found),
    ...judge(protectedCrossings, shippedRules, { ...ALL, models: [modelInfo()], brief: demonstrationBrief }).findings,
    ...judge(supportedCrossings, shippedRules, {
      ...ALL,
      models: [modelInfo()],
      brief: supportedBrief,
    }).findings.filter(({ check }) => SUPPORTS.has(eachOf(check)!)),
    ...judge(built, shippedRules, { ...ALL, models: [modelInfo()], brief: asked }).findings.filter(({ check }) =>
      BESIDE_DUCTS.has(eachOf(check)!),
    ),
    ...shippedRules.checks.flatMap(({ definition: { basis, services, each } }) => {
      const { jurisdiction, edition } = basis.code ?? { jurisdiction: 'Estuaria', edition: 'Code 1' };
      const isBeside = BESIDE_DUCTS.has(each);
      const choices = isBeside ? choicesFor({ service: services?.[0] }) : choicesFor();
      const brief = { choices: { ...choices, jurisdiction, edition: [edition] } };
      const judged = judge(isBeside ? built : found, shippedRules, { ...ALL, models: [modelInfo()], brief }).findings;
      return isBeside ? judged.filter(({ check }) => eachOf(check) === each) : judged;
    }),
  ];

  it.each(shippedRules.checks.map(({ definition }) => definition.id))('%s says whole sentences', (check) => {
    const own = findings.filter((finding) => finding.check === check);
    expect(own.length).toBeGreaterThan(0);
    // What the chosen system says nothing of, such as ducts beyond its tables, is no fact that could be there.
    const told = own.filter(
      ({ missing }) => !missing.some((fact) => fact.startsWith('system.') || fact === 'brief.jurisdiction'),
    );
    expect(told.length).toBeGreaterThan(0);
    for (const { message, remedy, outcome, wouldBe } of told) {
      for (const text of [message, ...(remedy === null ? [] : [remedy])]) {
        expect(text).not.toMatch(/[{}\n]|undefined|null|NaN|not known|, ,| {2}|\.\.$/);
        expect(text).toMatch(/^[\p{Lu}].*\.$/u);
      }
      // A remedy for what is wrong, and none for what is not.
      if (outcome === 'failed') expect(remedy).not.toBeNull();
      if (outcome === 'passed' || wouldBe === 'passed') expect(remedy).toBeNull();
    }
  });

  it('with names and numbers', () => {
    expect(messageOf(findings, 'separation')).toBe(
      'Duct 1 and Duct 2 (K7F2-9) pass Wall 1 80 mm apart; at least 200 mm is wanted.',
    );
    expect(messageOf(findings, 'skew-limited')).toBe('Duct 1 crosses Wall 1 25° off square; at most 10° is allowed.');
    expect(messageOf(findings, 'gap-within-range')).toBe(
      'The bottom gap of Duct 1 in Wall 1 is 70 mm, 20 mm outside the allowed 10 to 50 mm.',
    );
    expect(messageOf(findings, 'ducts-joined')).toContain('Two ends of SA face each other across Wall 1, 128 mm apart');
  });
});

describe('what is missing is named, and nothing else is said of it', () => {
  const unrated = all(
    crossings({
      penetrations: [
        penetration({
          barrier: barrier({ rating: UNSTATED }),
          dampers: [damper({ purpose: 'control', rating: UNSTATED })],
        }),
      ],
    }),
  );

  it('where it is not known whether the check applies, its own words might be untrue', () => {
    expect(messageOf(unrated, 'damper-or-protection')).toBe(
      'Penetration K7F2-9: A fire damper, or a protected duct, at every rated barrier: whether this is asked for ' +
        'cannot be told, since the fire rating of the barrier is not known.',
    );
    expect(unrated.find(({ check }) => check === 'damper-or-protection')?.remedy).toBeNull();
  });

  const say = (check: Parameters<typeof rulesOf>[0], changes: Parameters<typeof penetration>[0] = {}) =>
    judge(crossings({ penetrations: [penetration(changes)] }), rulesOf(check), ALL).findings[0]?.message;

  it('one or several', () => {
    const reasons = (...whens: string[]) => ({
      cantTellWhen: whens.map((when, i) => ({ reason: `r${i}`, when, missing: ['a.b'], message: 'm' })),
    });
    expect(say(reasons('duct.diameter > 1'))).toBe('Penetration K7F2-9: Skew: the diameter of the duct is not known.');
    expect(say(reasons('duct.diameter > 1', 'duct.sectionResidual > 1', 'duct.run == "R"'))).toBe(
      'Penetration K7F2-9: Skew: the diameter of the duct, how far the measured section is off its shape and ' +
        'the run of the duct are not known.',
    );
  });

  it('which code holds is asked for only where nobody says it', () => {
    const code = { source: 'a code', status: 'unverified', jurisdiction: 'Estuaria', edition: 'Code 1' };
    const rules = rulesOf({ measure: 'duct.diameter', basis: code });
    const said = (choices: object) =>
      judge(crossings({ penetrations: [penetration()] }), rules, {
        ...ALL,
        brief: { choices: { ...choicesFor(), edition: [], ...choices } },
      }).findings.map(({ message }) => message);
    expect(said({ jurisdiction: 'Estuaria', edition: ['Code 1'] })).toEqual(['the diameter of the duct is not known.']);
    expect(said({})).toEqual([expect.stringContaining('Estuaria')]);
    expect(said({ jurisdiction: 'Estuaria' })).toEqual([expect.stringContaining('Code 1')]);
  });

  it('a limit that is not known is not spoken of as if the measure were missing', () => {
    expect(say({ atMost: { cel: 'duct.diameter' } })).toBe(
      'Penetration K7F2-9: Skew: the diameter of the duct is not known.',
    );
  });

  it('what meets a limit without proof says so, with the source and one full stop', () => {
    expect(say({ unit: 'deg', basis: { source: 'Common practice, no source.', status: 'unverified' } })).toBe(
      'Penetration K7F2-9: Skew: 0° meets the limit (at most 10°), but that is not proved by a test ' +
        '(Common practice, no source).',
    );
    expect(say({ measure: 'duct.material', atMost: undefined, among: ['steel'] })).toBe(
      'Penetration K7F2-9: Skew: steel would do, but that is not proved by a test (a test).',
    );
  });
});

describe('names are put in as they stand', () => {
  const named = (changes: Partial<BarrierFacts>): string | undefined =>
    messageOf(all(crossings({ penetrations: [penetration({ barrier: barrier(changes) })] })), 'barrier-rating-known');
  const unreadable = (text: string): Rating => ({ ...UNREADABLE, text });

  it.each([
    ['the word unknown', { name: 'unknown', rating: UNSTATED }, 'unknown states no fire rating'],
    ['no name: the GlobalId', { name: '', rating: UNSTATED }, 'W1 states no fire rating'],
    ['what looks like a placeholder', { name: '{measured}', rating: UNSTATED }, '{measured} states no fire rating'],
    ['what looks like a pattern', { name: '$& $1', rating: UNSTATED }, '$& $1 states no fire rating'],
    ['a rating that says unknown', { rating: unreadable('unknown') }, 'states the fire rating "unknown", which'],
  ] as const)('%s', (_, changes, text) => {
    expect(named(changes)).toContain(text);
  });
});

it('a neighbour without a name is called by its GlobalId', () => {
  const found = crossings({
    penetrations: [
      penetration({ neighbours: [{ penetration: 'P-0002', distance: 80 }] }),
      penetration({ id: 'P-0002', key: 'key-2', duct: duct({ globalId: 'D2', name: '' }) }),
    ],
  });
  expect(messageOf(all(found), 'separation')).toContain('Duct 1 and D2 (K7F2-9) pass Wall 1 80 mm apart');
});

describe('numbers are judged as they are reported', () => {
  const judged = (check: Parameters<typeof rulesOf>[0], width: number) =>
    judge(crossings({ penetrations: [penetration({ duct: duct({ width }) })] }), rulesOf(check), ALL).findings[0];

  // Contract: lengths are rounded to 0.1 mm, angles to 0.01°, before they are judged.
  it.each([
    ['mm', 'duct.width / 3', 100, 33.3],
    ['deg', 'duct.width * duct.height / (3 * duct.height)', 100, 33.33],
    [undefined, 'duct.width / 3', 100, 33.333333],
    ['mm', 'duct.width / 3', 99.9, 33.3],
  ] as const)('in %s, %s of %d', (unit, measure, width, measured) => {
    expect(judged({ measure, unit, atMost: measured }, width)).toMatchObject({
      measured,
      margin: 0,
      wouldBe: 'passed',
    });
  });

  it('and so are limits that are worked out', () => {
    expect(judged({ measure: 'duct.height', unit: 'mm', atMost: { cel: 'duct.width / 3' } }, 1000)).toMatchObject({
      limit: { atMost: 333.3 },
      margin: -66.7,
      outcome: 'failed',
    });
  });
});

it('whatever a shipped check can miss has words', () => {
  const missing = shippedRules.checks.flatMap(({ definition: { cantTellWhen = [], examples } }) =>
    [...cantTellWhen, ...examples].flatMap((one) => one.missing ?? []),
  );
  for (const fact of new Set(missing)) expect(missingWords([fact])).toMatch(/^[^.]+$/);
});

it('a name that is one of our own words stays as it is', () => {
  const wall = barrier({ name: 'both' });
  const found = crossings({ penetrations: [penetration({ barrier: wall, opening: null })] });
  expect(messageOf(all(found), 'opening-modelled')).toBe(
    'Duct 1 passes both (-/120/120) where no opening is modelled.',
  );
});
