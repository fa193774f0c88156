/** Duct runs as report.json has them. */
import * as z from 'zod';
import { AIR_ELEMENT_KINDS, FIRE_SIDES, OBSTACLE_KINDS, SERVICES } from '../model.js';
import { RODS } from '../supports/rods.js';
import { construction, elementRef, mm, ref, ruleStatus, side, vec3, wallLayer } from './schema-parts.js';

const protectionKind = z.enum(['blanket', 'board', 'fireResistingDuct', 'none', 'unknown']);
const ductProtection = z
  .object({
    kind: protectionKind,
    evidence: z.string().nullable(),
    layers: z.number().nullable(),
    integrity: z.number().nullable(),
    insulation: z.number().nullable(),
  })
  .describe('What the model or the brief says is there; no proof of anything');

const clearance = z.object({
  obstacle: z.object({
    ...ref,
    name: z.string(),
    what: z.enum(['barrier', 'column', 'obstacle', 'service', 'duct']),
    kind: z.enum([
      ...(['wall', 'floor', 'roof', 'column', 'pipe', 'cable'] as const),
      ...OBSTACLE_KINDS,
      ...AIR_ELEMENT_KINDS.filter((kind) => kind !== 'equipment'),
    ]),
    combustible: z.boolean().nullable().describe('null: nothing tells'),
    construction: construction.nullable().describe('Of a barrier'),
    run: z.string().nullable().describe('Of ductwork'),
    protection: ductProtection.nullable().describe('Of ductwork'),
  }),
  side: side.nullable().describe('null: beside a bend or the like, or the duct lies within it'),
  distance: z.number(),
  from: z.enum(['sheet', 'drawn']).describe('What of the duct it is measured from'),
  outline: z.enum(['sheet', 'insulation', 'unknown']).describe('What the drawn outline is the outside of'),
  at: vec3.describe('On the obstacle, where it is nearest'),
  length: mm.describe('Over which it stands within the reach, 500 mm; null: beside bends and the like alone'),
  elements: z.array(elementRef).describe('Pieces beside which it stands, the nearest first'),
});

const ductSection = z.object({
  shape: z.enum(['rectangular', 'circular', 'oval']),
  width: mm,
  height: mm,
  diameter: mm,
});

const partMeasures = z
  .object({
    section: ductSection.nullable().describe('Of a straight piece, outside of its sheet'),
    way: z.enum(['level', 'upright']).nullable(),
    ends: z.array(ductSection).describe('Of what is not straight; the longer side as the width'),
    surfaceM2: z.number().nullable().describe('Outside of what is not straight, without its open ends'),
    insulation: wallLayer.describe('Outside the sheet'),
    inBarrier: z.number().describe('How much of its length lies between the faces of barriers'),
    unknown: z.string().nullable().describe('Why its section, or its surface, is not known'),
  })
  .describe('What goes round it is counted by this');

