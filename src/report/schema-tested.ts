/** What the tested systems have for a penetration, in report.json. */
import * as z from 'zod';
import { UNITS } from '../model.js';
import { limit, mm, ruleStatus } from './schema-parts.js';

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

const screws = z.object({
  spacing: z.number().describe('Between centres, at most'),
  type: z.string().nullable(),
  reachesFraming: z.boolean().nullable().describe('true: they must hold in the framing'),
});
const built = {
  source: z.string().describe('Clause, table or page where the part stands'),
  faces: z.enum(['both', 'one']).describe('On how many it is built'),
};
const builtPart = z.discriminatedUnion('part', [
  z.object({ part: z.literal('packing'), ...built, material: z.string() }),
  z.object({
    part: z.literal('angle'),
    ...built,
    sides: z.enum(['all', 'top and bottom', 'left and right']),
    leg: mm,
    thickness: mm,
    intoBarrier: screws,
    intoDuct: screws.nullable().describe('null: none may go through the duct'),
  }),
  z.object({
    part: z.literal('boardCollar'),
    ...built,
    material: z.string(),
    width: mm.describe('Across the duct, from where it lies against it'),
    thickness: mm,
    drilledFromEnd: z.object({ atLeast: mm, atMost: mm }).nullable(),
    intoBarrier: screws.nullable(),
  }),
  z.object({
    part: z.literal('localBuildUp'),
    ...built,
    length: mm.describe('Along the duct, from the face of the barrier'),
    layers: z.number().describe('On those along the duct'),
  }),
  z.object({
    part: z.literal('sealant'),
    ...built,
    at: z.array(z.enum(['gap', 'blanketToBoard', 'boardToBarrier', 'blanketToBarrier', 'ductToBarrier'])),
    depth: mm,
    width: mm,
  }),
]);

/** What is built by the chosen detail; reports made before it was written have none of it. */
export const builtAs = {
  parts: z
    .array(builtPart)
    .default([])
    .describe('In the order of the work, mm for this duct; null: not said, or beyond the table'),
  layerThickness: mm.default(null).describe('Of one layer of the protection as fixed'),
  protection: z.enum(['blanket', 'board', 'fireResistingDuct']).nullable().default(null),
  gapDatum: z
    .enum(['stopsAtFace', 'passesThrough'])
    .nullable()
    .default(null)
    .describe('Whether the protection ends at the faces or goes through'),
  faces: z.enum(['both', 'one']).nullable().default(null).describe('one: tested as built from either face alone'),
};
