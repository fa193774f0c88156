/** What the tested systems have for a penetration, in report.json. */
import * as z from 'zod';
import { UNITS } from '../model.js';
import { limit, ruleStatus } from './schema-parts.js';

export const scopeLine = z.object({
  name: z.string(),
  check: z.string(),
  what: z.string(),
  unit: z.enum(UNITS).nullable(),
  measured: z.union([z.number(), z.string(), z.null()]),
  from: z.string().describe('Where what is measured was taken from'),
  limit: limit.nullable().describe('null: the document, or what is not known, leaves it open'),
  outcome: z.enum(['met', 'missed', 'unknown']),
  margin: z.number().nullable().describe('Distance inside the limit; negative when missed'),
  source: z.string().describe('Clause, table or page where the limit stands'),
});

export const testedDetail = z.object({
  title: z.string(),
  source: z.string().describe('Of the document, for every limit that names none of its own'),
  system: z.string(),
  detail: z.string().nullable(),
  status: ruleStatus,
  fixing: z.string().nullable(),
  layers: z.number().nullable(),
  material: z.number().nullable().describe('kg of protection on one metre of duct, with the local build-up'),
  tightest: scopeLine.nullable(),
});
