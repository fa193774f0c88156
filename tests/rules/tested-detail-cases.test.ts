/** Limits of tested details and of what else documents may limit, with the demonstration documents that have them. */
import { expect } from 'vitest';
import type { Limit, Penetration } from '../../src/model.js';
import { loadRules } from '../../src/rules/index.js';
import { barrier, choicesFor, crossings, duct, opening, penetration, rating, treated, wrapped } from './factories.js';
import { demonstrationBrief } from './protected.js';
import { type RuleCase, ruleCases, shippedDocuments } from './rule-cases.js';

type Expected = RuleCase['findings'][number];
type Changes = Partial<Penetration>;
const ORIGIN = [0, 0, 0] as const;
const brief = demonstrationBrief;
const real = { choices: brief.choices };

const waiting = (...missing: string[]): Expected => ({ outcome: 'cantTell', wouldBe: null, missing });
const failed = (measured: number, limit: Limit): Expected => ({ outcome: 'failed', measured, limit });
const on = (what: Changes, findings: Expected[], why: string): RuleCase => ({
  ...{ why, crossings: crossings({ penetrations: [wrapped(what)] }), brief, findings },
});
/** A duct that resists fire by itself, of 1 mm sheet, in a wall of masonry. */
const resisting = (changes: Parameters<typeof duct>[0] = {}, more: Changes = {}): Changes => ({
  duct: duct({
    system: 'SD',
    wall: { ...duct().wall, sheet: { thickness: 1, from: 'property' } },
    ...changes,
  }),
  barrier: barrier({ construction: 'masonry', thickness: 190, leafThickness: 190, rating: rating({ insulation: 90 }) }),
  treatment: { ...wrapped().treatment, kind: 'fireResistingDuct', layers: null },
  ...more,
});
const sheet = (thickness: number | null): Changes =>
  resisting({ wall: { ...duct().wall, sheet: thickness === null ? null : { thickness, from: 'property' } } });

/** What holds of all of them. */
const always = (good: Changes): RuleCase[] => [
  on(good, [{ outcome: 'passed' }], 'met, under a brief that is a demonstration'),
  { ...on(good, [{ outcome: 'cantTell', wouldBe: 'passed', missing: [] }], 'met, under a real brief'), brief: real },
  {
    ...on(good, [waiting('brief.testedSystem')], 'a brief that chooses none'),
    brief: { choices: { ...choicesFor(), movement: 5 } },
  },
  on({ ...good, ...treated('none') }, [{ outcome: 'inapplicable' }], 'not protected'),
];

ruleCases('pressure-told', [
  on({}, [{ outcome: 'passed' }], 'the brief says'),
  {
    ...on({}, [{ ...waiting('brief.pressure'), message: expect.stringContaining('1 of 1') }], 'the brief is silent'),
    brief: { choices: { ...choicesFor({}), pressure: undefined } },
  },
  {
    ...on({}, [waiting('brief.pressure')], 'the brief says one of two'),
    brief: { choices: { ...choicesFor({}), pressure: { over: 300 } } },
  },
  {
    ...on({}, [{ outcome: 'passed' }], 'it is said of the system'),
    brief: { choices: { ...choicesFor({ pressure: { over: 1, under: 1 } }), pressure: undefined } },
  },
  {
    ...on({}, [{ outcome: 'inapplicable' }], 'nothing is protected'),
    crossings: crossings({ penetrations: [penetration()] }),
  },
]);

ruleCases('detail-tested', [
  ...always({}),
  on(
    { barrier: barrier({ kind: 'floor', construction: 'masonry', thickness: 190, leafThickness: 190 }) },
    [{ outcome: 'inapplicable' }],
    'the construction itself was not tested',
  ),
  on(
    { barrier: barrier({ construction: 'unknown' }) },
    [waiting('barrier.construction')],
    'of an unknown construction',
  ),
  {
    ...on({}, [{ outcome: 'failed', measured: false }], 'in scope, without a detail'),
    rules: loadRules(
      shippedDocuments.map(({ file, text }) => ({ file, text: text.replace('[steelStud]', '[masonry]') })),
    ),
  },
]);

ruleCases('aspect-ratio-tested', [
  ...always({}),
  on({ duct: duct({ width: 1000, height: 100 }) }, [{ outcome: 'passed', measured: 10, margin: 0 }], 'on the limit'),
  on({ duct: duct({ width: 100, height: 1001 }) }, [failed(10.01, { atMost: 10 })], 'just beyond, upright'),
  on({ duct: duct({ shape: 'circular', diameter: 300 }) }, [{ outcome: 'passed', measured: 1 }], 'round'),
  on({ duct: duct({ shape: 'unknown' }) }, [waiting('duct.shape')], 'of unknown shape'),
  {
    ...on({}, [{ outcome: 'inapplicable' }], 'the document has no such limit'),
    rules: loadRules(
      shippedDocuments.map(({ file, text }) => ({ file, text: text.replace('    aspectRatioAtMost: 10\n', '') })),
    ),
  },
]);

