import { describe, expect, it } from 'vitest';
import type { Finding, Penetration } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import {
  barrier,
  choicesFor,
  crossings,
  duct,
  gaps,
  NOT_REQUIRED,
  penetration,
  rating,
  treated,
  wrapped,
} from './factories.js';
import { demonstrationBrief, protectedCrossings } from './protected.js';
import { type RuleCase, ruleCases, shippedRules } from './rule-cases.js';

const brief = demonstrationBrief;
type Changes = Partial<Penetration>;
type Expected = RuleCase['findings'][number];

const one = (changes: Changes = {}) => crossings({ penetrations: [wrapped(changes)] });
const wall = (changes: Parameters<typeof barrier>[0]) => ({ barrier: barrier(changes) });
const pipe = (changes: Parameters<typeof duct>[0]) => ({ duct: duct(changes) });

const under = (why: string, changes: Changes, ...findings: Expected[]): RuleCase => ({
  why,
  crossings: one(changes),
  brief,
  findings,
});

/** What holds of every check that goes by the chosen system. */
const always = (good: Changes = {}): RuleCase[] => {
  const found = one(good);
  const waits: Expected = { outcome: 'cantTell', wouldBe: null, missing: ['brief.testedSystem'] };
  return [
    { why: 'met, under a brief that is a demonstration', crossings: found, brief, findings: [{ outcome: 'passed' }] },
    {
      why: 'met, under a real brief',
      crossings: found,
      brief: { choices: brief.choices },
      findings: [{ outcome: 'cantTell', wouldBe: 'passed', missing: [] }],
    },
    { why: 'no brief', crossings: found, findings: [waits] },
    { why: 'a brief that chooses none', crossings: found, brief: { choices: choicesFor() }, findings: [waits] },
    {
      why: 'a system that the brief does not list',
      crossings: one({ ...good, duct: { ...(good.duct ?? duct()), system: 'XX' } }),
      brief,
      findings: [waits],
    },
    {
      why: 'not rated',
      crossings: one({ ...good, ...wall({ rating: NOT_REQUIRED }) }),
      brief,
      findings: [{ outcome: 'inapplicable' }],
    },
    {
      why: 'not protected',
      crossings: one({ ...good, ...treated('none') }),
      brief,
      findings: [{ outcome: 'inapplicable' }],
    },
    {
      why: 'not known whether protected',
      crossings: one({ ...good, ...treated('unknown') }),
      brief,
      findings: [{ outcome: 'cantTell', missing: ['penetration.treatment'] }],
    },
  ];
};

const waiting = (...missing: string[]): Expected => ({ outcome: 'cantTell', wouldBe: null, missing });

ruleCases('protection-as-tested', [
  ...always(),
  under('board, where a blanket was tested', treated('board'), { outcome: 'failed', measured: false }),
  under('a damper besides', { treatment: { ...wrapped().treatment, kind: 'both' } }, { outcome: 'passed' }),
]);

ruleCases('duct-shape-tested', [
  ...always(),
  under('flat oval', pipe({ shape: 'oval' }), { outcome: 'failed' }),
  under('no known shape', pipe({ shape: 'unknown', width: null, height: null }), waiting('duct.shape')),
]);

ruleCases('duct-material-tested', [
  ...always(),
  under('aluminium', pipe({ material: 'aluminium' }), { outcome: 'failed' }),
  under('no known material', pipe({ material: 'unknown' }), waiting('duct.material')),
]);

ruleCases('duct-element-tested', [
  ...always(),
  under('flexible', pipe({ element: 'flexible' }), { outcome: 'failed' }),
  under('a fitting', pipe({ element: 'fitting' }), { outcome: 'failed' }),
  under('a silencer', pipe({ element: 'silencer' }), { outcome: 'failed' }),
]);

