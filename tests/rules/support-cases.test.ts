/** What protected ducts hang from and stand on: the demonstration blanket says what was tested, the board says nothing. */
import { expect, it } from 'vitest';
import type { SupportFacts, SupportSpan } from '../../src/model.js';
import { judge, loadRules } from '../../src/rules/index.js';
import { rating, UNSTATED } from './factories.js';
import { type RuleCase, ruleCases, shippedDocuments, shippedRules } from './rule-cases.js';
import {
  alongBoard,
  boardedDuct,
  boardedWith,
  carriedDuct,
  onBoard,
  slab,
  span,
  support,
  supportedBrief,
  supportedCrossings,
  wrappedRun,
  wrappedWith,
} from './supported.js';

type Expected = RuleCase['findings'][number];
const brief = supportedBrief;
const real = { choices: brief.choices };
/** As the worked hanger has it: two layers are 50 mm of 100 kg/m³. */
const worked = loadRules(
  shippedDocuments.map(({ file, text }) => ({
    file,
    text: text.replace(/thickness: 38\n {2}density: 128/, 'thickness: 25\n  density: 100'),
  })),
);

const under = (why: string, crossings: RuleCase['crossings'], ...findings: Expected[]): RuleCase => ({
  ...{ why, crossings, brief, findings },
});
const hanger = (changes: Partial<SupportFacts> = {}, minutes?: number) =>
  wrappedWith({ supports: [support(changes)] }, minutes);
const spanning = (changes: Partial<SupportSpan> = {}) => wrappedWith({ spans: [span(changes)] });
const hangerOfBoard = (changes: Partial<SupportFacts> = {}, minutes?: number) =>
  boardedWith({ supports: [support({ ...onBoard, ...changes })] }, minutes);
const spanningBoard = (changes: Partial<SupportSpan> = {}) =>
  boardedWith({ spans: [span({ ...alongBoard, ...changes })] });

const passed: Expected = { outcome: 'passed' };
const wouldPass: Expected = { outcome: 'cantTell', wouldBe: 'passed' };
const inapplicable: Expected = { outcome: 'inapplicable' };
const lacks = (...missing: string[]): Expected => ({ outcome: 'cantTell', wouldBe: null, missing });
const unproven = (crossings: RuleCase['crossings']): RuleCase => ({
  ...{ why: 'the same without the demonstration brief proves nothing', crossings, brief: real, findings: [wouldPass] },
});

ruleCases('supports-modelled', [
  under('all are modelled', hanger(), passed),
  under('nobody says that they are', wrappedWith({ modelledRuns: [] }), lacks('run.supports')),
  under('no run must hold back fire', { ...hanger(), runs: [] }, passed),
]);

ruleCases('support-spacing-tested', [
  under('as far apart as tested', spanning({ length: 1500 }), passed),
  unproven(spanning({ length: 1500 })),
  under('too far apart', spanning({ length: 1500.1 }), { outcome: 'failed', margin: -0.1 }),
  under('beyond the last support', spanning({ kind: 'end', length: 1600, supports: ['H1'] }), {
    ...{ outcome: 'failed', measured: 1600, limit: { atMost: 1500 } },
    message:
      'Duct 2 of SA (R-001) has no support for 1600 mm; Illustrative blanket A was tested with at most 1500 mm (100 mm too far).',
  }),
  under('a short end', spanning({ kind: 'end', length: 1500, supports: ['H1'] }), inapplicable),
  under('the document says nothing of supports', spanningBoard(), lacks('system.supportSpacingAtMost')),
  { ...under('no brief', spanning(), lacks('brief.testedSystem')), brief: undefined },
  under('supports may be missing from the models', wrappedWith({ spans: [span()], modelledRuns: [] })),
]);

const first = (length: number, ...supports: string[]) =>
  spanning({ kind: 'barrier', length, supports, penetration: 'P-0001' });
ruleCases('first-support-tested', [
  under('as near as tested', first(500, 'H1'), passed),
  unproven(first(500, 'H1')),
  under('too far off', first(700, 'H1'), {
    ...{ outcome: 'failed', measured: 700, margin: -200 },
    message:
      'The first support of Duct 2 of SA (R-001) is 700 mm from Wall 1; Illustrative blanket A was tested with at most 500 mm (200 mm too far).',
  }),
  under('too far without any', first(900), { outcome: 'failed' }),
  under('the next one may be near enough', first(500), lacks('run.supports')),
  under('between supports', spanning(), inapplicable),
]);

