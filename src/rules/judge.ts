import { needsAttention } from '../attention.js';
import { once } from '../collect.js';
import type { CheckResult, Crossings, Finding, Judgement, ModelInfo, TestedFor } from '../model.js';
import { compartmentsServed } from '../strategy/airways.js';
import { proposedPanels } from './access-proposals.js';
import { countedOnce } from './check-counts.js';
import { evaluateCheck, type Proof } from './evaluate.js';
import { EACH, type FactObject } from './fact-schema.js';
import { type BareFinding, Result, toFindings } from './finding.js';
import type { KeptCases } from './kept-cases.js';
import type { ProjectBrief } from './project-brief.js';
import type { CompiledCheck, RuleSet } from './rule-set.js';
import type { RunStrategy } from './run-strategy.js';
import { strategyTable } from './strategy-table.js';
import type { Subject } from './subject.js';
import { casesOf, type Subjects } from './subjects.js';
import { serviceRows } from './table-rows.js';
import { testedFor } from './tested-for.js';
import type { TestedSystem } from './tested-system.js';
import { type AlikeVerdicts, verdictsBy } from './verdicts.js';
import { type Waiting, waitingFor } from './waiting.js';
import { servedBy, type WholeRuns } from './whole-runs.js';

export interface JudgeOptions {
  /** What the project brief says; without it, demonstration documents prove nothing. */
  readonly brief?: Partial<Pick<ProjectBrief, 'demonstration' | 'choices'>> | undefined;
  /** Lists also what passed, does not apply, would pass, or waits for a fact that another finding names. */
  readonly allFindings?: boolean;
  /** Where given, a review without ductwork is told from one whose ducts pass nothing. */
  readonly models?: readonly ModelInfo[];
  /** For who judges the same crossings again under changed rules. */
  readonly kept?: KeptCases;
  /** Where only a part of some runs is judged. */
  readonly wholeRuns?: WholeRuns;
}

/** Judges all that was found by all rules. The result does not depend on the order of what was found. */
export const judge = (crossings: Crossings, rules: RuleSet, options: JudgeOptions = {}): Judgement =>
  judgeWithResults(crossings, rules, options).judgement;

/** What is in no list is not put into words: that is most of the time that judging would take. */
export interface Judged {
  readonly judgement: Judgement;
  /** Every result, listed or not, in no order. */
  readonly results: readonly BareFinding[];
  /** Every finding, in the order in which a judgement with all findings lists them. */
  readonly all: () => readonly Finding[];
}

/** The same, and with it every result, for who counts outcomes by penetration. */
export function judgeWithResults(crossings: Crossings, rules: RuleSet, options: JudgeOptions = {}): Judged {
  const decided = decide(crossings, rules, options);
  const { results, waiting } = decided;
  return {
    judgement: judgementOf(decided, options),
    results,
    all: once(() => toFindings(results, waiting().penetrations)),
  };
}

/** Outcomes alone, for who judges the same places again and again. */
export const judgeOutcomes = (
  crossings: Crossings,
  rules: RuleSet,
  options: JudgeOptions = {},
): readonly BareFinding[] => decide(crossings, rules, options).results;

/** How often each check came to each outcome, alone: the first that a person asks after a change. */
export const judgeChecks = (crossings: Crossings, rules: RuleSet, options: JudgeOptions = {}): readonly CheckResult[] =>
  decide(crossings, rules, options).checks();

/** What it comes to, without all that is only shown. */
export interface BriefJudgement {
  readonly judgement: Pick<Judgement, 'checks' | 'findings'>;
  readonly results: readonly BareFinding[];
}

/** The same for who only tries something out: what is listed in words, all the rest by outcome. */
export function judgeBriefly(
  crossings: Crossings,
  rules: RuleSet,
  options: Omit<JudgeOptions, 'allFindings'> = {},
): BriefJudgement {
  const decided = decide(crossings, rules, options);
  return { judgement: { checks: decided.checks(), findings: listedOf(decided, options) }, results: decided.results };
}

/** What is a function is worked out when it is asked for: for outcomes alone it decides nothing. */
interface DecidedCases {
  readonly results: readonly Result[];
  readonly strategies: readonly RunStrategy[];
  readonly rules: Judgement['rules'];
  readonly supports: Judgement['supports'];
  readonly checks: () => Judgement['checks'];
  readonly tested: () => ReadonlyMap<string, TestedFor>;
  readonly proposedPanels: () => Judgement['proposedPanels'];
  readonly waiting: () => Waiting;
}

