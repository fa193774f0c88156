import type { CheckResult, Crossings, Finding, Judgement, ModelInfo, Outcome, RuleStatus } from '../model.js';
import { evaluateCheck, type Verdict } from './evaluate.js';
import { type Candidate, toFindings } from './finding.js';
import type { ProjectBrief } from './project-brief.js';
import { textOf } from './read-fact.js';
import { type CompiledCheck, RULE_STATUSES, type RuleSet } from './rule-set.js';
import { type Subject, subjectsOf } from './subjects.js';
import { type Waiting, waitingFor } from './waiting.js';

export interface JudgeOptions {
  /** What the project brief says; without it, demonstration documents prove nothing. */
  readonly brief?: Partial<Pick<ProjectBrief, 'demonstration' | 'choices'>> | undefined;
  /** Lists also what passed, does not apply, would pass, or waits for a fact that another finding names. */
  readonly allFindings?: boolean;
  /** Where given, a review without ductwork is told from one whose ducts pass nothing. */
  readonly models?: readonly ModelInfo[];
}

/** Judges all that was found by all rules. The result does not depend on the order of what was found. */
export const judge = (crossings: Crossings, rules: RuleSet, options: JudgeOptions = {}): Judgement =>
  judgementOf(decide(crossings, rules, options), options);

/** The same, and with it every finding, listed or not, for who counts outcomes by penetration: judged once for both. */
export function judgeWithResults(
  crossings: Crossings,
  rules: RuleSet,
  options: JudgeOptions = {},
): { readonly judgement: Judgement; readonly results: readonly Finding[] } {
  const decided = decide(crossings, rules, options);
  const judgement = judgementOf(decided, options);
  return { judgement, results: options.allFindings ? judgement.findings : findingsOf(decided, () => true) };
}

interface DecidedCases extends Omit<Judgement, 'findings'> {
  readonly candidates: readonly Candidate[];
  readonly waiting: Waiting;
}

function decide(crossings: Crossings, rules: RuleSet, options: JudgeOptions): DecidedCases {
  const decided = { choices: options.brief?.choices, systems: rules.systems, dampers: rules.dampers };
  const subjects = subjectsOf(crossings, options.models, decided);
  const proof = { demonstration: options.brief?.demonstration === true };
  const checks: CheckResult[] = [];
  const candidates: Candidate[] = [];
  for (const check of rules.checks) {
    const judged = subjects[check.each].flatMap((subject: Subject) =>
      evaluateCheck(check, subject.facts, proof).map((verdict) => ({ check, subject, verdict })),
    );
    checks.push(resultOf(check, judged));
    candidates.push(...judged);
  }
  return { rules: rules.documents, checks, candidates, waiting: waitingFor(candidates) };
}

function judgementOf(decided: DecidedCases, { allFindings }: JudgeOptions): Judgement {
  const { rules, checks, waiting } = decided;
  const isListed = (one: Candidate): boolean =>
    allFindings === true || (needsAttention(one.verdict) && !waiting.hidden.has(one));
  return { rules, checks, findings: findingsOf(decided, isListed) };
}

const findingsOf = ({ candidates, waiting }: DecidedCases, isListed: (one: Candidate) => boolean): Finding[] =>
  toFindings(candidates, isListed, waiting.penetrations);

const needsAttention = ({ outcome, wouldBe }: Verdict): boolean =>
  outcome === 'failed' || outcome === 'untested' || (outcome === 'cantTell' && wouldBe === null);

/** Of several systems that were gone by, the one that proves least; where none was chosen nothing is proved. */
function statusOf(basis: RuleStatus | 'system', judged: readonly Candidate[]): RuleStatus {
  if (basis !== 'system') return basis;
  const used = judged.map(({ subject }) => textOf(subject.facts, 'system.status'));
  return RULE_STATUSES.findLast((status) => used.includes(status)) ?? 'unverified';
}

function resultOf({ definition }: CompiledCheck, judged: readonly Candidate[]): CheckResult {
  const count = (outcome: Outcome): number => judged.filter(({ verdict }) => verdict.outcome === outcome).length;
  return {
    id: definition.id,
    title: definition.title,
    about: definition.about,
    unit: definition.unit ?? null,
    stops: definition.stops ?? null,
    basis: {
      source: definition.basis.source,
      clause: definition.basis.clause ?? null,
      status: statusOf(definition.basis.status, judged),
    },
    outcomes: {
      passed: count('passed'),
      failed: count('failed'),
      cantTell: count('cantTell'),
      inapplicable: count('inapplicable'),
      untested: count('untested'),
      wouldPass: judged.filter(({ verdict }) => verdict.wouldBe === 'passed').length,
    },
  };
}
