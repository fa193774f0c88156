/**
 * What would be if choices of the brief were others: the same facts, judged twice. No model is read and nothing is
 * found again. What comes of it says what would change, and is no review.
 */
import type { Crossings, Finding, ModelInfo } from '../model.js';
import {
  type Assumption,
  assumeChoices,
  type BriefJudgement,
  choiceAt,
  judgeBriefly,
  type ProjectBrief,
  type RuleSet,
} from '../rules/index.js';
import { countOutcomes, sumOutcomes } from './outcome-counts.js';
import { penetrationVerdicts } from './penetration-outcome.js';
import type { Assumed } from './schema.js';
import { ASSUMPTION } from './words.js';

export interface TrialInput {
  readonly crossings: Crossings;
  readonly rules: RuleSet;
  readonly models: readonly ModelInfo[];
  /** As it is written; left out: the default brief. */
  readonly brief?: ProjectBrief | undefined;
  /** What came of judging under that brief; left out, or with all findings listed: it is judged again. */
  readonly judged?: BriefJudgement | undefined;
}

/** @throws AssumptionError where a name leads to no choice, or the changed brief would be refused as a brief */
export function tryChoices(input: TrialInput, assumptions: readonly Assumption[]): Assumed {
  const { crossings, rules, models, brief, judged } = input;
  const judgedUnder = (one: ProjectBrief | undefined) => judgeBriefly(crossings, rules, { brief: one, models });
  const isWhole = judged !== undefined && judged.judgement.findings.length < judged.results.length;
  const after = judgedUnder(assumeChoices(brief, assumptions, rules));
  return whatChanges(input, assumptions, isWhole ? judged : judgedUnder(brief), after);
}

/** The same of what was judged already. */
export function whatChanges(
  { crossings, brief }: Pick<TrialInput, 'crossings' | 'brief'>,
  assumptions: readonly Assumption[],
  judged: BriefJudgement,
  judgedThen: BriefJudgement,
): Assumed {
  const [before, after] = [outcomeOf(crossings, judged), outcomeOf(crossings, judgedThen)];
  return {
    note: ASSUMPTION,
    choices: assumptions.map(({ name, value }) => ({ name, before: choiceAt(brief, name) ?? null, value })),
    outcomes: { before: before.outcomes, after: after.outcomes },
    penetrationOutcomes: { before: before.penetrations, after: after.penetrations },
    goes: movedFrom(before, after),
    comes: movedFrom(after, before),
  };
}

function outcomeOf({ penetrations }: Crossings, { judgement, results }: BriefJudgement) {
  const verdicts = penetrationVerdicts(penetrations, results, judgement.checks, true);
  return {
    listed: judgement.findings,
    byKey: new Map(results.map((finding) => [finding.key, finding])),
    outcomes: sumOutcomes(judgement.checks),
    penetrations: countOutcomes([...verdicts.values()].map(({ outcome }) => outcome)),
  };
}

type Judged = ReturnType<typeof outcomeOf>;

/** Findings that the one judgement lists, and the other does not, or with another outcome; in the order of the one. */
function movedFrom({ listed }: Judged, other: Judged): Assumed['goes'] {
  const there = new Map(other.listed.map(({ key, outcome }) => [key, outcome]));
  const isMoved = ({ key, outcome }: Finding): boolean => there.get(key) !== outcome;
  return listed.filter(isMoved).map(({ key, check, subject: { type, id }, side, outcome, message }) => ({
    ...{ key, check, subject: { type, id }, side, outcome, message },
    other: other.byKey.get(key)?.outcome ?? null,
  }));
}