// The worked hanger: 39.55 kg/m × 1.2 m and a bearer of 3.146 kg are 496.44 N, 248.22 N on each of two rods.
ruleCases('rod-stress-tested', [
  { ...under('M8 for 60 minutes', hanger({}, 60), { ...passed, measured: 6.78, limit: { atMost: 9 } }), rules: worked },
  { ...unproven(hanger({}, 60)), rules: worked },
  {
    ...under('M8 for 120 minutes', hanger(), {
      ...{ outcome: 'failed', measured: 6.78, limit: { atMost: 6 } },
      message:
        'The rods (M8) of Hanger 1 on Duct 2 are stressed to 6.78 N/mm² by 248.22 N each; for 120 min Illustrative blanket A allows at most 6 N/mm². Hot steel beyond that lets go.',
      remedy: 'Take thicker rods, or put supports no further apart than 1052 mm.',
    }),
    rules: worked,
  },
  { ...under('M10 for 120 minutes', hanger({ rod: 'M10' }), { ...passed, measured: 4.28 }), rules: worked },
  under('longer than tested', hanger({}, 180), lacks('system.rodStressAtMost')),
  under('nobody says which rods these are', hanger({ rod: null }), lacks('support.load')),
  under('it is not known how much lies on it', hanger({ carried: null }), lacks('support.load')),
  under(
    'supports may be missing from the models',
    wrappedWith({ supports: [support()], modelledRuns: [] }),
    inapplicable,
  ),
  under('a riser', wrappedWith({ supports: [support()], ducts: [carriedDuct({ way: 'upright' })] }), inapplicable),
]);

// 40 mm of 500 kg/m³ are 63.2 kg/m, with the sheet 86.75 kg/m; with a bearer of 1.28 m 1051.6 N, 525.8 N on each rod.
ruleCases('rod-stress-allowed', [
  under('M12 for 60 minutes', hangerOfBoard({ rod: 'M12' }, 60), {
    ...wouldPass,
    measured: 6.24,
    limit: { atMost: 9 },
  }),
  under('M12 for 120 minutes', hangerOfBoard({ rod: 'M12' }), {
    ...{ outcome: 'failed', measured: 6.24, limit: { atMost: 6 } },
  }),
  under('nothing is said of 180 minutes', hangerOfBoard({}, 180), lacks('support.rodStressPublished')),
  under('nobody says what the bearer is', hangerOfBoard({ bearer: null }), lacks('support.load')),
  under('the document says it', hanger(), inapplicable),
]);

ruleCases('rod-tested', [
  under('M10', hanger({ rod: 'M10' }), passed),
  unproven(hanger({ rod: 'M10' })),
  under('M6 was not tested', hanger({ rod: 'M6' }), { outcome: 'failed' }),
  under('nobody says', hanger({ rod: null }), lacks('support.rod')),
  {
    ...under('the brief says', hanger({ rod: null }), passed),
    brief: { ...brief, choices: { ...brief.choices, supports: { ...brief.choices.supports, rod: 'M10' } } },
  },
  under('the document names none', hangerOfBoard(), inapplicable),
]);

ruleCases('rod-length-tested', [
  under('as long as tested', hanger({ rodLength: 1500 }), passed),
  unproven(hanger({ rodLength: 1500 })),
  under('longer', hanger({ rodLength: 1800 }), { outcome: 'failed', measured: 1800, margin: -300 }),
  under('none is drawn', hanger({ rodLength: null }), inapplicable),
]);

ruleCases('bearer-tested', [
  under('an angle that was tested', hanger(), passed),
  unproven(hanger()),
  under('one that was not', hanger({ bearer: 'L 25x25x3' }), { outcome: 'failed' }),
  under('nobody says', hanger({ bearer: null }), lacks('support.bearer')),
  under('the document names none', hangerOfBoard(), inapplicable),
]);

// F·L / 8W with 1220 mm between the rods and W of 1,553 mm³ (EN 10056-1: 1.55 cm³); 3 m of duct are 1194.8 N.
const bent = { measured: expect.closeTo((1194.8 * 1220) / 8 / 1553, 1) };
ruleCases('bearer-stress-tested', [
  {
    ...under('1.2 m of duct', hanger(), { ...passed, measured: expect.closeTo((496.4 * 1220) / 8 / 1553, 1) }),
    rules: worked,
  },
  { ...unproven(hanger()), rules: worked },
  { ...under('3 m of duct for 60 minutes', hanger({ carried: 3000 }, 60), { ...passed, ...bent }), rules: worked },
  {
    ...under('3 m of duct for 120 minutes', hanger({ carried: 3000 }), {
      ...{ outcome: 'failed', limit: { atMost: 100 }, ...bent },
    }),
    rules: worked,
  },
  under('nobody says what it is', hanger({ bearer: null }), lacks('support.load')),
  under('the document does not say', hangerOfBoard(), inapplicable),
]);

const fixedTo = (...changes: Parameters<typeof slab>) => hanger({ hangsFrom: slab(...changes) });
ruleCases('hangs-from-what-holds', [
  under('a concrete floor for as long', fixedTo(), wouldPass),
  under('for less long', fixedTo({ rating: rating({ loadbearing: 60 }) }), { outcome: 'failed' }),
  under('timber that nobody rated', fixedTo({ construction: 'massTimber', rating: UNSTATED }), { outcome: 'failed' }),
  under('timber rated for as long', fixedTo({ construction: 'massTimber' }), lacks('support.hangsFrom')),
  under('a beam of which nobody says', fixedTo({ kind: 'beam', rating: UNSTATED }), lacks('support.hangsFrom')),
  under('nothing above', hanger({ hangsFrom: null }), lacks('support.hangsFrom')),
]);

