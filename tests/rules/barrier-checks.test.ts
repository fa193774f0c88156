import type { BarrierFacts, Compartment, Penetration, Rating } from '../../src/model.js';
import {
  barrier,
  choicesFor,
  compartment,
  crossings,
  door,
  leak,
  NOT_REQUIRED,
  penetration,
  rating,
  shaft,
  UNSTATED,
} from './factories.js';
import { type RuleCase, ruleCases } from './rule-cases.js';

const passed = (changes: Partial<BarrierFacts>, more: Partial<Penetration> = {}) =>
  crossings({ penetrations: [penetration({ barrier: barrier(changes), ...more })] });
const given = (why: string, changes: Partial<BarrierFacts>, ...findings: RuleCase['findings']): RuleCase => ({
  why,
  crossings: passed(changes),
  findings,
});

const head = (gap: number | null, passing: string[] = []): BarrierFacts['head'] => ({
  gap,
  length: gap ? 4000 : 0,
  at: gap ? [1000, 0, 3200] : null,
  passing: passing.map((globalId) => ({ model: 'm1', globalId })),
  extendToStructure: null,
});

ruleCases('wall-reaches-structure', [
  given('up to the slab', { head: head(0) }, { outcome: 'passed', measured: 0 }),
  given('but for the joint', { head: head(25) }, { outcome: 'passed', margin: 0 }),
  given('a tenth more', { head: head(25.1) }, { outcome: 'failed', measured: 25.1, margin: -0.1 }),
  {
    why: 'a wall that nothing passes, but a duct passes over it',
    crossings: crossings({ barriers: [barrier({ name: 'Short wall', head: head(400, ['D']) })] }),
    findings: [
      {
        outcome: 'failed',
        measured: 400,
        at: [1000, 0, 3200],
        subject: { type: 'barrier', id: 'W1', elements: [{ model: 'm2', globalId: 'W1' }] },
        message:
          'Short wall stops 400 mm short of the structure above over 4000 mm (at most 25 mm is allowed for its joint); services that pass over it: 1; penetrations under the gap: none.',
      },
    ],
  },
  {
    why: 'penetrations under the gap and beside it',
    crossings: crossings({
      penetrations: [400, 30, 0, null].map((headGap, i) =>
        penetration({
          ...{ id: `P-000${i}`, key: `key-${i}`, tag: `TAG-${i}`, headGap },
          barrier: barrier({ name: 'Short wall', head: head(400) }),
        }),
      ),
    }),
    findings: [
      {
        outcome: 'failed',
        message:
          'Short wall stops 400 mm short of the structure above over 4000 mm (at most 25 mm is allowed for its joint); services that pass over it: 0; penetrations under the gap: TAG-0, TAG-1.',
      },
    ],
  },
  given('nothing above in the models', { head: head(null) }, { outcome: 'cantTell', missing: ['barrier.head'] }),
  given('a floor', { kind: 'floor' }, { outcome: 'inapplicable' }),
  given('not required', { head: head(400), rating: NOT_REQUIRED }, { outcome: 'inapplicable' }),
  {
    why: 'an uncrossed wall that reaches the structure gives nothing to check',
    crossings: crossings({ barriers: [barrier({ head: head(0) })] }),
    findings: [],
  },
]);

const [W1, W2] = leak(0).between;
const apart = (
  why: string,
  width: number,
  ratings: readonly [Rating, Rating],
  ...findings: RuleCase['findings']
): RuleCase => ({
  why,
  crossings: crossings({
    barriers: ratings.map((one, i) => barrier({ globalId: `W${i + 1}`, name: `Wall ${i + 1}`, rating: one })),
    compartments: [compartment({ leaks: [leak(width)] }), compartment({ id: 'C-0002', leaks: [leak(width)] })],
  }),
  findings,
});

ruleCases('rated-walls-meet', [
  apart('a joint', 20, [rating(), rating()], { outcome: 'passed', measured: 20, margin: 0 }),
  apart('a leak, which opens into two compartments and counts once', 300, [rating(), NOT_REQUIRED], {
    outcome: 'failed',
    measured: 300,
    margin: -280,
    at: [0, 3750, 1200],
    subject: { type: 'barrier', id: 'W1', elements: [W1, W2] },
    message:
      'Wall 1 and Wall 2 stand 300 mm apart on plan (at most 20 mm is taken for a joint): the compartment is open there.',
  }),
  apart('walls that need not hold back fire', 300, [NOT_REQUIRED, NOT_REQUIRED], { outcome: 'inapplicable' }),
  apart('the second of two is the rated one', 300, [UNSTATED, rating()], {
    outcome: 'failed',
    subject: { type: 'barrier', id: 'W2', elements: [W2, W1] },
  }),
  apart('no rating stated', 300, [UNSTATED, UNSTATED], { outcome: 'cantTell', missing: ['barrier.rating'] }),
]);

const withDoor = (why: string, given: Rating, wall: Rating, ...findings: RuleCase['findings']): RuleCase => ({
  why,
  crossings: crossings({
    barriers: [barrier({ globalId: 'W1', name: 'Wall 1', rating: wall })],
    doors: [door({ rating: given })],
  }),
  findings,
});
const NO_FIRE = rating({ text: '-/-/-', integrity: 'none', insulation: 'none' });

