/**
 * report.json as data: what is written is checked against this, and readers are told by it what they get.
 *
 * The schema drops fields it does not name instead of refusing them, so that a report of a later version can be read;
 * what we write ourselves passes through it, so nothing else can slip into the file.
 */
import * as z from 'zod';
import {
  type BarrierFacts,
  type CheckResult,
  type Compartment,
  type DoorFacts,
  type FacingEnds,
  type Finding,
  HOLD_POINTS,
  type LayerRole,
  type Limit,
  type ModelInfo,
  type OpeningSubject,
  type Penetration,
  type ProposedPanel,
  type RuleInfo,
  type Run,
  type RunAccess,
  type StrategyRow,
  type SupportRow,
  type TestedFor,
  UNITS,
} from '../model.js';
import type { Takeoff } from '../quantify/takeoff.js';
import { proposedPanel, runAccess } from './schema-access.js';
import { barrier, compartment, door } from './schema-barriers.js';
import { change } from './schema-changes.js';
import { assumed, concession, judged, listedComment, listedConcession, said } from './schema-decisions.js';
import { count, elementRef, limit, outcome, outcomeCounts, ruleStatus, side, vec3 } from './schema-parts.js';
import { facingEnds, openingSubject, penetrationFacts } from './schema-penetrations.js';
import { run, strategyRow, supportRow } from './schema-runs.js';
import { takeoff } from './schema-takeoff.js';

const finding = z.object({
  id: z.string(),
  key: z.string(),
  check: z.string(),
  outcome,
  wouldBe: z.literal('passed').nullable(),
  subject: z.object({
    type: z.enum(['penetration', 'run', 'duct', 'barrier', 'opening', 'model']),
    id: z.string(),
    elements: z.array(elementRef),
  }),
  side: side.nullable(),
  at: vec3.nullable(),
  measured: judged.nullable(),
  limit: limit.nullable(),
  margin: z.number().nullable(),
  tolerance: z
    .object({ site: z.number(), measuring: z.number() })
    .nullable()
    .default(null)
    .describe('What the margin has to hold, both together, in mm; null: nothing is asked for'),
  message: z.string(),
  remedy: z.string().nullable(),
  change: change.nullable(),
  missing: z.array(z.string()),
  concession: concession.nullable(),
  comments: z.array(said).default([]).describe('What the brief says that people said of it; never changes the outcome'),
  topic: z
    .object({
      guid: z.string(),
      status: z.string().nullable(),
      assignedTo: z.string().nullable(),
      comments: z.array(said),
    })
    .nullable()
    .default(null)
    .describe('What people said of it in an issue exchange; never changes the outcome'),
});

const model = z.object({
  id: z.string(),
  file: z.string(),
  schema: z.string(),
  sha256: z.string(),
  projectGlobalId: z.string().nullable(),
  lengthUnit: z.string(),
  application: z.string().nullable(),
  writtenAt: z.string().nullable().default(null),
  counts: z.object({
    ducts: count,
    fittings: count,
    dampers: count,
    silencers: count,
    terminals: count,
    barriers: count,
    barriersOfParts: count,
    openings: count,
    otherServices: count,
    skipped: count,
    unclassified: count,
  }),
  problems: z.array(z.object({ code: z.string(), globalId: z.string().nullable(), message: z.string() })),
});

const rule = z.object({
  id: z.string(),
  version: z.string(),
  file: z.string(),
  status: ruleStatus,
  source: z.string(),
});

const check = z.object({
  id: z.string(),
  title: z.string(),
  about: z.enum(['model', 'fire']),
  unit: z.enum(UNITS).nullable(),
  stops: z.enum(HOLD_POINTS).nullable().default(null).describe('The work that a failure stops; null: not said'),
  basis: z.object({
    source: z.string(),
    clause: z.string().nullable(),
    status: ruleStatus,
    jurisdiction: z.string().nullable().default(null).describe('Of a check that belongs to one code'),
    edition: z.string().nullable().default(null),
  }),
  outcomes: z.object({ ...outcomeCounts, wouldPass: count }),
});

// ------------------------------------------------------------------------------------------------------------ report

