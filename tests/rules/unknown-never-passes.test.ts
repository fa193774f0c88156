import { describe, expect, it } from 'vitest';
import { onceForEach } from '../../src/collect.js';
import type { BarrierFacts, Crossings } from '../../src/model.js';
import { evaluateCheck, type Verdict } from '../../src/rules/evaluate.js';
import { EACH, type FactObject } from '../../src/rules/fact-schema.js';
import type { RuleSet } from '../../src/rules/rule-set.js';
import { casesOf, type Subjects } from '../../src/rules/subjects.js';
import {
  barrier,
  choicesFor,
  compartment,
  crossings,
  damper,
  door,
  face,
  facingEnds,
  gaps,
  inLine,
  leak,
  modelInfo,
  NOT_REQUIRED,
  penetration,
  rating,
  run,
  shaft,
  stretch,
  treated,
  UNREADABLE,
  UNSTATED,
} from './factories.js';
import { demonstrationBrief, protectedByTwo, protectedCrossings } from './protected.js';
import { ASKED, BESIDE, REACHED } from './room-and-access.js';
import { provingRules as rules } from './rule-cases.js';
import { supportedBrief, supportedCrossings } from './supported.js';

const proof = { demonstration: true };
/** What stands on its limit has no margin then, and a fact that goes missing must not give it one. */
const withTolerance = { ...proof, siteTolerance: 5 };

const walls = [rating(), UNSTATED, UNREADABLE, NOT_REQUIRED].map((given, i) =>
  barrier({
    ...{ globalId: `W${i}`, name: `Wall ${i}`, rating: given, layersThickness: 128 },
    drawing: { rating: given, drawing: 'A-101', revision: 'C' },
    head: { gap: 0, length: 0, at: null, passing: [], extendToStructure: true },
  }),
);
const leakBetween = (a: BarrierFacts, b: BarrierFacts) => ({ ...leak(20), between: [a, b] as const });
const found = walls.flatMap((wall) => [
  penetration({ barrier: wall, ...treated('damper') }),
  penetration({ barrier: wall, ...treated('none'), skew: 25, gaps: gaps({ left: 80, max: 80 }) }),
  penetration({ barrier: wall, opening: null, crossing: 'endsInside' }),
  penetration({ barrier: wall, dampers: [damper({ purpose: 'unknown', rating: UNSTATED })] }),
]);
const withIds = found.map((one, i) => ({ ...one, id: `P-${i}`, key: `key-${i}` }));
const neighbours = withIds.map((one, i) => {
  const next = withIds[i + 1];
  return next?.barrier === one.barrier
    ? { ...one, neighbours: [{ penetration: next.id, distance: 150 + 60 * i }] }
    : one;
});
const plain = crossings({
  penetrations: neighbours,
  facingEnds: walls.map((wall) => facingEnds({ barrier: wall })),
  barriers: walls,
  // Between each wall and the one that is not required: as wide as a joint.
  compartments: [
    compartment({ leaks: walls.map((wall) => leakBetween(wall, walls[3]!)) }),
    ...[true, false, null].map((complete) => shaft(complete, 'leak', 'doorUnknown')),
  ],
  doors: walls.flatMap((wall) =>
    [rating(), UNSTATED, UNREADABLE].map((given) => door({ barrier: wall, rating: given })),
  ),
});
const runs = [
  run(),
  run({ id: 'R-003', stretches: [stretch({ clearances: BESIDE })] }),
  run({ id: 'R-002', stretches: [run().stretches[0]!, stretch({ compartment: 'C-0002', parts: [] })] }),
];
const choices = {
  ...demonstrationBrief.choices,
  headMovement: 15,
  pressure: { over: 500, under: 500 },
  flangeHeight: 20,
  access: ASKED,
  room: { shaftsEntered: true },
};
const outside = { model: 'm1', globalId: 'Z', name: 'FD', purpose: 'fire', distance: 0 } as const;
const dampers = [
  penetration({ ...treated('damper'), dampers: [damper()] }),
  penetration({
    ...{ id: 'P-0002', key: 'key-2', ...treated('damper') },
    dampers: [damper({ size: { width: null, height: null, diameter: 315, from: 'duct' } })],
  }),
  penetration({ id: 'P-0003', key: 'key-3', ...treated('none'), damperOutside: outside }),
];
const supportsHere = supportedCrossings.supports!;
const halfAsFarApart: Crossings = {
  ...supportedCrossings,
  supports: {
    ...supportsHere,
    supports: supportsHere.supports.map((one) => ({ ...one, rod: 'M16' })),
    spans: supportsHere.spans.map((one) => ({ ...one, length: one.length / 2 })),
  },
};
const two = protectedByTwo('fireResistingDuct', 'demonstration-duct');