const testedOn = (fire: readonly ('inside' | 'outside')[] | undefined) => ({
  ...shippedRules,
  systems: shippedRules.systems.map((system) => ({
    ...system,
    scope: { ...system.scope, fire: fire && [...fire] },
  })),
});
const asking = (fire: 'inside' | 'outside' | 'both' | undefined) => ({
  demonstration: true,
  choices: choicesFor({ fire }),
});
ruleCases('fire-side-tested', [
  ...always(),
  ...(
    [
      ['outside', ['outside'], { outcome: 'passed' }],
      ['outside', ['inside'], { outcome: 'failed', measured: false }],
      ['inside', ['inside', 'outside'], { outcome: 'passed' }],
      ['both', ['inside', 'outside'], { outcome: 'passed' }],
      ['both', ['outside'], { outcome: 'failed', measured: false }],
      // Nobody says which side counts.
      [undefined, ['outside'], { outcome: 'cantTell', missing: ['brief.fire'] }],
      ['both', undefined, { outcome: 'cantTell', missing: ['evidence.fireSides'] }],
    ] as const
  ).map(([fire, tested, finding]) => ({
    why: `fire ${fire}, tested ${tested}`,
    crossings: crossings({ penetrations: [wrapped()] }),
    brief: asking(fire),
    rules: testedOn(tested),
    findings: [finding],
  })),
]);

const inWallsAlone = {
  ...shippedRules,
  systems: shippedRules.systems.map((system) => ({
    ...system,
    scope: { ...system.scope, orientation: ['walls' as const] },
  })),
};
ruleCases('barrier-orientation-tested', [
  ...always(),
  under('a floor', wall({ kind: 'floor', construction: 'concrete', thickness: 200 }), { outcome: 'passed' }),
  {
    ...under('a floor, where walls alone were tested', wall({ kind: 'floor', construction: 'concrete' }), {
      outcome: 'failed',
    }),
    rules: inWallsAlone,
  },
]);

ruleCases('barrier-construction-tested', [
  ...always(),
  under('timber studs', wall({ construction: 'timberStud' }), { outcome: 'failed' }),
  under('a floor of masonry', wall({ kind: 'floor', construction: 'masonry' }), { outcome: 'failed' }),
  under('no known construction', wall({ construction: 'unknown' }), waiting('barrier.construction')),
]);

ruleCases('barrier-thickness-tested', [
  ...always(),
  under('on the limit', wall({ thickness: 90 }), { outcome: 'passed', margin: 0, limit: { atLeast: 90 } }),
  under('a tenth too thin', wall({ thickness: 89.9 }), { outcome: 'failed', margin: -0.1 }),
  under('masonry has a limit of its own', wall({ construction: 'masonry', thickness: 128 }), {
    outcome: 'failed',
    limit: { atLeast: 140 },
  }),
  under('no known thickness', wall({ thickness: null }), waiting('barrier.thickness')),
  under('another construction is one finding, not two', wall({ construction: 'timberStud' }), {
    outcome: 'inapplicable',
  }),
]);

for (const side of ['width', 'height'] as const) {
  ruleCases(`duct-${side}-tested`, [
    ...always(),
    under('on the limit', pipe({ [side]: 3600 }), { outcome: 'passed', margin: 0 }),
    under('a tenth too large', pipe({ [side]: 3600.1 }), {
      outcome: 'failed',
      measured: 3600.1,
      limit: { atMost: 3600 },
    }),
    under('not measured', pipe({ [side]: null }), waiting(`duct.${side}`)),
    under('another shape is one finding, not two', pipe({ shape: 'oval' }), { outcome: 'inapplicable' }),
  ]);
}

const ROUND = pipe({ shape: 'circular', width: null, height: null, diameter: 315 });
const round = (diameter: number | null) => ({ duct: { ...ROUND.duct, diameter } });
ruleCases('duct-diameter-tested', [
  ...always(ROUND),
  under('on the limit', round(1200), { outcome: 'passed', margin: 0 }),
  under('a tenth too large', round(1200.1), { outcome: 'failed', limit: { atMost: 1200 } }),
  under('not measured', round(null), waiting('duct.diameter')),
  under('a rectangular duct', {}, { outcome: 'inapplicable' }),
]);

