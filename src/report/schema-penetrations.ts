/** Penetrations, openings and facing ends as report.json has them. */
import * as z from 'zod';
import { AIR_ELEMENT_KINDS, FACE_OBSTACLE_KINDS, JOINT_EVIDENCE } from '../model.js';
import { barrier } from './schema-barriers.js';
import { elementRef, mm, polygon, rating, ref, side, storey, vec3, wallLayer } from './schema-parts.js';
import { builtAs, scopeLine, testedDetail } from './schema-tested.js';

const openingFacts = {
  model: z.string(),
  globalId: z.string().nullable(),
  shape: z.enum(['rectangular', 'circular', 'other']),
  width: z.number(),
  height: z.number(),
  from: z.enum(['element', 'hole']),
};

export const openingSubject = z.object({
  ...openingFacts,
  id: z.string(),
  barrier: elementRef,
  penetrations: z.array(z.string()),
  services: z.array(z.object({ ...ref, kind: z.enum(['duct', 'pipe', 'cable', 'other']) })),
  areaM2: z.number(),
  freeAreaM2: z.number().describe('To be sealed: the opening less the services in it'),
  combined: z.boolean().describe('More than one service: only a test of them together proves the seal'),
  position: vec3,
});

const ductSize = z.object({ width: mm, height: mm, diameter: mm }).nullable();

export const duct = z.object({
  ...ref,
  name: z.string(),
  element: z.enum(AIR_ELEMENT_KINDS),
  shape: z.enum(['rectangular', 'circular', 'oval', 'unknown']),
  width: mm,
  height: mm,
  diameter: mm,
  sectionFrom: z.enum(['profile', 'mesh', 'property']).nullable(),
  sectionResidual: mm,
  sectionProblem: z.enum(['noShape', 'notClosed', 'noAxis']).nullable(),
  wall: z.object({
    outline: z.enum(['sheet', 'insulation', 'unknown']),
    evidence: z.string(),
    sheet: wallLayer,
    insulation: wallLayer,
    lining: wallLayer,
  }),
  sizes: z.object({ inside: ductSize, sheet: ductSize, insulation: ductSize }),
  material: z.enum(['steel', 'stainless', 'aluminium', 'plastic', 'unknown']),
  axis: z.tuple([vec3, vec3]).nullable(),
  run: z.string().nullable(),
  system: z.string().nullable(),
  systemType: z.string().nullable(),
  systemNames: z.array(z.string()).default([]).describe('LongName, ObjectType and Description of the system'),
  properties: z
    .array(z.object({ set: z.string(), property: z.string(), value: z.string() }))
    .default([])
    .describe('Those that the brief asks for'),
  ratings: z
    .object({ required: rating.nullable(), reached: rating.nullable() })
    .default({ required: null, reached: null })
    .describe('What the duct states that it must reach, and that it reaches'),
  stated: z.object({ width: mm, height: mm, diameter: mm }),
});

const room = z.object({ ...ref, name: z.string() }).nullable();

const around = z.object({
  side,
  kind: z.enum(['end', 'slab', 'corner', 'column', 'door', 'opening']),
  distance: z.number(),
  element: elementRef,
});

const face = z
  .object({
    joint: z
      .object({
        distance: z.number().describe('From the face; negative within the barrier'),
        from: z.enum(JOINT_EVIDENCE),
        to: z.object({ ...ref, name: z.string(), element: z.enum(AIR_ELEMENT_KINDS) }).nullable(),
      })
      .nullable()
      .describe('The next joint, end or branch on this side'),
    obstacles: z
      .array(
        z.object({
          ...ref,
          kind: z.enum(FACE_OBSTACLE_KINDS),
          name: z.string(),
          side: side.nullable().describe('null: in line with the duct'),
          distance: z.number().describe("In the barrier's plane: how wide a ring with sharp corners may be"),
          clear: z
            .array(z.tuple([z.number(), z.number()]))
            .describe('Depth before the face, and how wide a ring so deep stays clear of it; straight between'),
        }),
      )
      .describe('Within 500 mm of the duct and 1 m of the face'),
    towards: z.string(),
    room: z.string().nullable(),
    shaft: z.boolean().nullable().describe('By names; false too in the open'),
    roomWidth: mm.describe('The narrowest breadth of its plan'),
  })
  .nullable();