const everySubject = onceForEach((rules: RuleSet): Subjects => {
  const { systems, dampers: tested } = rules;
  const damperChoices = { ...choicesFor({}), testedDampers: ['demonstration-damper'] };
  const supported = { ...rules, choices: supportedBrief.choices };
  const all = (
    [
      [plain],
      [
        { ...underHeads(protectedCrossings), runs, access: [REACHED] },
        { choices, systems, dampers: tested },
      ],
      [crossings({ penetrations: dampers }), { ...rules, choices: damperChoices }],
      [supportedCrossings, supported],
      [halfAsFarApart, supported],
      [two.crossings, { ...rules, choices: two.brief.choices }],
    ] as const
  ).map(([found, decided]) => casesOf(found, [modelInfo()], decided).subjects);
  return Object.fromEntries(EACH.map((each) => [each, all.flatMap((one) => one[each])])) as unknown as Subjects;
});

/** Every opening 300 mm under the head of its wall, and in a shaft; the first duct is joined just before it. */
function underHeads(given: Crossings): Crossings {
  const end = { side: 'top', kind: 'end', distance: 300, element: { model: 'm2', globalId: 'W1' } } as const;
  return {
    ...given,
    penetrations: given.penetrations.map((one, i) => ({
      ...{ ...one, around: [end], jointDistance: i === 0 ? 49 : 1000 },
      faces: [face({ shaft: true, obstacles: [inLine({ clear: [[400, 0]] })] }), face()],
    })),
  };
}

/** The facts with one of them, or one group of them, taken away; every way there is. */
function* withoutOne(facts: FactObject): Generator<FactObject> {
  for (const [name, value] of Object.entries(facts)) {
    const { [name]: _, ...rest } = facts;
    yield rest;
    if (typeof value !== 'object' || Array.isArray(value)) continue;
    for (const inner of withoutOne(value as FactObject)) yield { ...facts, [name]: inner };
  }
}

/** How much a check says for the subject: a fact that goes missing must not add to it. */
function standing(verdicts: readonly Verdict[]): 'good' | 'inapplicable' | 'other' {
  if (verdicts.every(({ outcome }) => outcome === 'inapplicable')) return 'inapplicable';
  return verdicts.every(({ outcome, wouldBe }) => outcome === 'passed' || wouldBe === 'passed') ? 'good' : 'other';
}

describe('a fact taken away never makes a check pass, nor takes it out of force', () => {
  it.each(rules.checks)('$definition.id', (check) => {
    let tried = 0;
    for (const { facts } of everySubject(rules)[check.each]) {
      for (const under of check.definition.tolerances ? [proof, withTolerance] : [proof]) {
        const before = standing(evaluateCheck(check, facts, under));
        for (const fewer of withoutOne(facts)) {
          tried++;
          const after = standing(evaluateCheck(check, fewer, under));
          expect([before, 'other'], JSON.stringify(fewer)).toContain(after);
        }
      }
    }
    expect(tried).toBeGreaterThan(5);
  });

  it('and with all facts there are passes that could be wrong', () => {
    const subjects = everySubject(rules);
    const never = rules.checks.filter(
      // Those of codes need their code: see random-facts.test.ts.
      (check) =>
        check.definition.basis.code === null &&
        !subjects[check.each].some(({ facts }) => standing(evaluateCheck(check, facts, proof)) === 'good'),
    );
    // Duct ends that face each other, and dampers within protection, can't be told, whatever is known.
    expect(never.map(({ definition }) => definition.id)).toEqual(['ducts-joined', 'damper-within-protection']);
  });
});
