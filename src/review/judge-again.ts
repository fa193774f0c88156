/** The facts of a review judged under other choices of its brief: no model is read, nothing is found again. */
import { quantify } from '../quantify/quantify.js';
import { buildReport } from '../report/build-report.js';
import type { Report } from '../report/schema.js';
import {
  type Assumption,
  assumeChoices,
  judgeWithResults,
  loadBrief,
  loadRules,
  type ProjectBrief,
  type RuleSet,
  serviceRows,
} from '../rules/index.js';
import { rulesOf } from './documents.js';
import type { ReviewFacts } from './facts-file.js';

export class FactsAgain {
  private readonly rules: RuleSet;
  private readonly brief: ProjectBrief | undefined;

  /** @throws RuleDocumentError where this version of the program no longer takes a document */
  constructor(private readonly facts: ReviewFacts) {
    this.rules = rulesOf(facts.rules ?? undefined, loadRules(facts.shipped));
    this.brief = facts.brief ? loadBrief(facts.brief, this.rules) : undefined;
  }

  /**
   * What the report would be. Without remedies, which are proven on the models, and without cutting plans, which take longer
   * than all the rest; quantities are those that would be built in.
   *
   * @throws AssumptionError where a name leads to no choice, or the changed brief would be refused as a brief
   */
  async under(assumptions: readonly Assumption[]): Promise<Report> {
    const { facts, rules, brief } = this;
    const { models, crossings, storeys } = facts;
    const assumed = assumeChoices(brief, assumptions, rules);
    const { judgement, results } = judgeWithResults(crossings, rules, { brief: assumed, models });
    const { choices } = assumed;
    const takeoff = await quantify({ crossings, judgement, systems: rules.systems, choices, storeys }, { cuts: false });
    return buildReport({
      ...{ models, crossings, judgement, results, takeoff, choices, serviceRows: serviceRows(rules) },
      brief: facts.brief ? { file: facts.brief.file, sha256: '', demonstration: assumed.demonstration } : undefined,
      createdAt: facts.createdAt,
      toolVersion: facts.tool.replace(/^ratedrun /, ''),
    });
  }
}
