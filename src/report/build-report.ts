/** Puts models, measured facts and findings together into the report that all outputs are written from. */
import type { BarrierFacts, Crossings, Judgement, ModelInfo } from '../model.js';
import { OUTCOMES } from '../model.js';
import type { Takeoff } from '../quantify/takeoff.js';
import { type BareFinding, type BriefChoices, requiredAt } from '../rules/index.js';
import { compartmentsServed } from '../strategy/airways.js';
import type { ServiceRow } from '../strategy/index.js';
import { fileName } from '../words/text.js';
import { commentsOn, type TopicOf, topicsOn } from './comments.js';
import { concessionsOn } from './concessions.js';
import { carriedOn, issuedIn } from './issued-tags.js';
import { countOutcomes, sumOutcomes } from './outcome-counts.js';
import { penetrationVerdicts } from './penetration-outcome.js';
import { type Assumed, type Report, reportSchema } from './schema.js';

/** What a report is not. Every output shows these. */
export const CAUTIONS: readonly string[] = [
  'This is a review of models, not a certification and not an approval: it tells what the files say and how that compares with the rules named here.',
  "The tested system's own documents, the codes that hold where the building stands, and licensed practitioners decide.",
  'What is unknown is never counted as passed: "can\'t tell" means that a fact or its proof is missing.',
  'Limits from common practice prove nothing: a value inside them is still "can\'t tell".',
  'Only what is in these files was looked at; elements that could not be read or classified were not checked.',
];

export interface ReportInput {
  /** Of the brief: what it asks for at each penetration, and what was conceded. */
  readonly choices?: BriefChoices | undefined;
  /** Of the rules: what holds for the services that systems of ducts have. */
  readonly serviceRows?: readonly ServiceRow[] | undefined;
  readonly models: readonly ModelInfo[];
  readonly crossings: Crossings;
  readonly judgement: Judgement;
  /** Left out: the default brief holds. */
  readonly brief?: { readonly file: string; readonly sha256: string; readonly demonstration: boolean } | undefined;
  /** ISO 8601 in UTC, e.g. `2026-01-01T00:00:00Z`. The caller has the clock, so that the same input gives the same bytes. */
  readonly createdAt: string;
  readonly toolVersion: string;
  /** Of the models, e.g. `B`. */
  readonly revision?: string | undefined;
  /** The report before this one: its list of tags is carried on. */
  readonly previous?: Report | undefined;
  /**
   * Every result, also those that `judgement.findings` leaves to the counts: only these can show that a penetration
   * passed. Without them a penetration about which nothing worse is listed counts as can't tell, and a concession of what
   * is not listed as stale.
   */
  readonly results?: readonly BareFinding[] | undefined;
  /** What `tryChoices` says of other choices; it stands beside the review and changes nothing of it. */
  readonly assumed?: Assumed | undefined;
  /** What is bought, cut and fixed; left out where nothing was quantified. */
  readonly takeoff?: Takeoff | undefined;
  /** What people said in an issue exchange. */
  readonly topicOf?: TopicOf | undefined;
}

/**
 * Lists the findings as they were judged; whoever judges decides which are listed.
 *
 * @throws ZodError when the result is not a valid report, which is a fault of the program.
 */
export function buildReport(input: ReportInput): Report {
  const { models, crossings, judgement, brief, createdAt } = input;
  const { checks, findings } = judgement;
  const topicOf = topicsOn(input.topicOf, crossings.penetrations);
  const comments = commentsOn(input.choices?.comments ?? [], findings);
  const outcomes = sumOutcomes(checks);
  const results = input.results ?? findings;
  const complete = results.length === OUTCOMES.reduce((sum, outcome) => sum + outcomes[outcome], 0);
  const verdicts = penetrationVerdicts(crossings.penetrations, results, checks, complete);
  const concessions = concessionsOn(input.choices?.concessions ?? [], results, createdAt, findings);
  const strategy = { ...input, serves: compartmentsServed(crossings) };
  const tested = new Map(judgement.tested.map(({ penetration, ...own }) => [penetration, own]));
  const penetrations = crossings.penetrations.map((p) => ({
    ...printed(p),
    treatment: { ...p.treatment, ...(tested.get(p.id) ?? NOTHING_TESTED) },
    ...verdicts.get(p.id)!,
    required: requiredAt(p, strategy),
  }));
  return reportSchema.parse({
    format: 'ratedrun-report',
    version: 1,
    tool: `ratedrun ${input.toolVersion}`,
    createdAt,
    demonstration: brief?.demonstration ?? false,
    cautions: CAUTIONS,
    revision: input.revision ?? null,
    brief: brief ? { file: brief.file, sha256: brief.sha256 } : null,
    models,
    rules: judgement.rules.map((rule) => ({ ...rule, file: fileName(rule.file) })),
    checks,
    summary: {
      penetrations: penetrations.length,
      crossings: {
        through: countOf(penetrations, (p) => p.crossing === 'through'),
        endsInside: countOf(penetrations, (p) => p.crossing === 'endsInside'),
        partial: countOf(penetrations, (p) => p.crossing === 'partial'),
      },
      penetrationOutcomes: countOutcomes(penetrations.map((p) => p.outcome)),
      outcomes,
      wouldPass: checks.reduce((sum, check) => sum + check.outcomes.wouldPass, 0),
      barriersCrossed: new Set(penetrations.map((p) => `${p.barrier.model}/${p.barrier.globalId}`)).size,
      elementsSkipped: models.reduce((sum, m) => sum + m.counts.skipped, 0),
      unclassified: models.reduce((sum, m) => sum + m.counts.unclassified, 0),
      unsolvedPlaces: judgement.unsolvedPlaces,
    },
    barriers: crossings.barriers.map(printedBarrier),
    compartments: crossings.compartments,
    doors: crossings.doors,
    runs: crossings.runs,
    access: crossings.access,
    proposedPanels: judgement.proposedPanels,
    strategy: judgement.strategy,
    supports: judgement.supports,
    penetrations,
    openings: crossings.openings,
    findings: findings.map((finding) => ({
      ...finding,
      concession: concessions.beside(finding) ?? finding.concession,
      comments: [...comments.beside(finding)],
      topic: topicOf(finding, comments.beside(finding)),
    })),
    facingEnds: crossings.facingEnds.map(printed),
    concessions: [...concessions.list],
    comments: [...comments.list],
    assumed: input.assumed ?? null,
    issuedTags: carriedOn(issuedIn(input.previous), penetrations, createdAt),
    takeoff: input.takeoff ?? null,
  } satisfies Report);
}

/** Of a program that judges without tested systems. */
const NOTHING_TESTED = { chosen: null, feasible: [], nearest: [] };

const countOf = <T>(list: readonly T[], is: (item: T) => boolean): number => list.filter(is).length;

const printed = <T extends { readonly barrier: BarrierFacts }>(one: T) => ({
  ...one,
  barrier: printedBarrier(one.barrier),
});

/** What is left out in a Federation is null in what prints. */
const printedBarrier = (barrier: BarrierFacts) => ({
  ...barrier,
  layers: barrier.layers.map(({ material, thickness, role }) => ({
    material,
    thickness: thickness ?? null,
    role: role ?? null,
  })),
});
