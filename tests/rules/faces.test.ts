/** What is built at the faces of barriers, against the room there: the demonstration blanket under its brief. */
import { describe, expect, it } from 'vitest';
import type { FaceFacts, Finding, Penetration } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { barrier, choicesFor, crossings, damper, duct, face, inLine, obstacle, treated, wrapped } from './factories.js';
import { demonstrationBrief } from './protected.js';
import { type RuleCase, ruleCases, shippedRules } from './rule-cases.js';

const real = { choices: demonstrationBrief.choices };
type Expected = RuleCase['findings'][number];
type Room = NonNullable<typeof demonstrationBrief.choices.room>;

const north = (changes: Partial<FaceFacts> = {}) => face({ towards: 'north', ...changes });
/** The south face as it is given, the north face free. */
const south = (changes: Partial<FaceFacts>, more: Partial<Penetration> = {}) =>
  crossings({ penetrations: [wrapped({ faces: [face(changes), north()], ...more })] });
const briefWith = (room: Room) => ({ ...demonstrationBrief, choices: { ...demonstrationBrief.choices, room } });
const waits = (...missing: string[]): Expected => ({ outcome: 'cantTell', wouldBe: null, missing });
const passed: Expected = { outcome: 'passed' };
const both = (one: Expected): readonly Expected[] => [one, one];

/** What holds of every check of the tested detail. */
const always = (): RuleCase[] => [
  { why: 'met on both faces', crossings: south({}), brief: demonstrationBrief, findings: both(passed) },
  {
    why: 'met, under a real brief',
    ...{ crossings: south({}), brief: real },
    findings: both({ outcome: 'cantTell', wouldBe: 'passed' }),
  },
  { why: 'no brief', crossings: south({}), findings: both(waits('brief.testedSystem')) },
  {
    why: 'a damper in the protection',
    ...{ crossings: south({}, { dampers: [damper()] }), brief: demonstrationBrief },
    findings: both({ outcome: 'inapplicable' }),
  },
  {
    why: 'not protected',
    ...{ crossings: south({}, treated('none')), brief: demonstrationBrief },
    findings: both({ outcome: 'inapplicable' }),
  },
  {
    why: 'what does not come out of both faces has none',
    ...{ crossings: south({}, { crossing: 'partial' }), brief: demonstrationBrief },
    findings: [],
  },
];
const under = (why: string, found: RuleCase['crossings'], ...findings: Expected[]): RuleCase => ({
  ...{ why, crossings: found, brief: demonstrationBrief, findings },
});
const joined = (distance: number) => ({ joint: { distance, from: 'ports', to: null } }) as const;

ruleCases('build-up-room', [
  ...always(),
  // Up to 600 mm of longer side 200 mm are built up, up to 1,200 mm 300 mm.
  under('just clear of it', south(joined(200)), passed, passed),
  under('within it', south(joined(199.9)), { outcome: 'failed', margin: -0.1 }, passed),
  under('larger ducts need more', south(joined(200), { duct: duct({ width: 601 }) }), { outcome: 'failed' }, passed),
  under('not known of one face', south({ joint: null }), waits('face.joint'), passed),
  under(
    'no detail for this barrier',
    south({}, { barrier: barrier({ construction: 'timberStud' }) }),
    ...both(waits('system.detail')),
  ),
]);

// The collar is 100 mm wide and 28 mm thick with the angles under it.
ruleCases('collar-room', [
  ...always(),
  under('beyond the collar', south({ obstacles: [obstacle({ clear: [[28, 0]] })] }), passed, passed),
  under(
    'within it',
    south({ obstacles: [obstacle({ clear: [[27.9, 99.9]] })] }),
    { outcome: 'failed', measured: 99.9 },
    passed,
  ),
  under('just clear', south({ obstacles: [obstacle({ clear: [[0, 100]] })] }), passed, passed),
  under(
    'nearer with the depth',
    south({
      obstacles: [
        obstacle({
          clear: [
            [8, 120],
            [48, 40],
          ],
        }),
      ],
    }),
    { outcome: 'failed', measured: 80 },
    passed,
  ),
  under(
    'a face that was not measured',
    crossings({ penetrations: [wrapped({ faces: [null, north()] })] }),
    waits('face.obstacles'),
    passed,
  ),
]);

// Two layers and the build-up are 3 × 38 mm, 200 mm along the duct.
ruleCases('build-up-clear', [
  ...always(),
  under(
    'in its way',
    south({ obstacles: [obstacle({ clear: [[199, 113.9]] })] }),
    { outcome: 'failed', measured: 113.9 },
    passed,
  ),
  under('beyond it', south({ obstacles: [obstacle({ clear: [[200, 0]] })] }), passed, passed),
]);