function decide(crossings: Crossings, rules: RuleSet, options: JudgeOptions): DecidedCases {
  const { demonstration = false, choices } = options.brief ?? {};
  const codes = rules.checks.flatMap(({ definition: { basis } }) => basis.code ?? []);
  const decided = {
    choices,
    codes,
    systems: rules.systems,
    dampers: rules.dampers,
    flanges: rules.flanges,
    published: rules.published,
    serviceRows: serviceRows(rules),
    serves: servedBy(compartmentsServed(crossings), options.wholeRuns),
    wholeRuns: options.wholeRuns,
  };
  const {
    subjects,
    strategies,
    supports,
    choices: chosen,
  } = (options.kept?.of ?? casesOf)(crossings, options.models, decided);
  const { jurisdiction, edition, siteTolerance } = choices ?? {};
  const proof = { demonstration, jurisdiction, edition, siteTolerance };
  const judgePlaces = (checks: readonly CompiledCheck[]) => placesBy(checks, subjects, proof);
  const places = options.kept?.results(subjects, proof, rules.checks, judgePlaces) ?? judgePlaces(rules.checks);
  // What is said once for all models may be that places wait for the code, so those are judged first.
  const model = subjects.model.map((subject) => withWaiting(subject, places.values()));
  const judgedOnce = (check: CompiledCheck): Result[] =>
    model.flatMap((one) => evaluateCheck(check, one.facts, proof).map((verdict) => new Result(check, one, verdict)));
  const judged = rules.checks.map((check) => ({ check, results: places.get(check) ?? judgedOnce(check) }));
  const results = judged.flatMap((one) => one.results);
  return {
    strategies,
    supports,
    results,
    rules: rules.documents,
    tested: once(() => testedFor(crossings, chosen, allowedSystems(rules.systems, choices))),
    proposedPanels: once(() => proposedPanels(crossings, { checks: rules.checks, proof, subjects })),
    checks: once(() => judged.map((one) => countedOnce(one.check, one.results))),
    waiting: once(() => waitingFor(results)),
  };
}

/** What the checks of places say, in the order of the subjects. */
function placesBy(checks: readonly CompiledCheck[], subjects: Subjects, proof: Proof): Map<CompiledCheck, Result[]> {
  const verdicts = verdictsBy(checks, proof);
  return new Map(
    EACH.filter((each) => each !== 'model').flatMap((each) => [...resultsOf(verdicts(each), subjects[each])]),
  );
}

/** What all checks of one kind say, in the order of the subjects. */
function resultsOf(verdicts: AlikeVerdicts, subjects: readonly Subject[]): Map<CompiledCheck, Result[]> {
  const results = new Map(verdicts.checks.map((check) => [check, [] as Result[]]));
  if (results.size === 0) return results;
  const lists = [...results.values()];
  const keys = new Set<string>();
  const sharedKeys = new Set<string>();
  for (const { key } of subjects) (keys.has(key) ? sharedKeys : keys).add(key);
  const alike: Result[] = [];
  for (const about of subjects) {
    const isShared = sharedKeys.has(about.key);
    for (const [i, said] of verdicts.about(about.facts).entries())
      for (const verdict of said) {
        const result = new Result(verdicts.checks[i]!, about, verdict);
        lists[i]!.push(result);
        if (isShared || said.length > 1) alike.push(result);
      }
  }
  Result.number(alike);
  return results;
}

/** How many places wait for the code that holds, and for whether all access panels are modelled. */
function withWaiting(subject: Subject, places: Iterable<readonly Result[]>): Subject {
  const forCode = new Set<string>();
  const forPanels = new Set<string>();
  for (const results of places)
    for (const { verdict, about } of results) {
      if (verdict.open === 'code') forCode.add(about.key);
      if (verdict.missing.includes('brief.accessPanels')) forPanels.add(about.key);
    }
  const code = { ...(subject.facts.code as FactObject), waiting: forCode.size };
  const model = { ...(subject.facts.model as FactObject), panelsWaiting: forPanels.size };
  return { ...subject, facts: { ...subject.facts, code, model } };
}

function judgementOf(decided: DecidedCases, options: JudgeOptions): Judgement {
  const { rules, supports } = decided;
  const findings = listedOf(decided, options);
  const tested = decided.tested();
  const strategy = strategyTable(decided.strategies, tested, findings);
  return {
    rules,
    checks: decided.checks(),
    findings,
    strategy,
    supports,
    proposedPanels: decided.proposedPanels(),
    unsolvedPlaces: null,
    tested: [...tested.values()],
  };
}

function listedOf({ results, waiting }: DecidedCases, { allFindings }: JudgeOptions): Finding[] {
  const { hidden, penetrations } = waiting();
  const isListed = (one: Result): boolean => allFindings === true || (needsAttention(one.verdict) && !hidden.has(one));
  return toFindings(results.filter(isListed), penetrations);
}

/** Of the tested systems that may be used; all that were loaded where the brief names none. */
function allowedSystems(systems: readonly TestedSystem[], choices: ProjectBrief['choices'] | undefined) {
  const named = choices?.testedSystems ?? [];
  return systems.filter(({ id }) => named.length === 0 || named.includes(id));
}
