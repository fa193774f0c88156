import * as z from 'zod';
import { HOLD_POINTS, type RuleStatus, SERVICES, UNITS } from '../model.js';
import type { Code } from '../strategy/index.js';
import { evidence, id, millimetres, sentence, status, version } from './document-parts.js';
import { factsSchema } from './example-facts.js';
import { EACH } from './fact-schema.js';
import type { BarrierRows } from './published-values.js';
import { type SizeTable, sizeRows } from './size-value.js';

/** The form of a `check-set` document. What spans several fields is checked in `check-set-sense.ts`. */

const cel = z.string().min(1).max(1000);
const factName = z
  .string()
  .regex(/^[a-z][A-Za-z]*(\.[a-z][A-Za-z]*)*$/, 'must be names joined by points, e.g. "barrier.rating"');

/** Either the value itself or `{ cel: … }`. */
const orCel = <T extends z.ZodType>(literal: T, says: string) =>
  z.union([literal, z.strictObject({ cel })], { error: `must be ${says}, or { cel: "an expression" }` });

/** The word for how far what is built may lie off what is modelled, which the brief says. */
export const SITE = 'site';

const published = z.strictObject({ published: id.describe('Id of a published value.') });

/** The same, or a table that goes by the size of the duct, or a published value. */
const orTable = z.union([z.number(), z.strictObject({ cel }), z.strictObject({ bySize: sizeRows }), published], {
  error: 'must be a number, or { cel: "an expression" }, or { bySize: [ … ] }, or { published: an-id }',
});

const basis = z.strictObject({
  source: sentence
    .optional()
    .describe('Where the limit comes from; "common practice, no source" where it has none; or "published".'),
  clause: sentence.optional(),
  published: id.optional().describe('Id of the published value that it goes by, which has source, clause and code.'),
  jurisdiction: sentence.optional().describe('With edition: the check applies only where the brief names both.'),
  edition: sentence.optional(),
  status: z
    .enum([...status.options, 'system'])
    .describe('system: that of the tested system which is chosen for the penetration.'),
});

const reason = z.strictObject({
  reason: id.describe('Short name of the reason, unique within the check.'),
  when: cel.describe('CEL condition: true where this cannot be told.'),
  missing: z.array(factName).min(1).describe('The facts that are not to be had.'),
  message: sentence,
  remedy: sentence.optional(),
});

const example = z.strictObject({
  why: sentence.optional(),
  facts: factsSchema(),
  brief: z
    .strictObject({
      demonstration: z.boolean().optional(),
      jurisdiction: sentence.optional(),
      edition: sentence.optional(),
      siteTolerance: millimetres.optional(),
    })
    .optional(),
  outcome: z.enum(['passed', 'failed', 'cantTell', 'inapplicable']),
  wouldBe: z.literal('passed').optional(),
  missing: z.array(factName).optional(),
  reasons: z.array(id).optional(),
});

const check = z.strictObject({
  id,
  title: sentence,
  about: z.enum(['model', 'fire']).describe('fire: a met limit passes only with a tested basis.'),
  each: z.enum(EACH).describe('What the check looks at, one after the other.'),
  stops: z
    .enum(HOLD_POINTS)
    .optional()
    .describe('The work that must wait until a failure is settled; common practice, no source.'),
  where: cel.optional().describe('CEL condition: does the check apply? False is inapplicable.'),
  services: z
    .array(z.enum(SERVICES))
    .min(1)
    .optional()
    .describe("The services of the duct's system that the check is about; any other is inapplicable."),
  cantTellWhen: z.array(reason).min(1).optional().describe('Each reason that holds gives a finding of its own.'),
  measure: cel
    .optional()
    .describe('CEL expression of what is judged. Without it, the check passes when no reason holds.'),
  atLeast: orTable.optional(),
  atMost: orTable.optional(),
  equals: orCel(z.union([z.number(), z.string(), z.boolean()]), 'a number, a text, true or false').optional(),
  among: z
    .array(z.union([z.number(), z.string()]))
    .min(1)
    .optional(),
  tolerances: z
    .array(factName)
    .min(1)
    .optional()
    .describe(
      'What a met limit must hold beside itself, all together: "site" (the tolerance of the brief) and facts that say how exactly was measured. Met by less is cantTell.',
    ),
  unit: z.enum(UNITS).optional().describe('Unit of what is measured.'),
  message: z.strictObject({ failed: sentence, cantTell: sentence }).optional(),
  remedy: z.strictObject({ failed: sentence.optional(), cantTell: sentence.optional() }).optional(),
  basis,
  examples: z.array(example).min(1).describe('Facts in, outcome out; run by `ratedrun rules`.'),
});

export const CheckSet = z.strictObject({
  kind: z.literal('check-set'),
  id,
  version,
  status,
  source: sentence,
  evidence: evidence.optional().describe('Needed with status "tested", and only then.'),
  checks: z.array(check).min(1),
});

/** As it is written. */
export type CheckSet = z.infer<typeof CheckSet>;
export type WrittenCheck = CheckSet['checks'][number];

export interface Basis {
  readonly source: string;
  readonly clause?: string | undefined;
  readonly status: RuleStatus | 'system';
  /** null: it holds whatever code does. */
  readonly code: Code | null;
}

export interface BarrierTable {
  readonly byBarrier: BarrierRows;
}
export type NumberLimit = number | { cel: string } | SizeTable | BarrierTable;

/** What stands in published values is put in. */
export interface CheckDefinition extends Omit<WrittenCheck, 'basis' | 'atLeast' | 'atMost'> {
  readonly basis: Basis;
  readonly atLeast?: NumberLimit | undefined;
  readonly atMost?: NumberLimit | undefined;
}
export interface CitedCheckSet extends Omit<CheckSet, 'checks'> {
  readonly checks: readonly CheckDefinition[];
}
export type ReasonDefinition = NonNullable<CheckDefinition['cantTellWhen']>[number];
export type Example = CheckDefinition['examples'][number];