/** System SB is held by straps. */
const strapped = (changes: Parameters<typeof duct>[0] = {}) => pipe({ system: 'SB', ...changes });
const unfixed: RuleCase = {
  why: 'no fixing is settled: the one with most margin is taken',
  crossings: one(),
  brief: { demonstration: true, choices: choicesFor({ fixing: undefined }) },
  findings: [{ outcome: 'passed' }],
};

ruleCases('fixing-shape', [
  ...always(),
  unfixed,
  under('straps on a flat oval duct', strapped({ shape: 'oval' }), { outcome: 'failed' }),
]);

// Common practice, no source: pins to 3600 × 3600, straps alone to 600 × 600, with a pinned underside to 600 × 1200.
for (const [side, other] of [
  ['width', 'height'],
  ['height', 'width'],
] as const) {
  const pinnedBelow = (large: number, small: number): RuleCase => ({
    why: `straps with a pinned underside, ${large} × ${small}`,
    crossings: one(pipe({ [side]: large, [other]: small })),
    brief: { demonstration: true, choices: choicesFor({ fixing: 'straps-and-pins' }) },
    findings: [large <= 1200 ? { outcome: 'passed', limit: { atMost: 1200 } } : { outcome: 'failed' }],
  });
  ruleCases(`fixing-${side}`, [
    ...always(),
    unfixed,
    under('straps, on the limit', strapped({ [side]: 600, [other]: 600 }), {
      outcome: 'passed',
      limit: { atMost: 600 },
    }),
    under('straps, a tenth too much', strapped({ [side]: 600.1 }), { outcome: 'failed', margin: -0.1 }),
    under('pins', pipe({ [side]: 3600 }), { outcome: 'passed', limit: { atMost: 3600 } }),
    pinnedBelow(1200, 600),
    pinnedBelow(1200.1, 600),
  ]);
}

ruleCases('fixing-diameter', [
  ...always(ROUND),
  { ...unfixed, crossings: one(ROUND) },
  under('straps, on the limit', strapped({ ...round(600).duct, system: 'SB' }), { outcome: 'passed' }),
  under('straps, a tenth too much', strapped({ ...round(600.1).duct, system: 'SB' }), { outcome: 'failed' }),
]);

const layers = (count: number | null, minutes: number | null = 120) => ({
  treatment: { ...wrapped().treatment, layers: count, integrity: minutes, insulation: minutes },
});
const asks = (integrity: number, insulation: number) => wall({ rating: rating({ integrity, insulation }) });
const duration = (minutes: number) =>
  wall({
    rating: rating({ state: 'durationOnly', text: '1 HR', integrity: null, insulation: null, duration: minutes }),
  });

for (const criterion of ['integrity', 'insulation'] as const) {
  ruleCases(`${criterion}-as-tested`, [
    ...always(),
    under('one layer is not two hours', layers(1, null), { outcome: 'failed', measured: 60, limit: { atLeast: 120 } }),
    under('one layer is one hour', { ...layers(1, null), ...asks(60, 60) }, { outcome: 'passed', margin: 0 }),
    under('more than was tested', asks(180, 180), { outcome: 'failed', margin: -60 }),
    under('what is declared counts where it is less', layers(2, 90), { outcome: 'failed', measured: 90 }),
    under(
      'nothing asked',
      { ...layers(1, null), ...asks(criterion === 'integrity' ? 0 : 60, criterion === 'integrity' ? 60 : 0) },
      { outcome: 'passed', limit: { atLeast: 0 } },
    ),
    under('no known layers', layers(null), waiting('penetration.treatment.layers')),
    under('three layers, which were not tested', layers(3), waiting('penetration.treatment.layers')),
    under('a bare duration that is reached', duration(120), { outcome: 'passed' }),
    under('a bare duration that is not', duration(180), waiting(`barrier.rating.${criterion}`)),
    {
      why: 'more than the barrier asks, by the brief',
      crossings: one(asks(60, 60)),
      brief: { ...brief, choices: choicesFor({ [criterion]: 180 }) },
      findings: [{ outcome: 'failed', limit: { atLeast: 180 } }],
    },
  ]);
}

