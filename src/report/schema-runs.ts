/** Duct runs as report.json has them. */
import * as z from 'zod';
import { AIR_ELEMENT_KINDS } from '../model.js';
import { elementRef, ref, vec3 } from './schema-parts.js';

const ductProtection = z
  .object({
    kind: z.enum(['blanket', 'board', 'fireResistingDuct', 'none', 'unknown']),
    evidence: z.string().nullable(),
    layers: z.number().nullable(),
    integrity: z.number().nullable(),
    insulation: z.number().nullable(),
  })
  .describe('What the model or the brief says is there; no proof of anything');

const stretch = z.object({
  id: z.string(),
  compartment: z.string().nullable(),
  outside: z.boolean().nullable().describe('null: the models do not show it'),
  parts: z.array(
    z.object({
      ...ref,
      name: z.string(),
      element: z.enum(AIR_ELEMENT_KINDS),
      from: vec3,
      to: vec3,
      length: z.number(),
      outside: z.boolean().nullable(),
      joins: z.array(z.number()).describe('Places in this list of the parts that it joins'),
      protection: ductProtection,
    }),
  ),
  ends: z
    .array(z.object({ penetration: z.string(), part: z.number() }))
    .describe('Where it goes on behind a barrier, and which part passes it'),
  serves: z.array(elementRef),
  looseEnds: z.array(vec3).describe('Ends at which nothing is modelled'),
  length: z.number(),
});

export const run = z.object({
  id: z.string(),
  system: z.string().nullable(),
  systems: z.array(z.string()),
  elements: z.array(elementRef),
  joints: z.array(
    z.object({
      elements: z.tuple([elementRef, elementRef]),
      at: vec3,
      from: z.enum(['ports', 'touching']),
      flow: z.enum(['forward', 'backward']).nullable().default(null).describe('From the first element to the second'),
    }),
  ),
  serves: z.array(elementRef),
  length: z.number(),
  branches: z.array(elementRef).default([]).describe('Where it divides'),
  risers: z
    .array(
      z.object({
        elements: z.array(elementRef),
        penetrations: z.array(z.string()),
        from: z.number().describe('Height of its foot'),
        to: z.number().describe('Height of its head'),
      }),
    )
    .default([]),
  stretches: z.array(stretch).default([]).describe('What lies between one barrier that may be rated and the next'),
});
