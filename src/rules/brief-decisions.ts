/** What people decided and said about findings: entries of a brief that change no outcome. */
import * as z from 'zod';
import { name, note } from './brief-parts.js';
import { sentence } from './document-parts.js';

const findingKey = z
  .string('must be the key of a finding in quotes, as the report shows it')
  .regex(/^[0-9a-f]{16}$/, 'must be the key of a finding: 16 hexadecimal digits in quotes, as the report shows it');

const judged = z.union([z.number(), z.string(), z.boolean()], 'must be a number, a text, true or false');

export const concession = z
  .strictObject({
    key: findingKey,
    reason: sentence.describe('Why what is found may stay.'),
    grantedBy: name.describe('The person who granted it.'),
    role: name.describe('What that person is: the building surveyor, say.'),
    reference: name.describe("The authority's own reference."),
    date: z.iso.date().describe('When it was granted.'),
    expires: z.iso.date().optional().describe('The last day on which it holds.'),
    measured: judged.nullable().describe('What it rests on: as it was measured then; null where nothing was.'),
    limit: z
      .strictObject({
        atLeast: z.number().exactOptional(),
        atMost: z.number().exactOptional(),
        equals: judged.exactOptional(),
        among: z.array(z.union([z.number(), z.string()])).exactOptional(),
      })
      .nullable()
      .describe('The limit as it was then; null where none was known.'),
    note,
  })
  .describe('Leave that a person with authority gave for one finding; it changes no outcome.');

export const comment = z
  .strictObject({
    key: findingKey,
    text: z.string().trim().min(1, 'must say something').max(4000),
    author: name.describe('The person who says it.'),
    date: z
      .union([z.iso.date(), z.iso.datetime()], 'must be a day, e.g. 2026-03-02, or a day and time in UTC')
      .describe('When it was said: a day, or a day and time in UTC.'),
    note,
  })
  .describe('What somebody says of one finding; it changes no outcome.');
