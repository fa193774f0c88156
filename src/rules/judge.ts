import { needsAttention } from '../attention.js';
import { once } from '../collect.js';
import type {
  CheckResult,
  Crossings,
  Finding,
  Judgement,
  ModelInfo,
  Outcome,
  RuleStatus,
  TestedFor,
} from '../model.js';
import { compartmentsServed } from '../strategy/airways.js';
import { proposedPanels } from './access-proposals.js';
import { evaluateReady, withAllVariables } from './evaluate.js';
import { EACH, type Each, type FactObject } from './fact-schema.js';
import { type BareFinding, bareFindings, type Candidate, type Keyed, toFindings, withKeys } from './finding.js';
import type { ProjectBrief } from './project-brief.js';
import { textOf } from './read-fact.js';
import { type CompiledCheck, RULE_STATUSES, type RuleSet } from './rule-set.js';
import type { RunStrategy } from './run-strategy.js';
import { strategyTable } from './strategy-table.js';
import type { Subject } from './subject.js';
import { casesOf } from './subjects.js';
import { serviceRows } from './table-rows.js';
import { testedFor } from './tested-for.js';
import type { TestedSystem } from './tested-system.js';
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

/** The same, with the outcomes alone of what is not listed: most of the time that judging takes goes into its words. */
export function judgeWithOutcomes(
  crossings: Crossings,
  rules: RuleSet,
  options: Omit<JudgeOptions, 'allFindings'> = {},
): { readonly judgement: Judgement; readonly results: readonly BareFinding[] } {
  const decided = decide(crossings, rules, options);
  return { judgement: judgementOf(decided, options), results: bareFindings(decided.keyed()) };
}

/** Outcomes alone, of every finding, listed or not: for who judges the same places again and again. */
export const judgeOutcomes = (crossings: Crossings, rules: RuleSet, options: JudgeOptions = {}): BareFinding[] =>
  bareFindings(decide(crossings, rules, options).keyed());

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
  const { checks, keyed } = decided;
  return { judgement: { checks, findings: listedOf(decided, options) }, results: bareFindings(keyed()) };
}

interface DecidedCases
  extends Omit<Judgement, 'findings' | 'strategy' | 'tested' | 'proposedPanels' | 'unsolvedPlaces'> {
  readonly strategies: readonly RunStrategy[];
  /** Worked out when it is asked for: what would do elsewhere is a third of the work, and decides nothing. */
  readonly tested: () => ReadonlyMap<string, TestedFor>;
  readonly proposedPanels: () => Judgement['proposedPanels'];
  /** Once for what is listed and for all that came of it. */
  readonly keyed: () => readonly Keyed[];
  readonly waiting: Waiting;
}

/** A subject with its facts as checks read them. */
interface Ready {
  readonly subject: Subject;
  readonly facts: FactObject;
}

const readyFor = (each: Each, subject: Subject): Ready => ({ subject, facts: withAllVariables(each, subject.facts) });

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
    serves: compartmentsServed(crossings),
  };
  const { subjects, strategies, supports, choices: chosen } = casesOf(crossings, options.models, decided);
  const { jurisdiction, edition, siteTolerance } = choices ?? {};
  const proof = { demonstration, jurisdiction, edition, siteTolerance };
  const judgedBy = (check: CompiledCheck, of: readonly Ready[]): Candidate[] =>
    of.flatMap(({ subject, facts }) =>
      evaluateReady(check, facts, proof).map((verdict) => ({ check, subject, verdict })),
    );
  // Dozens of checks look at each subject.
  const ready = new Map(EACH.map((each) => [each, subjects[each].map((subject) => readyFor(each, subject))]));
  const places = new Map(
    rules.checks
      .filter(({ each }) => each !== 'model')
      .map((check) => [check, judgedBy(check, ready.get(check.each)!)]),
  );
  // What is said once for all models may be that places wait for the code, so those are judged first.
  const all = [...places.values()].flat();
  const model = subjects.model.map((subject) => readyFor('model', withWaiting(subject, all)));
  const judged = rules.checks.map((check) => ({ check, candidates: places.get(check) ?? judgedBy(check, model) }));
  const candidates = judged.flatMap((one) => one.candidates);
  return {
    strategies,
    supports,
    tested: once(() => testedFor(crossings, chosen, allowedSystems(rules.systems, choices))),
    rules: rules.documents,
    proposedPanels: once(() => proposedPanels(crossings, { checks: rules.checks, proof, subjects })),
    checks: judged.map((one) => resultOf(one.check, one.candidates)),
    keyed: once(() => withKeys(candidates)),
    waiting: waitingFor(candidates),
  };
}

/** How many places wait for the code that holds, and for whether all access panels are modelled. */
function withWaiting(subject: Subject, places: readonly Candidate[]): Subject {
  const waiting = new Set(places.filter(({ verdict }) => verdict.open === 'code').map((one) => one.subject.key));
  const code = { ...(subject.facts.code as FactObject), waiting: waiting.size };
  const forPanels = places.filter(({ verdict }) => verdict.missing.includes('brief.accessPanels'));
  const panelsWaiting = new Set(forPanels.map((one) => one.subject.key)).size;
  const model = { ...(subject.facts.model as FactObject), panelsWaiting };
  return { ...subject, facts: { ...subject.facts, code, model } };
}

function judgementOf(decided: DecidedCases, options: JudgeOptions): Judgement {
  const { rules, checks, proposedPanels: proposed, supports } = decided;
  const findings = listedOf(decided, options);
  const tested = decided.tested();
  const strategy = strategyTable(decided.strategies, tested, findings);
  return {
    rules,
    checks,
    findings,
    strategy,
    supports,
    proposedPanels: proposed(),
    unsolvedPlaces: null,
    tested: [...tested.values()],
  };
}

function listedOf(decided: DecidedCases, { allFindings }: JudgeOptions): Finding[] {
  const { hidden } = decided.waiting;
  return findingsOf(decided, (one) => allFindings === true || (needsAttention(one.verdict) && !hidden.has(one)));
}

/** Of the tested systems that may be used; all that were loaded where the brief names none. */
function allowedSystems(systems: readonly TestedSystem[], choices: ProjectBrief['choices'] | undefined) {
  const named = choices?.testedSystems ?? [];
  return systems.filter(({ id }) => named.length === 0 || named.includes(id));
}

const findingsOf = ({ keyed, waiting }: DecidedCases, isListed: (one: Candidate) => boolean): Finding[] =>
  toFindings(keyed(), isListed, waiting.penetrations);

/** Of several systems that were gone by, the one that proves least; where none was chosen nothing is proved. */
function statusOf(basis: RuleStatus | 'system', judged: readonly Candidate[]): RuleStatus {
  if (basis !== 'system') return basis;
  const used = judged.map(({ subject }) => textOf(subject.facts, 'system.status'));
  return RULE_STATUSES.findLast((status) => used.includes(status)) ?? 'unverified';
}

function resultOf({ definition }: CompiledCheck, judged: readonly Candidate[]): CheckResult {
  const { code } = definition.basis;
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
      jurisdiction: code?.jurisdiction ?? null,
      edition: code?.edition ?? null,
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