const inShaft = { shaft: true, room: 'S.1 Riser' } as const;
const shaftWall = { barrier: barrier({ construction: 'shaftWall' }) };
ruleCases('face-reachable', [
  ...always(),
  {
    ...under('a shaft that nobody enters', south(inShaft), { outcome: 'failed' }, passed),
    brief: briefWith({ shaftsEntered: false }),
  },
  { ...under('one that people enter', south(inShaft), passed, passed), brief: briefWith({ shaftsEntered: ['riser'] }) },
  {
    ...under('another than those', south(inShaft), { outcome: 'failed' }, passed),
    brief: briefWith({ shaftsEntered: ['stack'] }),
  },
  under('a shaft of which nobody says', south(inShaft), waits('brief.room'), passed),
  under('nothing says what it is', south({ shaft: null }), waits('brief.room'), passed),
  { ...under('all shafts are named', south({ shaft: null }), passed, passed), brief: briefWith({ shaftsNamed: true }) },
  {
    ...under('no room for hands', south({ obstacles: [inLine()] }), { outcome: 'failed' }, passed),
    brief: briefWith({ hands: 251 }),
  },
  { ...under('room for hands', south({ obstacles: [inLine()] }), passed, passed), brief: briefWith({ hands: 250 }) },
  {
    ...under('tested from one face', south(inShaft, shaftWall), passed, { outcome: 'inapplicable' }),
    brief: briefWith({ shaftsEntered: false }),
  },
  {
    ...under(
      'neither face is reached',
      crossings({ penetrations: [wrapped({ faces: [face(inShaft), face(inShaft)], ...shaftWall })] }),
    ),
    ...{ brief: briefWith({ shaftsEntered: false }), findings: [{ outcome: 'failed' }, { outcome: 'inapplicable' }] },
  },
]);

const withHands = { ...demonstrationBrief, choices: { ...demonstrationBrief.choices, room: { hands: 100 } } };
const elsewhere: Expected = { outcome: 'inapplicable' };
ruleCases('hands-reach-face', [
  under('too near', south({ obstacles: [inLine()] }), { outcome: 'failed', measured: 250 }, elsewhere),
  under(
    'room enough',
    south({ obstacles: [inLine({ clear: [[300, 0]] })] }),
    { outcome: 'cantTell', wouldBe: 'passed' },
    elsewhere,
  ),
  under(
    'a face that was not measured',
    crossings({ penetrations: [wrapped({ faces: [null, north()] })] }),
    waits('face.obstacles'),
    elsewhere,
  ),
  {
    ...under('the brief says what is needed', south({ obstacles: [inLine()] }), elsewhere, elsewhere),
    brief: withHands,
  },
]);

const entered = briefWith({ shaftsEntered: true });
ruleCases('shaft-wide-enough', [
  {
    ...under('too narrow', south({ ...inShaft, roomWidth: 599 }), { outcome: 'failed', measured: 599 }, elsewhere),
    brief: entered,
  },
  {
    ...under('wide', south({ ...inShaft, roomWidth: 600 }), { outcome: 'cantTell', wouldBe: 'passed' }, elsewhere),
    brief: entered,
  },
  {
    ...under('not measured', south({ ...inShaft, roomWidth: null }), waits('face.roomWidth'), elsewhere),
    brief: entered,
  },
  under('nobody says whether it is entered', south({ ...inShaft, roomWidth: 599 }), elsewhere, elsewhere),
]);

const withDamper = (changes: Partial<FaceFacts>, more: Partial<Penetration> = {}) =>
  south(changes, { ...treated('damper'), dampers: [damper()], ...more });
const damperBrief = { demonstration: true, choices: { ...choicesFor({}), testedDampers: ['demonstration-damper'] } };
const dampered = (why: string, found: RuleCase['crossings'], ...findings: Expected[]): RuleCase => ({
  ...{ why, crossings: found, brief: damperBrief, findings },
});
const unsaid = shippedRules.dampers.map((one) => ({ ...one, scope: { ...one.scope, room: undefined } }));
// 40 mm beside the casing, 100 mm before the face.
ruleCases('damper-room', [
  dampered('nothing near', withDamper({}), passed, passed),
  {
    ...dampered('under a real brief', withDamper({}), ...both({ outcome: 'cantTell', wouldBe: 'passed' })),
    brief: { choices: damperBrief.choices },
  },
  dampered(
    'in its way',
    withDamper({ obstacles: [obstacle({ clear: [[99, 39.9]] })] }),
    { outcome: 'failed', measured: 39.9 },
    passed,
  ),
  dampered('beyond its depth', withDamper({ obstacles: [obstacle({ clear: [[100, 0]] })] }), passed, passed),
  dampered('not measured', withDamper({}, { faces: [null, north()] }), waits('face.obstacles'), passed),
  {
    ...dampered(
      'the document does not say',
      withDamper({ obstacles: [inLine({ clear: [[0, 0]] })] }),
      ...both(elsewhere),
    ),
    rules: { ...shippedRules, dampers: unsaid },
  },
  under('protection has room of its own', withDamper({}, wrapped()), ...both(elsewhere)),
]);

