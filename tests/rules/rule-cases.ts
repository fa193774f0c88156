import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Crossings, Finding, ModelInfo, Outcome } from '../../src/model.js';
import { constructionRows, type JudgeOptions, judge, loadRules } from '../../src/rules/index.js';
import type { CompiledCheck, RuleSet } from '../../src/rules/rule-set.js';

const shipped = (file: string) => ({
  file,
  text: readFileSync(new URL(`../../rules/${file}`, import.meta.url), 'utf8'),
});
/** As the program loads them: in the order of their names. */
export const shippedDocuments = [
  'access.yaml',
  'codes.yaml',
  'common-practice.yaml',
  'constructions.yaml',
  'dampers.yaml',
  'demonstration-blanket.yaml',
  'demonstration-board.yaml',
  'demonstration-damper.yaml',
  'demonstration-duct.yaml',
  'ductwork-strategy.yaml',
  'faces.yaml',
  'flange-heights.yaml',
  'published-values.yaml',
  'room.yaml',
  'services.yaml',
  'supports.yaml',
  'tested-dampers.yaml',
  'tested-scope.yaml',
].map(shipped);
export const shippedText = shippedDocuments.find(({ file }) => file === 'common-practice.yaml')!.text;
export const shippedRules = loadRules(shippedDocuments);
export const shippedConstructions = constructionRows(shippedRules);
/** The shipped checks as if they proved something, so that there are passes that could be wrong; examples stay as they are. */
export const provingRules = loadRules(
  shippedDocuments.map(({ file, text }) => ({
    file,
    text: text.replaceAll(/(?<!system: \{ )status: unverified/g, 'status: demonstration'),
  })),
);

export interface RuleCase {
  readonly why: string;
  readonly crossings: Crossings;
  readonly models?: readonly ModelInfo[];
  readonly brief?: JudgeOptions['brief'];
  /** Where they are not the shipped ones. */
  readonly rules?: RuleSet;
  /** All findings of the check, in the order of the report; the fields named here must be as they are here. */
  readonly findings: readonly (Pick<Finding, 'outcome'> & Partial<Finding>)[];
}

/** What a check can come to, as far as its form tells: the tester asks for a case of each. */
export function possibleOutcomes(check: CompiledCheck): Outcome[] {
  const always = check.reasons.some(({ definition }) => definition.when.trim() === 'true');
  const proves = check.proof !== 'unverified' && check.proof !== 'demonstration';
  return [
    ...(proves && !always ? (['passed'] as const) : []),
    ...(check.measure && !always ? (['failed'] as const) : []),
    'cantTell' as const,
    ...(check.where || check.definition.services ? (['inapplicable'] as const) : []),
  ];
}

/** One call tests one shipped check. The first test polices the cases; the rest are the cases. */
export function ruleCases(id: string, cases: readonly RuleCase[]): void {
  describe(id, () => {
    const check = shippedRules.checks.find(({ definition }) => definition.id === id)!;

    it('has a case for every outcome that can occur, and one that would pass', () => {
      const findings = cases.flatMap((one) => one.findings);
      const outcomes = new Set(findings.map(({ outcome }) => outcome));
      for (const outcome of possibleOutcomes(check)) expect(outcomes, `add a "${outcome}" case`).toContain(outcome);
      if (check.proof === 'unverified' || check.proof === 'system') {
        expect(
          findings.some(({ wouldBe }) => wouldBe === 'passed'),
          'add a case that would pass',
        ).toBe(true);
      }
      expect(new Set(cases.map(({ why }) => why)).size, 'duplicate cases').toBe(cases.length);
    });

    it.each(cases)('$why', ({ crossings, models, brief, rules, findings }) => {
      const { findings: all } = judge(frozen(crossings), rules ?? shippedRules, {
        allFindings: true,
        ...(models && { models }),
        brief,
      });
      const own = all.filter((finding) => finding.check === id);
      expect(own).toMatchObject(findings);
      for (const finding of own) expect(finding.message).not.toMatch(/[{}]|undefined|NaN|null/);
    });
  });
}

/** A rule may not write. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}