export const reportSchema = z
  .object({
    format: z.literal('ratedrun-report'),
    version: z.literal(1),
    tool: z.string(),
    createdAt: z.iso.datetime().describe('UTC'),
    demonstration: z.boolean().describe('true: every output is stamped DEMONSTRATION DATA'),
    cautions: z.array(z.string()).min(1).describe('What this report is not'),
    revision: z.string().nullable().default(null).describe('Of the models, as whoever ran the check calls it'),
    brief: z.object({ file: z.string(), sha256: z.string() }).nullable().describe('null: the default brief'),
    models: z.array(model),
    rules: z.array(rule),
    checks: z.array(check),
    summary: z.object({
      penetrations: count,
      crossings: z.object({ through: count, endsInside: count, partial: count }),
      penetrationOutcomes: z.object(outcomeCounts).describe('Penetrations by their most serious outcome'),
      outcomes: z.object(outcomeCounts).describe('Results, summed over all checks'),
      wouldPass: count.describe('The part of outcomes.cantTell that meets a limit which proves nothing'),
      barriersCrossed: count,
      elementsSkipped: count.describe('Air-path elements and barriers that could not be read'),
      unclassified: count,
      unsolvedPlaces: count
        .nullable()
        .default(null)
        .describe('Failed places past the worst, which alone a change is worked out for; null: for none'),
    }),
    barriers: z.array(barrier),
    compartments: z.array(compartment).default([]),
    doors: z.array(door).default([]).describe('Doors and windows in rated barriers'),
    runs: z.array(run),
    access: z.array(runAccess).default([]).describe('How runs are reached for cleaning'),
    proposedPanels: z
      .array(proposedPanel)
      .default([])
      .describe('Access panels that would have to be there; nothing of them is'),
    strategy: z.array(strategyRow).default([]).describe('A row for each run, or part of it between fire dampers'),
    supports: z.array(supportRow).default([]).describe('The support schedule'),
    penetrations: z.array(
      z.object({
        ...penetrationFacts,
        outcome: outcome.describe('The most serious outcome of all that was checked here; see outcomes'),
        outcomes: z
          .object({ ...outcomeCounts, wouldPass: count })
          .describe('Results of the penetration itself and of its barrier, its opening and its duct elements'),
        required: z
          .object({ integrity: z.number().nullable(), insulation: z.number().nullable() })
          .default({ integrity: null, insulation: null })
          .describe('Minutes asked for here, by the barrier and the brief; 0: none; null: not known'),
      }),
    ),
    openings: z.array(openingSubject).describe('Openings of barriers with all services in them'),
    facingEnds: z.array(facingEnds).default([]).describe('Duct ends that face each other across a barrier'),
    findings: z.array(finding),
    concessions: z.array(listedConcession).default([]).describe('All that the brief lists; none changes an outcome'),
    comments: z.array(listedComment).default([]).describe('All that the brief lists; none changes an outcome'),
    assumed: assumed
      .nullable()
      .default(null)
      .describe('What would be under other choices; no review. null: none was tried'),
    issuedTags: z
      .array(
        z.object({
          tag: z.string(),
          key: z.string(),
          issuedAt: z.iso.datetime(),
          absentSince: z.iso.datetime().nullable(),
        }),
      )
      .default([])
      .describe('Every tag that was ever issued, here or in the reports before; none is used again'),
    takeoff: takeoff.nullable().describe('null: nothing was quantified'),
  })
  .meta({
    title: 'Ratedrun report',
    description: 'Lengths in millimetres, angles in degrees; unknown values are null.',
  });

/** Data that is written once and never changed, at every depth. */
export type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T;

export type Report = DeepReadonly<z.infer<typeof reportSchema>>;
export type ReportModel = Report['models'][number];
export type ReportBarrier = Report['barriers'][number];
export type ReportPenetration = Report['penetrations'][number];
export type ReportFinding = Report['findings'][number];
export type ListedConcession = Report['concessions'][number];
export type ListedComment = Report['comments'][number];
export type Assumed = NonNullable<Report['assumed']>;
export type ReportFacingEnds = Report['facingEnds'][number];
export type IssuedTag = Report['issuedTags'][number];
export type ReportCheck = Report['checks'][number];
export type ReportTakeoff = NonNullable<Report['takeoff']>;
export type OutcomeCounts = Report['summary']['outcomes'];

/** Reads a report.json that someone parsed. Throws a ZodError that names the fields that are wrong. */
export function parseReport(json: unknown): Report {
  return reportSchema.parse(json);
}

/** JSON Schema 2020-12 of report.json. Of the input: readers must bear fields that a later version adds. */
export function reportJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(reportSchema, { target: 'draft-2020-12', io: 'input' });
}

// -------------------------------------------------------------------------------------------- agreement with the model

/** What prints has null where a Federation leaves out; only layers bring such a value into the report. */
type Printed<T> = Omit<T, 'layers'> & {
  readonly layers: readonly {
    readonly material: string;
    readonly thickness: number | null;
    readonly role: LayerRole | null;
  }[];
};
/** Keys are compared as well, since a type with a further optional field is assignable both ways. */
type Same<A, B> = [A, B, keyof A, keyof B] extends [B, A, keyof B, keyof A] ? true : false;
type Holds<T extends readonly true[]> = T;

/** Does not compile where the schema, src/model.ts and src/quantify/takeoff.ts no longer say the same. */
export type SchemaAgreesWithModel = Holds<
  [
    Same<ModelInfo, ReportModel>,
    Same<RuleInfo, Report['rules'][number]>,
    Same<CheckResult, ReportCheck>,
    Same<Finding, Omit<ReportFinding, 'topic' | 'comments'>>,
    Same<Compartment, Report['compartments'][number]>,
    Same<Run, Report['runs'][number]>,
    Same<RunAccess, Report['access'][number]>,
    Same<ProposedPanel, Report['proposedPanels'][number]>,
    Same<StrategyRow, Report['strategy'][number]>,
    Same<SupportRow, Report['supports'][number]>,
    Same<DoorFacts, Report['doors'][number]>,
    Same<OpeningSubject, Report['openings'][number]>,
    Same<Limit, NonNullable<ReportFinding['limit']>>,
    Same<Printed<BarrierFacts>, ReportBarrier>,
    Same<Omit<FacingEnds, 'barrier'> & { readonly barrier: Printed<BarrierFacts> }, Report['facingEnds'][number]>,
    Same<
      Omit<Penetration, 'barrier' | 'treatment'> & { readonly barrier: Printed<BarrierFacts> },
      Omit<ReportPenetration, 'outcome' | 'outcomes' | 'required' | 'treatment'>
    >,
    Same<Penetration['treatment'] & Omit<TestedFor, 'penetration'>, ReportPenetration['treatment']>,
    Same<Takeoff, ReportTakeoff>,
  ]
>;