ruleCases('faces-told', [
  under('all are told', south({}), passed),
  under('one is not', south({ shaft: null }), { outcome: 'cantTell', missing: ['brief.room'] }),
  under('nothing is built', south({}, treated('none')), { outcome: 'inapplicable' }),
  { why: 'no system is chosen', crossings: south({ shaft: null }), findings: [{ outcome: 'inapplicable' }] },
]);

describe('what a coordinator reads', () => {
  const listed = (found: RuleCase['crossings'], brief: RuleCase['brief'] = demonstrationBrief): Finding[] => [
    ...judge(found, shippedRules, { brief }).findings,
  ];

  it('says once for all faces that nothing tells whether people get there', () => {
    const unknown = wrapped({ faces: [face({ shaft: null }), north({ shaft: null })] });
    const found = listed(crossings({ penetrations: [unknown, { ...unknown, id: 'P-0002', key: 'key-2' }] }));
    expect(found.map(({ check, message }) => [check, message])).toEqual([
      ['faces-told', expect.stringMatching(/^Of 4 faces of barriers .* 4 look into/)],
    ]);
  });

  it('says once for both faces that no detail was tested', () => {
    const found = listed(south({}, { barrier: barrier({ construction: 'timberStud' }) }));
    const ours = found.filter(({ missing }) => missing.includes('system.detail'));
    expect(ours.map(({ check }) => check)).toEqual(['build-up-room']);
  });

  it('names the face, what stands there, how far off and what to do', () => {
    const [first] = listed(south({ obstacles: [obstacle({ clear: [[0, 60]] })] })).filter(
      ({ check }) => check === 'collar-room',
    );
    expect(first).toMatchObject({
      message:
        'At the south face (Store) of Wall 1, 60 mm round Duct 1 are free (Pipe 1, right); angles and board collar of Illustrative blanket A need at least 100 mm.',
      remedy: 'Move what stands there (Pipe 1, right) 40 mm further from Duct 1.',
      at: [3000, -64, 2000],
    });
  });

  it('builds from the reached face of a shaft wall, by the detail tested so', () => {
    const brief = { ...demonstrationBrief, choices: choicesFor({}) };
    const withRoom = { ...brief, choices: { ...brief.choices, room: { shaftsEntered: false } } };
    const found = south({ ...inShaft, obstacles: [obstacle({ clear: [[0, 10]] })] }, shaftWall);
    expect(
      listed(found, withRoom).filter(({ check }) =>
        shippedRules.checks.some((c) => c.file.endsWith('faces.yaml') && c.definition.id === check),
      ),
    ).toEqual([]);
    // Its build-up is longer than that of others: 400 mm.
    const [near] = found.penetrations;
    const short = { ...near!, faces: [near!.faces[0], north(joined(399))] as const };
    expect(listed({ ...found, penetrations: [short] }, withRoom)).toMatchObject([
      { check: 'build-up-room', measured: 399 },
    ]);
  });
});

it('names what the duct is joined with: by its GlobalId where it has no name, else that it ends there', () => {
  const bend = { model: 'm1', globalId: 'B7', element: 'fitting' } as const;
  const said = (to: NonNullable<FaceFacts['joint']>['to']) =>
    judge(south({ joint: { distance: 150, from: 'ports', to } }), shippedRules, {
      brief: demonstrationBrief,
    }).findings.find(({ check }) => check === 'build-up-room')?.message;
  expect(said({ ...bend, name: 'Bend 7' })).toContain('is joined with Bend 7 150 mm from');
  expect(said({ ...bend, name: '' })).toContain('is joined with B7 150 mm from');
  expect(said(null)).toContain('is joined with its end 150 mm from');
});

it('places what is said of a face on it', () => {
  const { findings } = judge(south({ joint: { distance: 150, from: 'ports', to: null } }), shippedRules, {
    ...{ brief: demonstrationBrief, allFindings: true },
  });
  const places = findings.filter(({ check }) => check === 'build-up-room').map(({ at }) => at);
  // The wall is 128 mm thick, its middle at y = 0.
  expect(places.sort((a, b) => a![1] - b![1])).toEqual([
    [3000, -64, 2000],
    [3000, 64, 2000],
  ]);
});
