/**
 * report.json as data: what is written is checked against this, and readers are told by it what they get.
 *
 * The schema drops fields it does not name instead of refusing them, so that a report of a later version can be read;
 * what we write ourselves passes through it, so nothing else can slip into the file.
 */
import * as z from 'zod';
import {
  AIR_ELEMENT_KINDS,
  type BarrierFacts,
  type CheckResult,
  CONSTRUCTIONS,
  type Compartment,
  type DoorFacts,
  ENCLOSURE_GAPS,
  END_STATES,
  type FacingEnds,
  type Finding,
  HOLD_POINTS,
  JOINT_EVIDENCE,
  type LayerRole,
  LEAF_PROBLEMS,
  type Limit,
  type ModelInfo,
  type OpeningSubject,
  type Penetration,
  type RuleInfo,
  type Run,
  type StrategyRow,
  UNITS,
} from '../model.js';
import { elementRef, ref, vec3 } from './schema-parts.js';
import { run, strategyRow } from './schema-runs.js';

// ------------------------------------------------------------------------------------------------------------- parts

const polygon = z.array(z.tuple([z.number(), z.number()]));
const count = z.int().nonnegative();
const mm = z.number().nullable();

const outcome = z.enum(['passed', 'failed', 'cantTell', 'inapplicable', 'untested']);
const outcomeCounts = { passed: count, failed: count, cantTell: count, inapplicable: count, untested: count };
const ruleStatus = z.enum(['tested', 'unverified', 'demonstration']);
const side = z.enum(['top', 'bottom', 'left', 'right']);
const construction = z.enum(CONSTRUCTIONS);

const minutes = z.union([z.number(), z.literal('none'), z.null()]);
const rating = z.object({
  state: z.enum(['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable']),
  text: z.string().nullable(),
  loadbearing: minutes,
  integrity: minutes,
  insulation: minutes,
  duration: z.number().nullable(),
  from: z.enum(['occurrence', 'type', 'material', 'brief']).nullable(),
});
const storey = z.object({ globalId: z.string(), name: z.string(), elevation: z.number() }).nullable();

const layerRole = z.enum(['leaf', 'lining', 'cavity']);
const barrier = z.object({
  ...ref,
  name: z.string(),
  kind: z.enum(['wall', 'floor', 'roof']),
  storey,
  thickness: mm,
  leaves: z.array(elementRef),
  drawnThickness: mm.describe('Of the element that names the barrier alone'),
  leafThickness: mm.describe('Of the rated leaf in that element: linings and cavities are not included'),
  leafFrom: z.enum(['layers', 'geometry']).nullable(),
  leafProblem: z.enum(LEAF_PROBLEMS).nullable().describe('Why the leaf could not be told from linings and cavities'),
  buildUp: z.array(
    z.object({
      kind: layerRole,
      element: elementRef.nullable(),
      material: z.string().nullable().describe('null: an element that is not told into layers, or a cavity between'),
      thickness: z.number(),
    }),
  ),
  buildUpAlong: z
    .enum(['normal', 'file'])
    .nullable()
    .describe('file: nothing tells on which face the layers begin, so they stand in the order of the file'),
  boards: z
    .tuple([z.number(), z.number()])
    .nullable()
    .describe('Boards on both faces of the frame of a stud or shaft wall, in the order of buildUp'),
  construction,
  layers: z.array(z.object({ material: z.string(), thickness: mm, role: layerRole.nullable() })),
  layersThickness: mm.describe('Of all layers together'),
  rating,
  drawing: z.object({ rating, drawing: z.string(), revision: z.string() }).nullable(),
  head: z
    .object({
      gap: mm.describe('Between the top of a rated wall and the structure above; null: none in the models'),
      length: z.number(),
      at: vec3.nullable(),
      passing: z.array(elementRef),
      extendToStructure: z.boolean().nullable(),
    })
    .nullable(),
  inferredFrom: z.string().nullable().default(null).describe('The GlobalId that keys go by; null: its own'),
});

