import * as z from 'zod';
import { CONSTRUCTIONS } from '../model.js';
import { degrees, evidence, id, millimetres, minutes, sentence, status, version } from './document-parts.js';
import { factsSchema, systemFactsSchema } from './example-facts.js';
import { sizeValue } from './size-value.js';

/**
 * The form of a `tested-damper` document: what fire dampers of one kind were tested for. What it allows at a
 * penetration is told by the same facts as a tested system's (`system.…`), so one check serves both.
 */

const source = sentence.optional().describe("Where it comes from, if not from the document's own source.");

/** Any size between; by the size of the damper where that goes by it. */
const range = z.strictObject({ atLeast: sizeValue, atMost: sizeValue, source });

const barrierRow = z.strictObject({
  kinds: z
    .array(z.enum(['wall', 'floor', 'roof']))
    .min(1)
    .describe('What the damper was tested in, with this construction.'),
  construction: z.enum(CONSTRUCTIONS).exclude(['unknown']),
  thicknessAtLeast: millimetres,
  integrity: minutes,
  insulation: minutes,
  source,
});

const scope = z.strictObject({
  purposes: z
    .array(z.enum(['fire', 'fireSmoke']))
    .min(1)
    .describe('Fire dampers, fire and smoke dampers, or both.'),
  sizes: z
    .strictObject({
      rectangular: z.strictObject({ width: range, height: range }).optional(),
      circular: z.strictObject({ diameter: range }).optional(),
    })
    .describe('Inside sizes of the casing, from the least to the largest that was tested.'),
  barriers: z.array(barrierRow).min(1).describe('What the damper reaches in each construction that it was tested in.'),
  offsetAtMost: sizeValue.describe('From the middle of the barrier to the middle of the casing, as tested.'),
  separationAtLeast: sizeValue.describe('Clear distance between dampers in separate ducts.'),
  constructionAtLeast: sizeValue.describe('Clear distance between the casing and a wall, floor or column beside it.'),
  room: z
    .strictObject({
      beside: sizeValue.describe('From the casing outwards, all round.'),
      before: sizeValue.describe('Along the duct, from each face of the barrier.'),
      source,
    })
    .optional()
    .describe('What must stay free for its drive and for sealing it; left out: not said.'),
  fireSides: z.enum(['both', 'one']).describe('From which sides of the barrier the fire came in the tests.'),
  skewAtMost: degrees,
  gap: z.strictObject({
    atLeast: sizeValue,
    atMost: sizeValue,
    sealing: sentence.describe('How the gap round the casing was filled in the test.'),
    source,
  }),
});

const example = z.strictObject({
  why: sentence.optional(),
  facts: factsSchema(['barrier', 'penetration', 'duct']),
  gives: systemFactsSchema().optional().describe('Facts of the system that must come out so.'),
  unknown: z.array(z.string()).min(1).optional().describe('Facts of the system that must not be known.'),
  misses: z.array(z.string()).optional().describe('The limits that are missed, by name; [] fits.'),
});

export const TestedDamperSchema = z.strictObject({
  kind: z.literal('tested-damper'),
  id,
  name: z.string().min(1).max(200),
  version,
  status,
  source: sentence.describe('Of every limit that names none of its own.'),
  evidence: evidence.optional().describe('Needed with status "tested", and only then.'),
  words: z
    .array(z.string().trim().min(2).max(100))
    .min(1)
    .optional()
    .describe(
      "Dampers it is for, by parts of their own or their type's names, in any case; left out: all of its purposes.",
    ),
  scope,
  examples: z.array(example).min(1).describe('Facts in, limits out; run by `ratedrun rules`.'),
});

export type TestedDamperDocument = z.infer<typeof TestedDamperSchema>;
export type DamperExample = TestedDamperDocument['examples'][number];

/** A document that makes sense, with the places of its examples. */
export interface TestedDamper extends Omit<TestedDamperDocument, 'examples'> {
  readonly file: string;
  readonly examples: readonly { readonly definition: DamperExample; readonly line: number }[];
}