const sheetCases = (good: number, bad: number, limit: Limit): RuleCase[] => [
  ...always(sheet(good)),
  on(sheet(bad), [failed(bad, limit)], 'beyond'),
  on(sheet(null), [waiting('duct.wall.sheet')], 'nobody says how thick'),
  on({}, [{ outcome: 'inapplicable' }], 'a blanket, which says nothing of the sheet'),
];
ruleCases('sheet-thick-enough', sheetCases(0.8, 0.7, { atLeast: 0.8 }));
ruleCases('sheet-thin-enough', sheetCases(1.5, 1.6, { atMost: 1.5 }));

const pressureCases = (over: number, under: number): RuleCase[] => [
  ...always({}),
  {
    ...on({}, [failed(501, { atMost: 500 })], 'beyond'),
    brief: { choices: { ...choicesFor({}), pressure: { over, under } } },
  },
  {
    ...on({}, [failed(501, { atMost: 500 })], "beyond, by the system's own"),
    brief: { choices: choicesFor({ pressure: { over, under } }) },
  },
  {
    ...on({}, [waiting('brief.pressure')], 'nobody says'),
    brief: { choices: { ...choicesFor({}), pressure: undefined } },
  },
  {
    ...on(
      {
        duct: duct({ system: 'SX' }),
        treatment: { ...wrapped().treatment, kind: 'board', layers: 1 },
      },
      [{ outcome: 'inapplicable' }],
      'the document has no such limit',
    ),
    brief: { choices: choicesFor({ system: 'SX', testedSystem: 'demonstration-board', fixing: undefined }) },
  },
];
ruleCases('pressure-tested', pressureCases(501, 0));
ruleCases('underpressure-tested', pressureCases(0, 501));

/** System SF is held by straps, its underside pinned. */
const strapped = (changes: Parameters<typeof duct>[0] = {}): Changes => ({ duct: duct({ system: 'SF', ...changes }) });
ruleCases('fixing-underside', [
  ...always(strapped({ width: 1200 })),
  on(strapped({ width: 1200.1 }), [failed(1200.1, { atMost: 1200 })], 'a tenth too wide below'),
  on(strapped({ width: 400, height: 1300 }), [{ outcome: 'passed', measured: 400 }], 'high, but narrow below'),
  on(strapped({ axis: [ORIGIN, [0, 0, 3000]] }), [{ outcome: 'passed', measured: 0 }], 'upright'),
  on(strapped({ axis: null }), [waiting('duct.shape')], 'whichever way it lies'),
  on({}, [{ outcome: 'inapplicable' }], 'pins hold any'),
]);

for (const [side, most] of [
  ['width', 1400],
  ['height', 1150],
] as const) {
  const through = (size: number, more: Changes = {}) => resisting({}, { opening: opening({ [side]: size }), ...more });
  ruleCases(`opening-${side}-tested`, [
    ...always(through(most)),
    on(through(most + 0.1), [failed(most + 0.1, { atMost: most })], 'a tenth too large'),
    on(through(most, { opening: null }), [{ outcome: 'inapplicable' }], 'no opening'),
    on(
      through(most, { barrier: barrier({ construction: 'unknown' }) }),
      [waiting('system.detail')],
      'no detail is known for it',
    ),
  ]);
}

const beside = (distance: number): Changes =>
  resisting({}, { around: [{ side: 'left', kind: 'door', distance, element: { model: 'm2', globalId: 'O9' } }] });
ruleCases('edge-distance-tested', [
  ...always(beside(100)),
  on(beside(99.9), [failed(99.9, { atLeast: 100 })], 'a door too near'),
  on(resisting(), [{ outcome: 'passed', measured: 2000 }], 'nothing within two metres'),
  on({}, [{ outcome: 'inapplicable' }], 'the detail has no such limit'),
]);

const moving = (movement: number) => ({ ...brief, choices: { ...brief.choices, movement } });
ruleCases('movement-tested', [
  ...always({}),
  { ...on(resisting(), [{ outcome: 'passed', margin: 0 }], 'on the limit'), brief: moving(5) },
  { ...on(resisting(), [failed(5.1, { atMost: 5 })], 'more than tested'), brief: moving(5.1) },
  {
    ...on(
      { barrier: barrier({ construction: 'concrete', thickness: 200, leafThickness: 200 }) },
      [waiting('system.movementAtMost')],
      'the detail was not tested to move',
    ),
    brief: moving(5),
  },
  { ...on({}, [{ outcome: 'inapplicable' }], 'nothing moves'), brief: { choices: choicesFor({}) } },
]);
