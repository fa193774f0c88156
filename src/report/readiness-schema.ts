/** What `readiness --json` prints. */
import * as z from 'zod';
import { AIR_ELEMENT_KINDS, CONSTRUCTIONS } from '../model.js';
import type { DeepReadonly } from './schema.js';

const count = z.int().nonnegative();
const counts = <const K extends readonly [string, ...string[]]>(...keys: K) => z.record(z.enum(keys), count);

const ratings = z.array(
  z.object({
    text: z.string().nullable().describe('As it stands in the model; null: nothing is stated'),
    state: z.enum(['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable']),
    from: z.enum(['occurrence', 'type', 'material', 'brief']).nullable(),
    read: z.string().describe('How the text was understood'),
    elements: count,
  }),
);

/** What a model, or all of them together, holds. */
export const holdingsSchema = z.object({
  air: z.object({
    total: count,
    byKind: counts(...AIR_ELEMENT_KINDS),
    sections: z
      .object({ profile: count, mesh: count })
      .describe('Segments, rigid and flexible: drawn with a swept profile, or as a mesh that must be measured'),
    withSystem: count,
    systems: z.array(z.object({ name: z.string(), type: z.string().nullable(), elements: count })),
    withPorts: count,
    ports: z.object({ total: count, connected: count }),
    materialKnown: count,
    sizeStated: count.describe('Segments whose property sets state a size'),
    withoutStorey: count,
  }),
  dampers: z.object({
    total: count,
    byPurpose: counts('fire', 'fireSmoke', 'smoke', 'control', 'unknown'),
    ratings: ratings.describe('Of fire and fire-smoke dampers'),
  }),
  barriers: z.object({
    total: count,
    byKind: counts('wall', 'floor', 'roof'),
    byRatingState: counts('stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable'),
    ratings,
    byConstruction: z.record(z.enum(CONSTRUCTIONS), count),
    withLayers: count.describe('With at least one material'),
    withThicknesses: count.describe('With a thickness for every material layer'),
    withoutStorey: count,
  }),
  openings: z.object({ total: count, filled: count, hosts: count.describe('Barriers that have openings') }),
  otherServices: z.object({ total: count, byKind: counts('pipe', 'cable', 'other') }),
  storeys: z.array(z.object({ name: z.string(), elevation: z.number() })).describe('That hold an element listed here'),
});

export const readinessSchema = z.object({
  format: z.literal('ratedrun-readiness'),
  version: z.literal(1),
  frame: z.enum(['engineering', 'map']),
  models: z.array(
    z.object({
      id: z.string(),
      file: z.string(),
      schema: z.string(),
      lengthUnit: z.string(),
      application: z.string().nullable(),
      sha256: z.string(),
      skipped: count.describe('Air-path elements and barriers that could not be read'),
      unclassified: count.describe('Flow elements that nothing in the file shows to be ductwork or something else'),
      problems: z.array(
        z.object({
          code: z.string(),
          count,
          first: z.object({ globalId: z.string().nullable(), message: z.string() }),
        }),
      ),
      holds: holdingsSchema,
    }),
  ),
  together: holdingsSchema,
  lacks: z.array(
    z.object({
      code: z.string(),
      count,
      of: count.describe('How many could have it'),
      what: z.string(),
      mend: z.string().describe('How to mend it at the source'),
      examples: z.array(z.object({ model: z.string(), globalId: z.string(), name: z.string() })),
    }),
  ),
});

export type Readiness = DeepReadonly<z.infer<typeof readinessSchema>>;
export type Holdings = DeepReadonly<z.infer<typeof holdingsSchema>>;
export type Lack = Readiness['lacks'][number];