ruleCases('door-fire-rated', [
  withDoor('rated for less than its wall, as some codes allow', rating({ integrity: 30, insulation: 30 }), rating(), {
    outcome: 'passed',
    at: [3000, 0, 1050],
  }),
  withDoor('known to hold back no fire', NO_FIRE, rating(), {
    outcome: 'failed',
    subject: {
      type: 'barrier',
      id: 'W1',
      elements: [
        { model: 'm2', globalId: 'W1' },
        { model: 'm2', globalId: 'D1' },
      ],
    },
    message: 'Door 1 is stated to hold back no fire (-/-/-), in Wall 1, which is rated -/120/120.',
  }),
  withDoor('not stated', UNSTATED, rating(), { outcome: 'cantTell', missing: ['door.rating'] }),
  withDoor('in a wall that need not hold back fire', NO_FIRE, NOT_REQUIRED, { outcome: 'inapplicable' }),
  {
    why: 'a wall that is not among those found',
    crossings: crossings({ doors: [door()] }),
    findings: [],
  },
]);

const called = (why: string, one: Compartment, ...findings: RuleCase['findings']): RuleCase => ({
  why,
  crossings: crossings({ barriers: [barrier({ globalId: 'W1' })], compartments: [one] }),
  findings,
});

ruleCases('shaft-enclosed', [
  called('rated all round', shaft(true), { outcome: 'passed' }),
  called('a wall short of the next and a floor that is missing', shaft(false, 'leak', 'floorOpen', 'doorUnknown'), {
    outcome: 'failed',
    message: 'Shaft 1 is a shaft, and does not keep fire in or out: walls that do not meet and an open floor.',
  }),
  called('a door that nobody knows', shaft(null, 'doorUnknown'), {
    outcome: 'cantTell',
    missing: ['compartment.enclosure'],
  }),
  called('not called a shaft', compartment(), { outcome: 'inapplicable' }),
]);

const under = (
  why: string,
  distance: number | undefined,
  changes: Partial<BarrierFacts>,
  ...findings: RuleCase['findings']
): RuleCase => ({
  why,
  crossings: passed(changes, {
    around: [
      { side: 'left', kind: 'end', distance: 1, element: { model: 'm2', globalId: 'W1' } },
      ...(distance === undefined
        ? []
        : [{ side: 'top' as const, kind: 'slab' as const, distance, element: { model: 'm2', globalId: 'S' } }]),
    ],
  }),
  brief: { choices: { ...choicesFor({}), headMovement: 20 } },
  findings,
});

ruleCases('clear-of-head-movement', [
  under('just clear', 20, {}, { outcome: 'passed', margin: 0 }),
  under('into it', 19.9, {}, { outcome: 'failed', measured: 19.9, margin: -0.1 }),
  under('no head found', undefined, {}, { outcome: 'cantTell', missing: ['penetration.head'] }),
  under(
    'built of what is not known',
    5,
    { construction: 'unknown' },
    {
      outcome: 'cantTell',
      missing: ['barrier.construction'],
    },
  ),
  under('masonry', 5, { construction: 'masonry' }, { outcome: 'inapplicable' }),
  under('a floor', 5, { kind: 'floor' }, { outcome: 'inapplicable' }),
  { ...under('no movement in the brief', 5, {}, { outcome: 'inapplicable' }), brief: undefined },
]);

ruleCases('layers-agree', [
  given('to the millimetre', { layersThickness: 128 }, { outcome: 'passed', measured: 0 }),
  given('2 mm off', { layersThickness: 130 }, { outcome: 'passed', margin: 0 }),
  given('thinner layers', { layersThickness: 125.9 }, { outcome: 'failed', measured: 2.1 }),
  given(
    'a lining beside the leaf is not counted',
    { thickness: 220, drawnThickness: 128, layersThickness: 128 },
    {
      outcome: 'passed',
    },
  ),
  given(
    'not measured',
    { thickness: null, layersThickness: 128 },
    {
      outcome: 'cantTell',
      missing: ['barrier.drawnThickness'],
    },
  ),
  given('layers without thickness', {}, { outcome: 'inapplicable' }),
  given('not required', { layersThickness: 100, rating: NOT_REQUIRED }, { outcome: 'inapplicable' }),
]);

const drawn = (changes: Parameters<typeof rating>[0]): Pick<BarrierFacts, 'drawing'> => ({
  drawing: { rating: rating({ from: 'brief', ...changes }), drawing: 'A-101', revision: 'C' },
});
const bare = { state: 'durationOnly', integrity: null, insulation: null } as const;

ruleCases('rating-agrees-with-drawing', [
  given('the same text', drawn({}), { outcome: 'passed' }),
  given('the same in other words', drawn({ text: 'EI 120' }), { outcome: 'passed' }),
  given('less on the drawing', drawn({ text: '-/60/60', integrity: 60, insulation: 60 }), {
    outcome: 'failed',
    measured: false,
  }),
  given('insulation alone differs', drawn({ text: '-/120/60', insulation: 60 }), { outcome: 'failed' }),
  given('a duration confirms no criteria', drawn({ ...bare, text: '2 HR', duration: 120 }), {
    outcome: 'cantTell',
    missing: ['barrier.rating'],
  }),
  given('a duration contradicts', drawn({ ...bare, text: '1 HR', duration: 60 }), { outcome: 'failed' }),
  given(
    'the drawing is all that is known',
    { ...drawn({}), rating: rating({ from: 'brief' }) },
    {
      outcome: 'inapplicable',
    },
  ),
  given('no drawing', { rating: UNSTATED }, { outcome: 'inapplicable' }),
]);