const openingFacts = {
  model: z.string(),
  globalId: z.string().nullable(),
  shape: z.enum(['rectangular', 'circular', 'other']),
  width: z.number(),
  height: z.number(),
  from: z.enum(['element', 'hole']),
};

const openingSubject = z.object({
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

const UNSTATED = {
  ...{ state: 'unstated' as const, text: null, loadbearing: null, integrity: null, insulation: null },
  ...{ duration: null, from: null },
};

const door = z.object({
  ...ref,
  name: z.string().default(''),
  rating: rating.default(UNSTATED),
  at: vec3.nullable().default(null),
  barrier: elementRef,
});

const end = z
  .object({
    state: z.enum(END_STATES).nullable().describe('null: no floors or roofs are modelled there'),
    barriers: z.array(elementRef),
    leastRating: rating.nullable(),
    openM2: z.number(),
  })
  .default({ state: null, barriers: [], leastRating: null, openM2: 0 });

const compartment = z.object({
  id: z.string(),
  name: z.string(),
  from: z.enum(['zone', 'property', 'loop']),
  storey,
  areaM2: z.number().nullable().describe('On plan; of several storeys laid over each other'),
  barriers: z.array(elementRef).describe('The rated walls round it'),
  leastRating: rating.nullable().describe('Of its walls, floor and ceiling'),
  spaces: z.array(elementRef),
  doors: z.array(door).describe('Doors and windows in its walls, floors and roofs'),
  outlines: z.array(polygon).describe('World x and y, counter-clockwise'),
  holes: z.array(polygon),
  floor: end.describe('What is under it as a whole'),
  ceiling: end.describe('What is over it as a whole'),
  walled: z
    .boolean()
    .nullable()
    .default(null)
    .describe('By rated walls all round; null: it ends at walls not known to be rated, or is only stated'),
  closed: z.boolean().nullable().describe('By walls, floor and ceiling; null: not to be known'),
  leaks: z.array(z.object({ at: vec3, width: z.number(), between: z.tuple([elementRef, elementRef]) })),
  shaft: z.boolean().nullable().default(null).describe('By the names of its spaces, or its own'),
  enclosure: z
    .object({
      complete: z.boolean().nullable(),
      leastRating: rating.nullable(),
      reasons: z.array(z.object({ gap: z.enum(ENCLOSURE_GAPS), elements: z.array(elementRef) })),
    })
    .default({ complete: null, leastRating: null, reasons: [] })
    .describe('Whether all its faces hold back fire, doors too, and why not'),
});

const ductSize = z.object({ width: mm, height: mm, diameter: mm }).nullable();
const wallLayer = z
  .object({
    thickness: mm,
    from: z.enum(['geometry', 'layers', 'covering', 'property', 'name', 'size', 'brief']),
  })
  .nullable();

const duct = z.object({
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

const penetrationFacts = {
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
    feasible: z.array(z.object({ system: z.string(), detail: z.string(), status: ruleStatus })),
  }),
};

const facingEnds = z.object({
  key: z.string(),
  barrier,
  ends: z.tuple([elementRef, elementRef]),
  system: z.string(),
  storey,
  position: vec3,
  distance: z.number(),
});

const finding = z.object({
  id: z.string(),
  key: z.string(),
  check: z.string(),
  outcome,
  wouldBe: z.literal('passed').nullable(),
  subject: z.object({
    type: z.enum(['penetration', 'run', 'duct', 'barrier', 'opening', 'model']),
    id: z.string(),
    elements: z.array(elementRef),
  }),
  side: side.nullable(),
  at: vec3.nullable(),
  measured: z.union([z.number(), z.string(), z.boolean()]).nullable(),
  limit: z
    .object({
      atLeast: z.number().exactOptional(),
      atMost: z.number().exactOptional(),
      equals: z.union([z.number(), z.string(), z.boolean()]).exactOptional(),
      among: z.array(z.union([z.number(), z.string()])).exactOptional(),
    })
    .nullable(),
  margin: z.number().nullable(),
  message: z.string(),
  remedy: z.string().nullable(),
  change: z.looseObject({ kind: z.string() }).nullable(),
  missing: z.array(z.string()),
  concession: z
    .object({
      reason: z.string(),
      grantedBy: z.string(),
      role: z.string(),
      reference: z.string(),
      date: z.string(),
      expires: z.string().nullable(),
    })
    .nullable(),
  topic: z
    .object({
      guid: z.string(),
      status: z.string().nullable(),
      assignedTo: z.string().nullable(),
      comments: z.array(z.object({ date: z.string(), author: z.string(), text: z.string() })),
    })
    .nullable()
    .default(null)
    .describe('What people said of it in an issue exchange; never changes the outcome'),
});

const model = z.object({
  id: z.string(),
  file: z.string(),
  schema: z.string(),
  sha256: z.string(),
  projectGlobalId: z.string().nullable(),
  lengthUnit: z.string(),
  application: z.string().nullable(),
  writtenAt: z.string().nullable().default(null),
  counts: z.object({
    ducts: count,
    fittings: count,
    dampers: count,
    silencers: count,
    terminals: count,
    barriers: count,
    barriersOfParts: count,
    openings: count,
    otherServices: count,
    skipped: count,
    unclassified: count,
  }),
  problems: z.array(z.object({ code: z.string(), globalId: z.string().nullable(), message: z.string() })),
});

const rule = z.object({
  id: z.string(),
  version: z.string(),
  file: z.string(),
  status: ruleStatus,
  source: z.string(),
});

const check = z.object({
  id: z.string(),
  title: z.string(),
  about: z.enum(['model', 'fire']),
  unit: z.enum(UNITS).nullable(),
  stops: z.enum(HOLD_POINTS).nullable().default(null).describe('The work that a failure stops; null: not said'),
  basis: z.object({
    source: z.string(),
    clause: z.string().nullable(),
    status: ruleStatus,
    jurisdiction: z.string().nullable().default(null).describe('Of a check that belongs to one code'),
    edition: z.string().nullable().default(null),
  }),
  outcomes: z.object({ ...outcomeCounts, wouldPass: count }),
});

// ------------------------------------------------------------------------------------------------------------ report

export const reportSchema = z
  .object({
    format: z.literal('ratedrun-report'),
    version: z.literal(1),
    tool: z.string(),
    createdAt: z.iso.datetime().describe('UTC'),
    demonstration: z.boolean().describe('true: every output is stamped DEMONSTRATION DATA'),
    cautions: z.array(z.string()).min(1).describe('What this report is not'),
    revision: z.string().nullable().default(null).describe('Of the models, as whoever ran the check calls it'),
    brief: z.object({ file: z.string(), sha256: z.string() }).nullable().describe('null: the default brief'),
    models: z.array(model),
    rules: z.array(rule),
    checks: z.array(check),
    summary: z.object({
      penetrations: count,
      crossings: z.object({ through: count, endsInside: count, partial: count }),
      penetrationOutcomes: z.object(outcomeCounts).describe('Penetrations by their most serious outcome'),
      outcomes: z.object(outcomeCounts).describe('Results, summed over all checks'),
      wouldPass: count.describe('The part of outcomes.cantTell that meets a limit which proves nothing'),
      barriersCrossed: count,
      elementsSkipped: count.describe('Air-path elements and barriers that could not be read'),
      unclassified: count,
    }),
    barriers: z.array(barrier),
    compartments: z.array(compartment).default([]),
    doors: z.array(door).default([]).describe('Doors and windows in rated barriers'),
    runs: z.array(run),
    strategy: z.array(strategyRow).default([]).describe('A row for each run, or part of it between fire dampers'),
    penetrations: z.array(
      z.object({
        ...penetrationFacts,
        outcome: outcome.describe('The most serious outcome of all that was checked here; see outcomes'),
        outcomes: z
          .object({ ...outcomeCounts, wouldPass: count })
          .describe('Results of the penetration itself and of its barrier, its opening and its duct elements'),
        required: z
          .object({ integrity: z.number().nullable(), insulation: z.number().nullable() })
          .default({ integrity: null, insulation: null })
          .describe('Minutes asked for here, by the barrier and the brief; 0: none; null: not known'),
      }),
    ),
    openings: z.array(openingSubject).describe('Openings of barriers with all services in them'),
    facingEnds: z.array(facingEnds).default([]).describe('Duct ends that face each other across a barrier'),
    findings: z.array(finding),
    issuedTags: z
      .array(
        z.object({
          tag: z.string(),
          key: z.string(),
          issuedAt: z.iso.datetime(),
          absentSince: z.iso.datetime().nullable(),
        }),
      )
      .default([])
      .describe('Every tag that was ever issued, here or in the reports before; none is used again'),
    takeoff: z.null(),
  })
  .meta({
    title: 'Ratedrun report',
    description: 'Lengths in millimetres, angles in degrees; unknown values are null.',
  });

/** Data that is written once and never changed, at every depth. */
export type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T;

export type Report = DeepReadonly<z.infer<typeof reportSchema>>;
export type ReportModel = Report['models'][number];
export type ReportBarrier = Report['barriers'][number];
export type ReportPenetration = Report['penetrations'][number];
export type ReportFinding = Report['findings'][number];
export type ReportFacingEnds = Report['facingEnds'][number];
export type IssuedTag = Report['issuedTags'][number];
export type ReportCheck = Report['checks'][number];
export type OutcomeCounts = Report['summary']['outcomes'];

/** Reads a report.json that someone parsed. Throws a ZodError that names the fields that are wrong. */
export function parseReport(json: unknown): Report {
  return reportSchema.parse(json);
}

/** JSON Schema 2020-12 of report.json. Of the input: readers must bear fields that a later version adds. */
export function reportJsonSchema(): Record<string, unknown> {
  return z.toJSONSchema(reportSchema, { target: 'draft-2020-12', io: 'input' });
}

// -------------------------------------------------------------------------------------------- agreement with the model

/** What prints has null where a Federation leaves out; only layers bring such a value into the report. */
type Printed<T> = Omit<T, 'layers'> & {
  readonly layers: readonly {
    readonly material: string;
    readonly thickness: number | null;
    readonly role: LayerRole | null;
  }[];
};
/** Keys are compared as well, since a type with a further optional field is assignable both ways. */
type Same<A, B> = [A, B, keyof A, keyof B] extends [B, A, keyof B, keyof A] ? true : false;
type Holds<T extends readonly true[]> = T;

/** Does not compile where the schema and src/model.ts no longer say the same. */
export type SchemaAgreesWithModel = Holds<
  [
    Same<ModelInfo, ReportModel>,
    Same<RuleInfo, Report['rules'][number]>,
    Same<CheckResult, ReportCheck>,
    Same<Finding, Omit<ReportFinding, 'topic'>>,
    Same<Compartment, Report['compartments'][number]>,
    Same<Run, Report['runs'][number]>,
    Same<StrategyRow, Report['strategy'][number]>,
    Same<DoorFacts, Report['doors'][number]>,
    Same<OpeningSubject, Report['openings'][number]>,
    Same<Limit, NonNullable<ReportFinding['limit']>>,
    Same<Printed<BarrierFacts>, ReportBarrier>,
    Same<Omit<FacingEnds, 'barrier'> & { readonly barrier: Printed<BarrierFacts> }, Report['facingEnds'][number]>,
    Same<
      Omit<Penetration, 'barrier'> & { readonly barrier: Printed<BarrierFacts> },
      Omit<ReportPenetration, 'outcome' | 'outcomes' | 'required'>
    >,
  ]
>;
