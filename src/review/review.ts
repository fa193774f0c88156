/**
 * One whole review: models and documents in; report, and all that outputs are written from, out. The same in a terminal and
 * in a browser; where files are read, and what the time is, the caller says.
 */
import { carryKeys } from '../compare/carry-keys.js';
import type { Crossings, Federation, Judgement, Storey } from '../model.js';
import type { CutOptions } from '../quantify/cut-items.js';
import { quantify } from '../quantify/quantify.js';
import { storeysIn } from '../quantify/storeys.js';
import { withRemedies } from '../remedy/remedies.js';
import { buildReport, type ReportInput } from '../report/build-report.js';
import type { Report } from '../report/schema.js';
import { tryChoices } from '../report/try-choices.js';
import {
  type Assumption,
  type BareFinding,
  type Judged,
  judgeWithResults,
  largestSeparation,
  type RuleSet,
  serviceRows,
} from '../rules/index.js';
import type { ReadBrief } from './documents.js';
import { type Found, type FoundInput, findAll, type ReviewOptions } from './found.js';

/** What is judged, and what the report says beside it. */
export interface JudgingInput extends Pick<ReportInput, 'createdAt' | 'toolVersion' | 'revision' | 'topicOf'> {
  readonly rules: RuleSet;
  /** Left out: the default brief. */
  readonly brief?: ReadBrief | undefined;
  /** Its keys, tags and list of tags are carried over. */
  readonly previous?: Report | undefined;
  readonly assumptions?: readonly Assumption[];
  /** Lists what passed, too. */
  readonly allFindings?: boolean;
}

export interface ReviewInput extends JudgingInput, Omit<FoundInput, 'facts' | 'separation'> {}

export interface Review {
  readonly report: Report;
  /** The same report with all findings listed. */
  readonly whole: () => Report;
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly judgement: Judgement;
  /** Every result, also those that the judgement leaves to the counts. */
  readonly results: readonly BareFinding[];
  readonly storeys: readonly Storey[];
}

/**
 * @throws InputError where a model can't be reviewed; AssumptionError; the reason of `signal`
 */
export async function review(input: ReviewInput, options: JudgingOptions = {}): Promise<Review> {
  const found = await findAll({ ...input, ...findingUnder(input) }, options);
  return reviewFound(found, input, options);
}

/** What of rules and brief is asked before anything is judged. */
export const findingUnder = ({ rules, brief }: Pick<JudgingInput, 'rules' | 'brief'>) => ({
  separation: largestSeparation(rules),
  facts: brief?.brief.facts,
});

export interface JudgingOptions extends ReviewOptions, Pick<CutOptions, 'planner'> {}

/**
 * The same from what was found already, under the same facts of a brief and as far apart as the rules ask.
 *
 * @throws AssumptionError; the reason of `signal`
 */
export async function reviewFound(
  { federation, crossings: found, wide }: Found,
  input: JudgingInput,
  options: JudgingOptions = {},
): Promise<Review> {
  const { rules, brief, previous, assumptions = [], allFindings = false } = input;
  const { signal, onProgress: progress = () => {} } = options;
  const during =
    (stage: string) =>
    (share: number): void =>
      progress(stage, share);
  const crossings = previous ? carryKeys(found, previous) : found;
  progress('Judging', 0);
  const { models } = federation;
  const judging = { brief: brief?.brief, models, allFindings };
  const bare = judgeWithResults(crossings, rules, judging);
  const storeys = storeysIn(federation);
  const choices = brief?.brief.choices;
  progress('Counting', 0);
  // Remedies change neither what is counted nor what it is counted from, so plans made elsewhere are made meanwhile.
  const counted = { crossings, judgement: bare.judgement, systems: rules.systems, choices, storeys };
  const planned = during('Planning cuts');
  const planning = quantify(counted, { signal, planner: options.planner, onProgress: planned });
  const solving = async (): Promise<Judged> => {
    const solved = withRemedies(bare, {
      ...{ federation, crossings, wide, rules, find: findingUnder(input), judge: judging },
      onProgress: during('Solving and proving remedies'),
    });
    // Nobody could say before now that a plan is made; what is waited for from here on are plans.
    planned(0);
    return solved;
  };
  const [takeoff, judged] = await Promise.all([planning, solving()]);
  const { judgement, results } = judged;
  progress('Putting the report together', 0);
  const trial = { crossings, rules, brief: brief?.brief, models, judged: { judgement, results } };
  const reported: ReportInput = {
    ...{ models, crossings, judgement, results, takeoff, previous, choices, brief: brief?.info },
    ...{ revision: input.revision, topicOf: input.topicOf, createdAt: input.createdAt, toolVersion: input.toolVersion },
    assumed: assumptions.length > 0 ? tryChoices(trial, assumptions) : undefined,
    serviceRows: serviceRows(rules),
  };
  return {
    ...{ judgement, results, federation, crossings, storeys },
    report: buildReport(reported),
    whole: () => buildReport({ ...reported, judgement: { ...judgement, findings: judged.all() } }),
  };
}
