/** What people decided, and what somebody tries out: beside the findings, never part of their outcomes. */
import * as z from 'zod';
import { limit, outcome, outcomeCounts, side } from './schema-parts.js';

export const judged = z.union([z.number(), z.string(), z.boolean()]);

const granted = {
  reason: z.string(),
  grantedBy: z.string(),
  role: z.string(),
  reference: z.string(),
  date: z.string(),
  expires: z.string().nullable().describe('The last day on which it holds'),
};
/** `state` defaults for reports from before there were states. */
const because = z.string().nullable().default(null).describe('Why it is not in force');

export const concession = z.object({
  ...granted,
  state: z.enum(['inForce', 'lapsed']).default('inForce'),
  because,
});

export const listedConcession = z.object({
  key: z.string().describe('Of the finding'),
  ...granted,
  measured: judged.nullable().describe('What it rests on, as the brief has it'),
  limit: limit.nullable(),
  state: z
    .enum(['inForce', 'lapsed', 'stale', 'refused'])
    .describe(
      'lapsed: its numbers changed, or it has expired; stale: no finding has its key any more; refused: there is nothing to concede, or the key is not of one finding alone',
    ),
  because,
  finding: z.string().nullable().describe('Id of the finding it stands beside; null: it stands beside none'),
});

export const said = z.object({ date: z.string().describe('ISO 8601'), author: z.string(), text: z.string() });

export const listedComment = z.object({
  key: z.string().describe('Of the finding'),
  ...said.shape,
  finding: z
    .string()
    .nullable()
    .describe('Id of the finding it stands beside; null: no finding that is listed has its key'),
});

const movedFinding = z.object({
  key: z.string(),
  check: z.string(),
  subject: z.object({ type: z.string(), id: z.string() }),
  side: side.nullable(),
  outcome: outcome.describe('In the judgement that lists it'),
  other: outcome.nullable().describe('In the other judgement; null: it has no such finding'),
  message: z.string(),
});

const beforeAndAfter = z.object({ before: z.object(outcomeCounts), after: z.object(outcomeCounts) });

export const assumed = z.object({
  note: z.string().describe('That this is no review'),
  choices: z
    .array(z.object({ name: z.string(), before: z.unknown(), value: z.unknown() }))
    .describe('What was assumed, and what the brief says; null: nothing'),
  outcomes: beforeAndAfter.describe('Results, summed over all checks'),
  penetrationOutcomes: beforeAndAfter,
  goes: z.array(movedFinding).describe('Findings that need attention, and would no longer, or with another outcome'),
  comes: z.array(movedFinding).describe('Findings that would need attention, and do not now, or with another outcome'),
});
