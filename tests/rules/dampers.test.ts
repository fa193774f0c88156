import type { DamperFacts, Penetration } from '../../src/model.js';
import {
  barrier,
  choicesFor,
  crossings,
  damper,
  NOT_REQUIRED,
  penetration,
  rating,
  treated,
  UNSTATED,
  wrapped,
} from './factories.js';
import { type RuleCase, ruleCases, shippedRules } from './rule-cases.js';

type Expected = RuleCase['findings'][number];
type Size = NonNullable<DamperFacts['size']>;

const brief = { demonstration: true, choices: { ...choicesFor({}), testedDampers: ['demonstration-damper'] } };

/** A 600 × 400 fire damper, right in every way, in a stud wall of 128 mm. */
const dampered = (changes: Partial<DamperFacts> = {}, more: Partial<Penetration> = {}) =>
  crossings({ penetrations: [penetration({ ...treated('damper'), dampers: [damper(changes)], ...more })] });
const wall = (changes: Parameters<typeof barrier>[0]) => ({ barrier: barrier(changes) });

const bare = (why: string, found: RuleCase['crossings'], ...findings: Expected[]): RuleCase => ({
  why,
  crossings: found,
  findings,
});
const under = (why: string, found: RuleCase['crossings'], ...findings: Expected[]): RuleCase => ({
  ...bare(why, found, ...findings),
  brief,
});
const waiting = (...missing: string[]): Expected => ({ outcome: 'cantTell', wouldBe: null, missing });
const inapplicable: Expected = { outcome: 'inapplicable' };
const wouldPass: Expected = { outcome: 'cantTell', wouldBe: 'passed' };

/** What holds of every check of what a fire damper says of itself. */
const always = (): RuleCase[] => [
  bare('in a barrier that needs no rating', dampered({}, wall({ rating: NOT_REQUIRED })), inapplicable),
  bare('a volume control damper', dampered({ purpose: 'control' }, treated('none')), inapplicable),
  bare(
    'a damper of unknown purpose',
    dampered({ purpose: 'unknown' }, treated('unknown')),
    waiting('penetration.damper.purpose'),
  ),
];

/** What holds of every check that goes by the tested damper. */
const tested = (good: RuleCase['crossings'] = dampered()): RuleCase[] => [
  under('met, under a brief that is a demonstration', good, { outcome: 'passed' }),
  { ...bare('met, under a real brief', good, wouldPass), brief: { choices: brief.choices } },
  bare('no brief', good, inapplicable),
  { ...bare('a brief that chooses none', good, inapplicable), brief: { choices: choicesFor() } },
  under('not known what is there', crossings({ penetrations: [penetration({ ...treated('unknown') })] }), inapplicable),
];

type Scope = (typeof shippedRules.dampers)[number]['scope'];
/** The shipped rules with another scope of the demonstration damper. */
function withScope(changes: Partial<Scope>): { rules: typeof shippedRules } {
  const dampers = shippedRules.dampers.map((one) => ({ ...one, scope: { ...one.scope, ...changes } }));
  return { rules: { ...shippedRules, dampers } };
}

ruleCases('tested-damper-chosen', [
  under('chosen', dampered(), { outcome: 'passed' }),
  bare('no brief', dampered(), waiting('brief.testedDamper')),
  bare('no damper', crossings({ penetrations: [penetration()] }), inapplicable),
]);

ruleCases('damper-actuation-known', [
  ...always(),
  bare('a spring', dampered(), { outcome: 'passed' }),
  bare('nothing', dampered({ actuation: null }), waiting('penetration.damper.actuation')),
]);

ruleCases('damper-made-for-barrier', [
  ...always(),
  bare('for both', dampered(), { outcome: 'passed' }),
  bare('for walls, in a wall', dampered({ orientation: 'wall' }), { outcome: 'passed' }),
  bare('for walls, in a roof', dampered({ orientation: 'wall' }, wall({ kind: 'roof' })), { outcome: 'failed' }),
  bare('for floors, in a wall', dampered({ orientation: 'floor' }), { outcome: 'failed' }),
  bare('not known', dampered({ orientation: null }), waiting('penetration.damper.orientation')),
]);

const access = (distance: number | null, withinReach: boolean | null): Partial<DamperFacts> => ({
  access: { panel: distance === null ? null : { model: 'm1', globalId: 'A' }, distance, withinReach },
});
ruleCases('damper-accessible', [
  ...always(),
  bare('within reach', dampered(), { outcome: 'passed' }),
  bare('none, where all are modelled', dampered(access(null, false)), { outcome: 'failed', measured: false }),
  bare('none, where they may be not modelled', dampered(access(2000, null)), waiting('penetration.damper.access')),
]);

const outside = (more: Partial<Penetration> = {}) =>
  crossings({
    penetrations: [
      penetration({
        ...treated('none'),
        damperOutside: { model: 'm1', globalId: 'V', name: 'FD-1', purpose: 'fire', distance: 300 },
        ...more,
      }),
    ],
  });
ruleCases('damper-in-barrier', [
  bare('300 mm off', outside(), { outcome: 'failed', measured: 300, margin: -300 }),
  bare('not known whether the duct is protected', outside(treated('unknown')), waiting('penetration.treatment')),
  bare('a protected duct', outside({ treatment: wrapped().treatment }), inapplicable),
  bare('in it', dampered(), inapplicable),
  bare(
    'nothing can pass that is outside',
    outside({ damperOutside: { ...outside().penetrations[0]!.damperOutside!, distance: 0 } }),
    wouldPass,
  ),
]);