const stretch = z.object({
  id: z.string(),
  compartment: z.string().nullable(),
  outside: z.boolean().nullable().describe('null: the models do not show it'),
  parts: z.array(
    z.object({
      ...ref,
      name: z.string(),
      element: z.enum(AIR_ELEMENT_KINDS),
      storey: z.string().nullable().default(null),
      from: vec3,
      to: vec3,
      length: z.number(),
      outside: z.boolean().nullable(),
      joins: z.array(z.number()).describe('Places in this list of the parts that it joins'),
      protection: ductProtection,
      measures: partMeasures.nullable().default(null).describe('null: nothing is said to protect it'),
    }),
  ),
  ends: z
    .array(z.object({ penetration: z.string(), part: z.number() }))
    .describe('Where it goes on behind a barrier, and which part passes it'),
  serves: z.array(elementRef),
  looseEnds: z.array(vec3).describe('Ends at which nothing is modelled'),
  length: z.number(),
  clearances: z.array(clearance).default([]).describe('What stands near it, by obstacle and side, the nearest first'),
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

const minutes = z.number().nullable();
const known = z.number().nullable();

const supportMass = z.object({
  thickness: known,
  density: known.describe('kg/m³'),
  perMetre: known.describe('kg/m'),
  from: z.enum(['model', 'brief', 'system', 'published']).nullable(),
});

export const supportRow = z
  .object({
    run: z.string(),
    part: z.number(),
    stretch: z.string(),
    system: z.string().nullable(),
    elements: z.array(elementRef),
    shape: z.enum(['rectangular', 'circular', 'oval', 'unknown']),
    width: known,
    height: known,
    diameter: known,
    length: z.number().describe('Of its straight pieces; upright ones have no row'),
    minutes: known.describe('That the supports must hold'),
    sheet: supportMass,
    insulation: supportMass,
    protection: supportMass,
    perMetre: known.describe('kg/m of all of them'),
    rod: z.enum(RODS).nullable(),
    rods: z.number(),
    bearer: z.string().nullable(),
    bearerLength: known,
    bearerMass: known.describe('kg'),
    testedSystem: z.string().nullable(),
    testedStatus: ruleStatus.nullable(),
    spacing: z
      .object({ tested: known, byStress: known, governing: known })
      .describe('Greatest distance between supports: as tested, by the stress in the rods, the smaller of both'),
    load: known.describe('N on one support at the governing spacing'),
    rodLoad: known.describe('N on one rod'),
    rodStress: known.describe('N/mm²'),
    rodStressAllowed: known.describe('N/mm²'),
    rodStressFrom: z.enum(['system', 'published']).nullable(),
    bearerStress: known.describe('N/mm², the load spread evenly between the rods'),
    bearerStressAllowed: known.describe('N/mm²'),
    firstSupport: known.describe('From a barrier at most'),
    rodLengthAtMost: known,
    growthPerMetre: known.describe('How far one metre of rod grows in the fire'),
    needed: known.describe('Supports at the governing spacing'),
    found: z.number().describe('Supports in the models'),
  })
  .describe('Ductwork of one section in one stretch that must hold back fire and is protected');

export const strategyRow = z.object({
  run: z.string(),
  part: z.number().describe('Which part of the run between fire dampers, from 1'),
  system: z.string().nullable(),
  service: z.enum(SERVICES).nullable(),
  mustResist: z.boolean().nullable().describe('Whether it must hold back fire by itself; null: not known'),
  required: z.object({ integrity: minutes, insulation: minutes }),
  fire: z.enum(FIRE_SIDES).nullable(),
  reasons: z.array(
    z.object({ says: z.string(), source: z.string(), status: z.enum([...ruleStatus.options, 'brief', 'model']) }),
  ),
  serves: z.array(z.string()).describe('Ids of the compartments that it opens into'),
  passes: z.array(z.string()).describe('Ids of those that it leads through'),
  reachesOutside: z.boolean(),
  crossings: z.array(
    z.object({
      penetration: z.string(),
      treatment: z.enum(['blanket', 'board', 'fireResistingDuct', 'damper', 'both', 'none', 'unknown']),
    }),
  ),
  there: z
    .array(z.object({ kind: protectionKind, evidence: z.string().nullable(), length: z.number() }))
    .describe('What the models or the brief say is there, where it must resist'),
  stretches: z.array(z.string()).default([]).describe('Ids of those that it is made of'),
  testedSystem: z
    .object({ id: z.string(), fixing: z.string().nullable() })
    .nullable()
    .default(null)
    .describe('That it is judged by at its barriers; null: by none, or by several'),
  wouldFit: z
    .array(z.object({ system: z.string(), status: ruleStatus }))
    .describe('Tested systems that would do at each of its barriers; nothing of it is there for that'),
  lapses: z.array(
    z.object({
      kind: z.enum(['bare', 'untold', 'inLine']),
      length: z.number(),
      from: vec3,
      to: vec3,
      compartments: z.array(z.string()),
      elements: z.array(elementRef),
      doubtful: z.boolean().describe('It is not known whether protection is needed here'),
    }),
  ),
  contradictions: z.array(z.string()).describe('Ids of failed findings on it and at its penetrations'),
});
