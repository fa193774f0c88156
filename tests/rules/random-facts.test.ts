import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluateCheck, type Proof, type Verdict } from '../../src/rules/evaluate.js';
import {
  type Each,
  FACTS,
  type Fact,
  type FactGroup,
  type FactObject,
  factPaths,
  isGroup,
  VARIABLES,
} from '../../src/rules/fact-schema.js';
import type { CompiledCheck } from '../../src/rules/rule-set.js';
import { provingRules, shippedRules } from './rule-cases.js';

/** Facts that no model need ever give, and any of them taken away: what is not known may never come out as good. */

function anyFact(fact: Fact): fc.Arbitrary<number | string | boolean | string[]> {
  // Most checks look at what is so; of even odds few of those with many conditions would come to a judgement.
  if (fact.type === 'yesNo') return fc.constantFrom(true, true, false);
  if (fact.type === 'texts') return fc.array(fc.constantFrom('pipe', 'cable', 'duct'), { maxLength: 3 });
  if (fact.type === 'text') return fc.constantFrom(...(fact.values ?? ['unknown', '{measured}', 'SA']));
  // Both sides of every limit in the shipped document, the limits themselves, and what divides badly.
  return fc.constantFrom(-5, 0, 1, 9.9, 10, 10.01, 30, 50, 50.1, 199.9, 200, 1e9);
}

const anyGroup = (group: FactGroup): fc.Arbitrary<FactObject> =>
  fc.record(
    Object.fromEntries(
      Object.entries(group.fields).map(([name, entry]) => [name, isGroup(entry) ? anyGroup(entry) : anyFact(entry)]),
    ),
  );
/** All that a check of this kind can speak of. */
const anyFactsOf = (each: Each): fc.Arbitrary<FactObject> =>
  anyGroup({ says: 'everything', fields: Object.fromEntries(VARIABLES[each].map((name) => [name, FACTS[name]])) });

/** The facts without those at the paths, and without the groups that are left with nothing. */
function without(facts: FactObject, paths: readonly string[], at = ''): FactObject {
  const left: { [name: string]: FactObject[string] } = {};
  for (const [name, value] of Object.entries(facts)) {
    const path = `${at}${name}`;
    if (paths.includes(path)) continue;
    const isInner = typeof value === 'object' && !Array.isArray(value);
    const inner = isInner ? without(value as FactObject, paths, `${path}.`) : value;
    if (!isInner || Object.keys(inner as FactObject).length > 0) left[name] = inner;
  }
  return left;
}

const isGood = (verdicts: readonly Verdict[]): boolean =>
  verdicts.every(({ outcome, wouldBe }) => outcome === 'passed' || wouldBe === 'passed');
const isInapplicable = (verdicts: readonly Verdict[]): boolean =>
  verdicts.every(({ outcome }) => outcome === 'inapplicable');

const statusOf = ({ system }: FactObject) => (system as FactObject | undefined)?.status;
/** Under the code that the check belongs to, or none of it would be looked at. */
const proofOf = (check: CompiledCheck, demonstration: boolean): Proof => {
  const { code } = check.definition.basis;
  return { demonstration, ...(code && { jurisdiction: code.jurisdiction, edition: [code.edition] }) };
};
const seed = 20260101;

/** Checks of codes come in kinds that measure the same under another code; one of each kind will do. */
const isFirstOfKind = ({ definition: { basis, measure } }: CompiledCheck, i: number): boolean =>
  basis.code === null ||
  provingRules.checks.findIndex(({ definition: one }) => one.basis.code !== null && one.measure === measure) === i;

describe.each(provingRules.checks.filter(isFirstOfKind))('$definition.id', (check) => {
  const paths = factPaths(check.each);
  const anyFacts = anyFactsOf(check.each);
  const used = paths.filter((path) => JSON.stringify(check.definition).includes(path));
  // Some of what is taken away is what the check speaks of, and not much of it: one fact alone is the hardest to miss.
  const taken = fc
    .tuple(
      fc.subarray(used, { minLength: 1, maxLength: Math.min(2, used.length) }),
      fc.subarray([...paths], { maxLength: 2 }),
    )
    .map(([a, b]) => [...a, ...b]);

  it('fewer facts never make more of it', () => {
    expect(used.length).toBeGreaterThan(0);
    let worse = 0;
    const mayLose = !['ducts-joined', 'damper-within-protection'].includes(check.definition.id);
    // What has to be all right at once comes seldom: as many facts more as it takes, within reason.
    for (let more = 0; more === 0 || (more < 20 && worse === 0 && mayLose); more++)
      fc.assert(
        fc.property(anyFacts, taken, (facts, gone) => {
          const before = evaluateCheck(check, facts, proofOf(check, true));
          const after = evaluateCheck(check, without(facts, gone), proofOf(check, true));
          if (isGood(after)) expect(isGood(before)).toBe(true);
          if (isInapplicable(after)) expect(isInapplicable(before)).toBe(true);
          for (const { outcome, measured } of after) if (outcome === 'failed') expect(measured).not.toBeNull();
          if (!isGood(after) && isGood(before)) worse++;
        }),
        { numRuns: 1500, seed: seed + more },
      );
    // Otherwise nothing good was ever there to be lost; duct ends that face each other can never be told, nor a damper within protection.
    expect(worse > 0).toBe(mayLose);
  });

  it('as it is shipped it passes, when it is about fire, only by a system that proves', () => {
    const shipped = shippedRules.checks.find(({ definition }) => definition.id === check.definition.id)!;
    let wouldPass = 0;
    const isSeen = () => wouldPass > 0 || shipped.definition.about !== 'fire';
    // What has to be all right at once comes seldom: as many facts more as it takes, within reason.
    for (let more = 0; more === 0 || (more < 30 && !isSeen()); more++)
      fc.assert(
        fc.property(anyFacts, taken, fc.boolean(), (facts, gone, brief) => {
          for (const verdict of evaluateCheck(shipped, without(facts, gone), proofOf(shipped, brief))) {
            if (shipped.definition.about === 'fire' && verdict.outcome === 'passed') {
              expect(shipped.proof).toBe('system');
              expect(brief ? ['tested', 'demonstration'] : ['tested']).toContain(statusOf(facts));
            }
            if (verdict.wouldBe !== null) {
              wouldPass++;
              expect([verdict.outcome, verdict.missing, verdict.problem, verdict.reason]).toEqual([
                'cantTell',
                [],
                null,
                null,
              ]);
            }
          }
        }),
        { numRuns: 4000, seed: seed + more },
      );
    expect(wouldPass > 0).toBe(shipped.definition.about === 'fire');
  });
});