// Eight times the smaller side of 500 mm, and no more than 5 m.
const riser = (length: number, kind: SupportSpan['kind'] = 'riser') => spanning({ kind, length, supports: [] });
ruleCases('riser-supports-tested', [
  under('as high as tested', riser(4000), passed),
  unproven(riser(4000)),
  under('too high', riser(4100), { outcome: 'failed', measured: 4100, limit: { atMost: 4000 } }),
  under('too high over its last support', riser(4100, 'riserEnd'), { outcome: 'failed' }),
  under('a short end', riser(4000, 'riserEnd'), inapplicable),
  under(
    'its size is not known',
    wrappedWith({ ducts: [], spans: [span({ kind: 'riser', length: 3000 })] }),
    lacks('system.riserSupportAtMost'),
  ),
  under('the document does not say', spanningBoard({ kind: 'riser' }), inapplicable),
]);

ruleCases('riser-supports-apart', [
  under('near enough', spanningBoard({ kind: 'riser', length: 5000 }), { ...wouldPass, limit: { atMost: 5000 } }),
  under('too far', spanningBoard({ kind: 'riser', length: 5000.1 }), { outcome: 'failed', margin: -0.1 }),
  under('the document says it', riser(5000.1), inapplicable),
]);

ruleCases('riser-supports-slender', [
  under('eight times', spanningBoard({ kind: 'riser', length: 4000 }), { ...wouldPass, measured: 8 }),
  under(
    'twelve times',
    boardedWith({
      ...{ ducts: [boardedDuct({ height: 300 })], spans: [span({ ...alongBoard, kind: 'riser', length: 3600 })] },
    }),
    { outcome: 'failed', measured: 12, limit: { atMost: 8 } },
  ),
  under(
    'its size is not known',
    boardedWith({ ducts: [], spans: [span({ ...alongBoard, kind: 'riser' })] }),
    lacks('duct.shape'),
  ),
  under('the document says it', riser(4000), inapplicable),
]);

it('names in the schedule the tested system of each run and how far it is proved', () => {
  const { supports } = judge(supportedCrossings, shippedRules, { brief });
  expect(supports.map((row) => [row.run, row.testedSystem, row.testedStatus])).toEqual([
    ['R-001', 'Illustrative blanket A', 'demonstration'],
    ['R-002', 'Illustrative board B', 'demonstration'],
  ]);
});

it('places what is said of a span on the ducts between its supports', () => {
  const found = (changes: Partial<SupportSpan>) => {
    const [own] = wrappedRun.stretches.slice(1);
    const part = (globalId: string, length: number) => ({
      ...own!.parts[0]!,
      globalId,
      name: `Duct ${globalId}`,
      length,
    });
    const behind = { ...own!, parts: [part('D2', 500), part('D5', 700), part('D6', 700)] };
    const crossings = {
      ...spanning({ length: 1600, ...changes }),
      runs: [{ ...wrappedRun, stretches: [wrappedRun.stretches[0]!, behind] }],
    };
    const ducts = ['D2', 'D5', 'D6'].map((globalId) => carriedDuct({ globalId }));
    const { findings } = judge({ ...crossings, supports: { ...crossings.supports!, ducts } }, shippedRules, { brief });
    return findings
      .filter(({ check }) => check === 'support-spacing-tested' || check === 'first-support-tested')
      .map(({ subject, key, message }) => [
        subject.elements.map(({ globalId }) => globalId),
        message.split(' of ')[0],
        key,
      ]);
  };
  const at = (...parts: number[]) => ({ parts: parts.map((one) => ({ stretch: 'R-001.2', part: one })) });
  const [second, others, atBarrier] = [
    found(at(1)),
    found(at(0, 2)),
    found({ ...at(0), kind: 'barrier', supports: ['H1'], penetration: 'P-0001' }),
  ];
  // The longest gives its name.
  expect([second, others, atBarrier].map(([one]) => one?.slice(0, 2))).toEqual([
    [['D5'], 'Duct D5'],
    [['D2', 'D6'], 'Duct D6'],
    [['D2'], 'The first support'],
  ]);
  // Known again by its supports, wherever they hold it.
  const keys = [second, others, found({ ...at(1), supports: ['H1', 'H9'] }), atBarrier].map(([one]) => one?.[2]);
  expect(keys[0]).toBe(keys[1]);
  expect(new Set(keys).size).toBe(3);
  expect(found({ parts: [{ stretch: 'R-001.9', part: 0 }] })).toEqual([]);
  expect(found(at(9))).toEqual([]);
});
