/** The facts of a review judged under other choices of its brief: no model is read, nothing is found again. */
import { once } from '../collect.js';
import { quantify } from '../quantify/quantify.js';
import { buildReport } from '../report/build-report.js';
import type { Report } from '../report/schema.js';
import { whatChanges } from '../report/try-choices.js';
import {
  type Assumption,
  assumeChoices,
  judgeBriefly,
  judgeWithResults,
  loadBrief,
  loadRules,
  type ProjectBrief,
  type RuleSet,
  serviceRows,
} from '../rules/index.js';
import { type Choosable, choosableOf } from './choosable.js';
import { rulesOf } from './documents.js';
import type { ReviewFacts } from './facts-file.js';

export class FactsAgain {
  readonly rules: RuleSet;
  private readonly brief: ProjectBrief | undefined;
  private readonly asReviewed = once(() => {
    const { crossings, models } = this.facts;
    return judgeBriefly(crossings, this.rules, { brief: this.brief, models });
  });

  /** @throws RuleDocumentError where this version of the program no longer takes a document */
  constructor(readonly facts: ReviewFacts) {
    this.rules = rulesOf(facts.rules ?? undefined, loadRules(facts.shipped));
    this.brief = facts.brief ? loadBrief(facts.brief, this.rules) : undefined;
  }

  /** Judges as it was reviewed, which else waits for the first trial. */
  prepare(): void {
    this.asReviewed();
  }

  /**
   * What the report would be, with what changes beside it (`assumed`). Without changes, which are proven on the models, and
   * without cutting plans, which take longer than all the rest; quantities are those that would be built in.
   *
   * @throws AssumptionError where a name leads to no choice, or the changed brief would be refused as a brief
   */
  async under(assumptions: readonly Assumption[]): Promise<Report> {
    const { facts, rules, brief } = this;
    const { models, crossings, storeys } = facts;
    const assumed = assumeChoices(brief, assumptions, rules);
    const judged = judgeWithResults(crossings, rules, { brief: assumed, models });
    const { judgement, results } = judged;
    const { choices } = assumed;
    const takeoff = await quantify({ crossings, judgement, systems: rules.systems, choices, storeys }, { cuts: false });
    return buildReport({
      ...{ models, crossings, judgement, results, takeoff, choices, serviceRows: serviceRows(rules) },
      assumed:
        assumptions.length === 0
          ? undefined
          : whatChanges({ crossings, brief }, assumptions, this.asReviewed(), judged),
      brief: facts.brief ? { file: facts.brief.file, sha256: '', demonstration: assumed.demonstration } : undefined,
      createdAt: facts.createdAt,
      toolVersion: facts.tool.replace(/^ratedrun /, ''),
    });
  }

  get choosable(): Choosable {
    return choosableOf(assumeChoices(this.brief, []).choices, this.rules);
  }
}

/**
 * A trial with what only the review knows and the trial does not touch: the remedies of findings that come out the same
 * (others keep what their rule says, nothing is proven for them), and what people said.
 */
export function withWordsOf(reviewed: Report, trial: Report): Report {
  const before = new Map(reviewed.findings.map((finding) => [finding.key, finding]));
  const findings = trial.findings.map((finding) => {
    const known = before.get(finding.key);
    if (!known) return finding;
    const { topic, comments, remedy, change } = known;
    return { ...finding, topic, comments, ...(isSame(finding, known) && { remedy, change }) };
  });
  return { ...trial, revision: reviewed.revision, issuedTags: reviewed.issuedTags, findings };
}

type Compared = Pick<Report['findings'][number], 'outcome' | 'measured' | 'limit'>;

const isSame = (a: Compared, b: Compared): boolean =>
  a.outcome === b.outcome && a.measured === b.measured && JSON.stringify(a.limit) === JSON.stringify(b.limit);
