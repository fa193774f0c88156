/** What lies between two reports, as data; what is written is checked against this. */
import * as z from 'zod';
import type { DeepReadonly } from '../report/schema.js';

const count = z.int().nonnegative();
const value = z.union([z.number(), z.string(), z.boolean()]).nullable();
const outcome = z.enum(['passed', 'failed', 'cantTell', 'inapplicable', 'untested']);

export const PENETRATION_STATUSES = ['new', 'absent', 'changed', 'moved', 'unchanged'] as const;
export const FINDING_STATUSES = [
  'new',
  'worse',
  'changed',
  'better',
  'nowPasses',
  'noLongerListed',
  'absent',
  'unchanged',
] as const;
export const CHANGES = ['size', 'gaps', 'rating', 'opening', 'treatment', 'barrier', 'crossing'] as const;

const review = z.object({
  revision: z.string().nullable(),
  createdAt: z.iso.datetime(),
  tool: z.string(),
  demonstration: z.boolean(),
  files: z.array(z.string()),
});

const penetration = z.object({
  status: z.enum(PENETRATION_STATUSES).describe('changed: in what `changes` says; it may have moved too'),
  tag: z.string().describe('The one that was issued first'),
  tagNow: z.string().nullable().describe('Where the later report was made without the earlier one and gives another'),
  key: z.string(),
  inferred: z.boolean().describe('Matched by place, since GlobalIds changed'),
  before: z.string().nullable().describe('Id in the earlier report'),
  after: z.string().nullable().describe('Id in the later report'),
  place: z.string(),
  moved: z.number().nullable().describe('mm; null where it is new, absent, or where it was'),
  changes: z.array(z.object({ what: z.enum(CHANGES), field: z.string(), before: value, after: value })),
  outcome: z.object({ before: outcome.nullable(), after: outcome.nullable() }),
});

const said = z
  .object({ id: z.string(), outcome, measured: value, margin: z.number().nullable(), message: z.string() })
  .nullable();

const finding = z.object({
  status: z.enum(FINDING_STATUSES),
  check: z.string(),
  title: z.string(),
  tags: z.array(z.string()).describe('Of the penetrations that it is about'),
  place: z.string(),
  inferred: z.boolean(),
  before: said,
  after: said,
  possible: z
    .array(outcome)
    .describe('With noLongerListed: what the later report leaves open; empty: nothing is said of it any more'),
});

export const comparisonSchema = z.object({
  format: z.literal('ratedrun-comparison'),
  version: z.literal(1),
  before: review,
  after: review,
  notes: z.array(z.string()).describe('What else differs, so that outcomes may'),
  summary: z.object({
    penetrations: z.object({ new: count, absent: count, changed: count, moved: count, unchanged: count }),
    inferred: count.describe('Penetrations matched by place'),
    findings: z.object({
      ...{ new: count, worse: count, changed: count, better: count, nowPasses: count },
      ...{ noLongerListed: count, absent: count, unchanged: count },
    }),
  }),
  penetrations: z.array(penetration),
  findings: z.array(finding),
});

export type Comparison = DeepReadonly<z.infer<typeof comparisonSchema>>;
export type ComparedPenetration = Comparison['penetrations'][number];
export type ComparedFinding = Comparison['findings'][number];
export type FindingStatus = ComparedFinding['status'];
export type Change = ComparedPenetration['changes'][number];

/** JSON Schema 2020-12 of what `compare --json` prints. */
export function comparisonJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(comparisonSchema, { target: 'draft-2020-12', io: 'input' });
}