const damperPurpose = z.enum(['fire', 'fireSmoke', 'smoke', 'control', 'unknown']);
const damper = z.object({
  ...ref,
  name: z.string().default(''),
  typeName: z.string().nullable().default(null),
  purpose: damperPurpose,
  rating,
  orientation: z
    .enum(['wall', 'floor', 'both'])
    .nullable()
    .default(null)
    .describe('Barriers that it is made for; null: not said, or said in two ways'),
  fireSides: z.enum(['both', 'one']).nullable().default(null),
  actuation: z
    .object({
      type: z.string().nullable(),
      closure: z.string().nullable(),
      control: z.string().nullable(),
      fusibleLink: z.number().nullable().describe("In the file's own unit of temperature"),
    })
    .nullable()
    .default(null),
  size: z
    .object({ width: mm, height: mm, diameter: mm, from: z.enum(['geometry', 'property', 'duct', 'casing']) })
    .nullable()
    .default(null)
    .describe('Of the air that it lets through; from casing: no smaller than that'),
  offset: mm
    .default(null)
    .describe(
      'From the middle of the rated leaf to the middle of the casing, along the normal; the blade is not drawn',
    ),
  standsOut: z
    .tuple([z.number(), z.number()])
    .nullable()
    .default(null)
    .describe('Out of the face that the normal comes from, and of the one that it goes to; negative: within'),
  construction: around.nullable().default(null).describe('Nearest wall, floor or column beside the casing'),
  access: z
    .object({ panel: elementRef.nullable(), distance: mm, withinReach: z.boolean().nullable() })
    .default({ panel: null, distance: null, withinReach: null })
    .describe('The nearest access panel of the same run'),
});

export const penetrationFacts = {
  id: z.string(),
  key: z.string(),
  tag: z.string(),
  inferredFrom: z
    .object({ duct: z.string(), barrier: z.string(), ownKey: z.string() })
    .nullable()
    .default(null)
    .describe('Key and tag were carried over by place: the GlobalIds they go by; null: those below'),
  crossing: z.enum(['through', 'endsInside', 'partial']),
  duct,
  elements: z.array(elementRef),
  dampers: z.array(damper),
  damperOutside: z
    .object({ ...ref, name: z.string(), purpose: damperPurpose, distance: z.number() })
    .nullable()
    .default(null)
    .describe('The nearest fire damper of this ductwork that stands clear of the barrier, where there is none in it'),
  barrier,
  opening: z.object(openingFacts).nullable(),
  gaps: z.object({
    top: mm,
    bottom: mm,
    left: mm,
    right: mm,
    min: mm,
    max: mm,
    facing: z.object({
      top: z.string().exactOptional(),
      bottom: z.string().exactOptional(),
      left: z.string().exactOptional(),
      right: z.string().exactOptional(),
    }),
  }),
  gapsTo: z.enum(['sheet', 'insulation', 'unknown']),
  neighbours: z.array(z.object({ penetration: z.string(), distance: z.number() })),
  others: z.array(z.object({ ...ref, kind: z.enum(['pipe', 'cable', 'duct', 'other']) })),
  around: z.array(around),
  jointDistance: mm,
  jointFrom: z.enum(JOINT_EVIDENCE).nullable().default(null).describe('touching: inferred; end: joined to nothing'),
  faces: z
    .tuple([face, face])
    .default([null, null])
    .describe('What lies before each face: against the normal, along it'),
  headGap: mm.describe('Over this place, between the top of the rated wall and the structure above'),
  skew: z.number(),
  position: vec3,
  frame: z.object({ normal: vec3, right: vec3, up: vec3 }),
  outlines: z.object({ duct: z.array(polygon), opening: z.array(polygon) }),
  storey,
  place: z
    .object({ grid: z.string().nullable(), rooms: z.tuple([room, room]) })
    .default({ grid: null, rooms: [null, null] })
    .describe('Grid lines, and the rooms on both sides: against the normal, along it'),
  compartments: z
    .tuple([z.string().nullable(), z.string().nullable()])
    .default([null, null])
    .describe('Ids of those on both sides: against the normal, along it'),
  treatment: z.object({
    kind: z.enum(['blanket', 'board', 'fireResistingDuct', 'damper', 'both', 'none', 'unknown']),
    evidence: z.string().nullable(),
    layers: z.number().nullable(),
    integrity: z.number().nullable(),
    insulation: z.number().nullable(),
    chosen: testedDetail
      .extend({ by: z.enum(['brief', 'review']), scope: z.array(scopeLine), ...builtAs })
      .nullable()
      .default(null)
      .describe('What it is judged by, and its scope line by line'),
    feasible: z.array(testedDetail).describe('What would fit, the best first'),
    nearest: z
      .array(testedDetail.extend({ misses: z.array(scopeLine), unknown: z.array(scopeLine) }))
      .default([])
      .describe('Where nothing fits: what comes nearest, and what it misses'),
  }),
};

export const facingEnds = z.object({
  key: z.string(),
  barrier,
  ends: z.tuple([elementRef, elementRef]),
  system: z.string(),
  storey,
  position: vec3,
  distance: z.number(),
});