/** Of the two sets of checks exactly one speaks: common practice or the system that is there. */
const applied: RuleCase[] = [
  { why: 'no brief: common practice speaks', crossings: one(), findings: [{ outcome: 'inapplicable' }] },
  under('another protection than the chosen: common practice speaks', treated('board'), { outcome: 'inapplicable' }),
];

ruleCases('skew-within-tested-range', [
  ...applied,
  under('square', {}, { outcome: 'passed', margin: 10 }),
  under('a hundredth too much', { skew: 10.01 }, { outcome: 'failed', limit: { atMost: 10 } }),
  under(
    'not known whether rated',
    wall({ rating: rating({ state: 'unreadable', integrity: null, insulation: null }) }),
    waiting('barrier.rating'),
  ),
  {
    why: 'a real brief',
    crossings: one(),
    brief: { choices: brief.choices },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
]);

const four = (finding: Expected): Expected[] => [finding, finding, finding, finding];
ruleCases('gap-within-tested-range', [
  ...applied.map((given) => ({ ...given, findings: four({ outcome: 'inapplicable' }) })),
  under('30 mm all round', {}, ...four({ outcome: 'passed' })),
  under(
    '30 mm to an outline that may be sheet or insulation',
    { gapsTo: 'unknown' },
    ...four({ outcome: 'cantTell', wouldBe: null, missing: ['penetration.gapsTo'] }),
  ),
  under(
    '70 mm to such an outline',
    { gapsTo: 'unknown', gaps: gaps({ bottom: 70, max: 70 }) },
    { outcome: 'failed', side: 'bottom', margin: -20 },
    ...Array.from({ length: 3 }, () => ({ outcome: 'cantTell' as const, missing: ['penetration.gapsTo'] })),
  ),
  under(
    '30 mm to insulation',
    { gapsTo: 'insulation' },
    ...four({ outcome: 'cantTell', wouldBe: null, missing: ['duct.wall.insulation'] }),
  ),
  under(
    '70 mm below',
    { gaps: gaps({ bottom: 70, max: 70 }) },
    { outcome: 'failed', side: 'bottom', margin: -20, limit: { atLeast: 10, atMost: 50 } },
    { outcome: 'passed' },
    { outcome: 'passed' },
    { outcome: 'passed' },
  ),
  under(
    'not measured',
    { gaps: gaps({ top: null, bottom: null, left: null, right: null, min: null, max: null }) },
    waiting('gap.value'),
    waiting('gap.value'),
  ),
  {
    why: 'a real brief',
    crossings: one(),
    brief: { choices: brief.choices },
    findings: four({ outcome: 'cantTell', wouldBe: 'passed' }),
  },
]);

const pair = (distance: number, second: Changes = {}) =>
  crossings({
    penetrations: [
      wrapped({ neighbours: [{ penetration: 'P-0002', distance }] }),
      wrapped({ id: 'P-0002', key: 'key-2', ...second }),
    ],
  });
ruleCases('separation-as-tested', [
  { why: '200 mm', crossings: pair(200), brief, findings: [{ outcome: 'passed', margin: 0 }] },
  { why: '199.9 mm', crossings: pair(199.9), brief, findings: [{ outcome: 'failed', limit: { atLeast: 200 } }] },
  {
    why: 'a real brief',
    crossings: pair(200),
    brief: { choices: brief.choices },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'the other duct is not protected: common practice speaks',
    crossings: pair(80, treated('none')),
    brief,
    findings: [{ outcome: 'inapplicable' }],
  },
  { why: 'no brief', crossings: pair(80), findings: [{ outcome: 'inapplicable' }] },
  {
    why: 'not known whether rated',
    crossings: pair(200, wall({ rating: rating({ state: 'unstated', integrity: null, insulation: null }) })),
    brief,
    findings: [waiting('barrier.rating')],
  },
]);

ruleCases('tested-system-chosen', [
  { why: 'chosen', crossings: one(), brief, findings: [{ outcome: 'passed' }] },
  {
    why: 'nothing is protected',
    crossings: crossings({ penetrations: [penetration()] }),
    brief,
    findings: [{ outcome: 'inapplicable' }],
  },
  {
    why: 'protected at a barrier that is not rated',
    crossings: one(wall({ rating: NOT_REQUIRED })),
    findings: [{ outcome: 'inapplicable' }],
  },
  {
    why: 'no brief',
    crossings: protectedCrossings,
    findings: [
      { ...waiting('brief.testedSystem'), message: 'No tested system is chosen for 12 of 12 protected penetrations.' },
    ],
  },
]);

describe('without a brief', () => {
  const { findings, checks } = judge(protectedCrossings, shippedRules);

  it('that no system is chosen is listed once, for the models', () => {
    const own = findings.filter(({ missing }) => missing.includes('brief.testedSystem'));
    expect(own.map(({ check, subject }: Finding) => [check, subject.type])).toEqual([
      ['tested-system-chosen', 'model'],
    ]);
  });

  it('and counted where it is wanted; the checks then go by nothing that proves anything', () => {
    const shape = checks.find(({ id }) => id === 'duct-shape-tested');
    expect(shape?.outcomes).toMatchObject({ passed: 0, failed: 0, cantTell: 12, wouldPass: 0 });
    expect(shape?.basis.status).toBe('unverified');
  });
});

describe('with a brief', () => {
  const judged = judge(protectedCrossings, shippedRules, { brief, allFindings: true });
  const of = (id: string) => judged.findings.filter(({ subject }) => subject.id === id);

  it('everything about a penetration that fits is proved, so it can pass', () => {
    const own = of('P-0001');
    expect(own.filter(({ outcome }) => outcome !== 'passed' && outcome !== 'inapplicable')).toEqual([]);
    expect(own.filter(({ outcome }) => outcome === 'passed').length).toBeGreaterThan(20);
  });

  it('each check that goes by the system says which status that has', () => {
    expect(judged.checks.find(({ id }) => id === 'duct-shape-tested')?.basis.status).toBe('demonstration');
  });

  it('a tested system proves, an unverified one never does', () => {
    const outcomes = ['tested', 'unverified'].map((status) => {
      const systems = shippedRules.systems.map((system) => ({ ...system, status: status as 'tested' | 'unverified' }));
      const { findings, checks } = judge(one(), { ...shippedRules, systems }, { brief, allFindings: true });
      const shape = findings.find(({ check }) => check === 'duct-shape-tested');
      return [shape?.outcome, shape?.wouldBe, checks.find(({ id }) => id === 'duct-shape-tested')?.basis.status];
    });
    expect(outcomes).toEqual([
      ['passed', null, 'tested'],
      ['cantTell', 'passed', 'unverified'],
    ]);
  });

  it('a message names the system and the numbers', () => {
    const message = (id: string, check: string) => of(id).find((finding) => finding.check === check)?.message;
    expect(message('P-0003', 'duct-width-tested')).toBe(
      'Too large is 3700 mm wide at Thin wall; Illustrative blanket A was tested to at most 3600 mm.',
    );
    expect(message('P-0003', 'fixing-width')).toBe(
      'Too large is 3700 mm wide at Thin wall; steel straps hold at most 600 mm.',
    );
    expect(message('P-0003', 'integrity-as-tested')).toBe(
      'Illustrative blanket A on Too large (layers: 1) reaches 60 min of integrity at Thin wall; at least 120 min is asked for.',
    );
    expect(message('P-0005', 'barrier-construction-tested')).toBe(
      'Timber wall is a wall of timber studs; Illustrative blanket A was not tested in one.',
    );
    const real = judge(one(), shippedRules, { brief: { choices: brief.choices }, allFindings: true });
    expect(real.findings.find(({ check }) => check === 'skew-within-tested-range')?.message).toBe(
      'Penetration K7F2-9: The duct crosses as square as in the test: 0° meets the limit (at most 10°), but that is ' +
        'not proved by a test (Illustrative blanket A: demonstration).',
    );
  });
});