ruleCases('damper-in-plane', [
  ...always(),
  // The wall is 128 mm thick.
  bare('on the face', dampered({ offset: 64 }), { ...wouldPass, limit: { atMost: 64 } }),
  bare('before it, either way', dampered({ offset: -64.1 }), { outcome: 'failed', measured: 64.1, margin: -0.1 }),
  bare('not measured', dampered({ offset: null }), waiting('penetration.damper.offset')),
  under('the tested damper speaks', dampered({ offset: 80 }), inapplicable),
]);

ruleCases('damper-in-tested-plane', [
  ...tested(),
  under('on the limit', dampered({ offset: -30 }), { outcome: 'passed', limit: { atMost: 30 } }),
  under('beyond', dampered({ offset: 30.1 }), { outcome: 'failed', margin: -0.1 }),
  under('not measured', dampered({ offset: null }), waiting('penetration.damper.offset')),
]);

const size = (changes: Partial<Size>): Partial<DamperFacts> => ({
  size: { width: 600, height: 400, diameter: null, from: 'duct', ...changes },
});
const LIMITS = { width: [150, 1500], height: [150, 800] } as const;
for (const side of ['width', 'height'] as const) {
  const [least, most] = LIMITS[side];
  ruleCases(`damper-${side}-tested`, [
    ...tested(),
    under('the largest', dampered(size({ [side]: most })), {
      outcome: 'passed',
      limit: { atLeast: least, atMost: most },
    }),
    under('larger', dampered(size({ [side]: most + 0.1 })), { outcome: 'failed', margin: -0.1 }),
    under('smaller than the least', dampered(size({ [side]: least - 0.1 })), { outcome: 'failed', margin: -0.1 }),
    under('a casing too small', dampered(size({ [side]: least - 1, from: 'casing' })), { outcome: 'failed' }),
    under('a casing within', dampered(size({ from: 'casing' })), waiting('penetration.damper.size')),
    under('no known size', dampered({ size: null }), waiting('penetration.damper.size')),
    under('a round one', dampered({ size: { width: null, height: null, diameter: 315, from: 'duct' } }), inapplicable),
  ]);
}

const round = (diameter: number, from: Size['from'] = 'duct') =>
  dampered({ size: { width: null, height: null, diameter, from } });
ruleCases('damper-diameter-tested', [
  ...tested(round(315)),
  under('the largest', round(630), { outcome: 'passed', limit: { atLeast: 100, atMost: 630 } }),
  under('larger', round(630.1), { outcome: 'failed', margin: -0.1 }),
  under('a casing within', round(315, 'casing'), waiting('penetration.damper.size')),
  under('rectangular', dampered(), inapplicable),
]);

ruleCases('damper-purpose-tested', [
  ...tested(),
  under('fire and smoke', dampered({ purpose: 'fireSmoke' }), { outcome: 'passed' }),
  {
    ...under('a fire damper, where fire and smoke dampers alone were tested', dampered(), { outcome: 'failed' }),
    ...withScope({ purposes: ['fireSmoke'] }),
  },
  {
    ...under('tested from one side alone', dampered(), waiting('penetration.fireSide')),
    ...withScope({ fireSides: 'one' }),
  },
]);

const beside = (distance: number): Partial<DamperFacts> => ({
  construction: { side: 'left', kind: 'corner', distance, element: { model: 'm2', globalId: 'W2' } },
});
// EN 1366-2, from memory: 75 mm between the casing and the construction beside it.
ruleCases('damper-clear-of-construction', [
  ...always(),
  bare('on the limit', dampered(beside(75)), { ...wouldPass, limit: { atLeast: 75 } }),
  bare('nearer', dampered(beside(74.9)), { outcome: 'failed', margin: -0.1 }),
  bare('nothing beside it', dampered({ construction: null }), inapplicable),
  under('the tested damper speaks', dampered(beside(50)), inapplicable),
]);
ruleCases('damper-as-clear-as-tested', [
  ...tested(),
  under('nearer', dampered(beside(74.9)), { outcome: 'failed', limit: { atLeast: 75 }, margin: -0.1 }),
  under('nothing beside it', dampered({ construction: null }), inapplicable),
]);

const thin = wall({ thickness: 100, rating: rating({ text: '-/120/120' }) });
for (const side of ['integrity', 'insulation'] as const) {
  const bareDuration = { state: 'durationOnly', integrity: null, insulation: null, duration: 120 } as const;
  ruleCases(`damper-${side}-tested`, [
    ...tested(),
    under('tested to 60 minutes in so thin a wall', dampered({}, thin), { outcome: 'failed', measured: 60 }),
    under('no rating of its own', dampered({ rating: UNSTATED }), waiting('penetration.treatment.rating')),
    under(
      'a bare duration',
      dampered({}, wall({ thickness: 100, rating: rating(bareDuration) })),
      waiting(`barrier.rating.${side}`),
    ),
    under('not tested in such a barrier', dampered({}, wall({ construction: 'timberStud' })), inapplicable),
    ...(side === 'integrity'
      ? [
          under('its own rating is less', dampered({ rating: rating({ integrity: 60 }) }), {
            outcome: 'failed' as const,
            measured: 60,
          }),
        ]
      : [
          under(
            'not insulated',
            dampered({ rating: rating({ insulation: 'none' }) }),
            waiting('code.damperInsulation'),
          ),
        ]),
  ]);
}

ruleCases('damper-within-protection', [
  bare(
    'both',
    crossings({
      penetrations: [wrapped({ dampers: [damper()], treatment: { ...wrapped().treatment, kind: 'both' } })],
    }),
    waiting('evidence.damperInProtection'),
  ),
  bare('a damper alone', dampered(), inapplicable),
]);
