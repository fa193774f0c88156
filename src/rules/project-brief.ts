import * as z from 'zod';
import { SERVICES } from '../model.js';
import { angleIn } from '../supports/angles.js';
import { RODS } from '../supports/rods.js';
import { comment, concession } from './brief-decisions.js';
import { listOf, name, note } from './brief-parts.js';
import { rowMeaning } from './construction-table.js';
import { id, millimetres, minutes, sentence, version } from './document-parts.js';
import { asked } from './service-table.js';
import { sizeValue } from './size-value.js';
import { takeoffChoices } from './takeoff-choices.js';

/** The form of a `project-brief` document. What spans several fields is checked in `project-brief-sense.ts`. */

const word = z.string().trim().min(2, 'must have at least two letters, or it is found in every name').max(100);
const words = z.array(word).min(1).describe('Parts of names, in any case.');

const facts = z.strictObject({
  ratingProperties: listOf(
    z.strictObject({ set: name, property: name, note }),
    'Further places where barriers state their ratings.',
  ),
  ratings: listOf(
    z.strictObject({
      barrier: name.describe('Name or GlobalId.'),
      rating: name.describe('As on the drawing, e.g. -/120/120.'),
      drawing: name,
      revision: name,
      note,
    }),
    'Ratings from drawings, for barriers whose model states none that can be read.',
  ),
  barriers: listOf(
    z.strictObject({ words, kind: z.enum(['wall', 'floor', 'roof']), note }),
    'What is a barrier beside walls, slabs and roofs (a ceiling, a bulkhead, a proxy), by words in names.',
  ),
  constructions: listOf(
    z.strictObject({ words, ...rowMeaning, note }),
    'What words in the names of materials, layers or barriers mean: a construction, or what one layer is.',
  ),
  damperPurposes: listOf(
    z.strictObject({ words, purpose: z.enum(['fire', 'fireSmoke', 'smoke', 'control']), note }),
    'What words in the names of dampers or of their types mean.',
  ),
  ductMaterials: listOf(
    z.strictObject({ words, material: z.enum(['steel', 'stainless', 'aluminium', 'plastic']), note }),
    'What words in the names of materials of ducts mean.',
  ),
  accessPanels: z
    .strictObject({
      words: words.optional().describe('Parts of the names of access panels, besides the usual ones.'),
      property: z
        .strictObject({ set: name, property: name, value: name })
        .optional()
        .describe('A property, and the value that shows an access panel.'),
      modelled: z.boolean().describe('true: all access panels are modelled, so one that is not seen is not there.'),
      note,
    })
    .optional()
    .describe('Panels in ductwork through which dampers are reached.'),
  supports: z
    .strictObject({
      words: words.optional().describe('Parts of the names of supports of ducts, besides the usual ones.'),
      modelled: z.boolean().describe('true: all supports are modelled, so one that is not seen is not there.'),
      systems: z.array(name).min(1).max(500).optional().describe('Names of the systems that this holds for.'),
      note,
    })
    .optional()
    .describe('Hangers, bearers and brackets of ducts.'),
  ducts: listOf(
    z.strictObject({
      words,
      flexible: z.boolean().optional(),
      sheet: z.number().positive().max(20).optional().describe('Thickness of the sheet, mm.'),
      insulation: z.number().min(0).max(500).optional().describe('Of the insulation outside, mm; 0: there is none.'),
      lining: z.number().positive().max(500).optional().describe('Of the insulation inside, mm.'),
      note,
    }),
    'What words in the names of ducts, of their types or materials say of them.',
  ),
  ductProperties: listOf(
    z.strictObject({ set: name, property: name, note }),
    'Properties of ducts, of their types or systems that entries of systems go by.',
  ),
  ductRatingProperties: listOf(
    z.strictObject({
      set: name,
      property: name,
      means: z
        .enum(['required', 'reached'])
        .describe('required: the rating that the duct must reach; reached: the one that it has.'),
      kind: z
        .enum(['blanket', 'board', 'fireResistingDuct'])
        .optional()
        .describe('With reached: what makes it resist fire; by itself when left out.'),
      note,
    }),
    'Where ducts state a fire rating of their own; IFC has no property for it.',
  ),
  protectionModelled: z
    .boolean()
    .default(false)
    .describe('true: all protection is modelled or declared here, so what is not seen is not there.'),
  protections: listOf(
    z.strictObject({
      system: name.optional().describe('Name of a system that is protected over its whole run.'),
      duct: name.optional().describe('Name or GlobalId of one duct; goes before what its system has.'),
      covering: words.optional().describe('Words in the names of coverings modelled on ducts, or of their types.'),
      kind: z
        .enum(['blanket', 'board', 'fireResistingDuct', 'none'])
        .describe('none: left out of what its system has.'),
      layers: z.int().min(1).max(20).optional(),
      integrity: minutes.optional(),
      insulation: minutes.optional(),
      evidence: sentence.describe('Where that is said, e.g. a drawing and its revision.'),
      note,
    }),
    'Protection that is declared, or modelled as coverings; each of a system, of one duct, or by words of coverings.',
  ),
  compartmentProperty: z
    .strictObject({ set: name, property: name, note })
    .optional()
    .describe('Where spaces name the fire compartment that they belong to.'),
  shafts: listOf(word, 'Words in the names of spaces and zones that are shafts, beside shaft, riser and the like.'),
});

const pressure = z
  .strictObject({
    over: z.number().min(0).max(10_000).optional().describe('Over that around it, Pa.'),
    under: z.number().min(0).max(10_000).optional().describe('Under that around it, Pa, as a positive number.'),
  })
  .describe('The most that is in the ducts; a test covers only some.');

const systemChoice = z
  .strictObject({
    system: name.optional().describe('Name of a system as the model has it; large and small letters are alike.'),
    systemType: name.optional().describe('Predefined type of a system, e.g. EXHAUST.'),
    property: z
      .strictObject({ set: name, property: name, value: name })
      .optional()
      .describe('A property of the duct, its type or its system, listed under ductProperties, and its value.'),
    compartment: name.optional().describe('Name of a compartment that the run serves.'),
    ...asked,
    service: z.enum(SERVICES).optional().describe('What the system is for; its names may show that too.'),
    testedSystem: id.optional().describe('Id of the tested system that protects it.'),
    testedDamper: id.optional().describe('Id of the tested damper that its fire dampers are.'),
    fixing: id.optional().describe('Id of a fixing method of that tested system; left out: the one that fits best.'),
    detail: id.optional().describe('Id of a detail of that tested system; left out: the one that fits best.'),
    pressure: pressure.optional(),
    note,
  })
  .describe('Exactly one of system, systemType, property and compartment picks the ducts; the first that does counts.');

/** `noDefault`: takes the default away without another in its place. */
const orNoDefault = <T extends z.ZodType>(item: T) => z.union([item, z.literal('noDefault')]).optional();

const serviceChoice = z.strictObject({
  service: z.enum(SERVICES),
  byWords: z.boolean().optional().describe('false: no words show this service; only entries of systems name it.'),
  words: words.optional().describe('Further words that show it, in the names of systems.'),
  dampers: orNoDefault(z.enum(['allowed', 'never'])),
  resists: orNoDefault(z.enum(['always', 'whereUndampered'])),
  fire: orNoDefault(z.enum(['inside', 'outside', 'both'])),
  integrity: orNoDefault(minutes),
  insulation: orNoDefault(minutes),
  note,
});

const supportChoice = z
  .strictObject({
    rod: z.enum(RODS).optional(),
    rods: z.int().min(1).max(8).default(2).describe('How many rods one support has.'),
    bearer: name
      .refine((text) => angleIn(text) !== undefined, 'must be an equal angle of EN 10056-1, e.g. L 40x40x4')
      .optional(),
    bearerBeyond: millimetres
      .max(1000)
      .optional()
      .describe('How far the bearer reaches beyond each side of the protection.'),
    rodFromSide: millimetres
      .max(1000)
      .optional()
      .describe('From the outside of the protection to the middle of the rod.'),
    insulationDensity: z.number().positive().max(1000).optional().describe('Of thermal insulation, kg/m³.'),
    note,
  })
  .describe('The supports that the project uses; what a model states of one goes first.');

const rate = z.number().min(0).max(1e6).optional();
const most = millimetres.max(5000).optional();
const changes = z
  .strictObject({
    ductBy: most.describe('How far a duct may be moved, mm; 0: not at all.'),
    ductWays: z
      .array(z.enum(['up', 'down', 'level']))
      .max(3)
      .optional()
      .describe('Which ways.'),
    fixed: z
      .array(z.enum(['terminal', 'equipment', 'fan', 'silencer', 'damper', 'flexible']))
      .max(6)
      .optional()
      .describe('What stands where it is: a duct that would take it along is not moved.'),
    widenBy: most.describe('How far each edge of an opening may be cut back, mm.'),
    rebuildBy: most.describe('How far each edge of an opening may be built up in rated construction, mm.'),
    sides: z
      .array(z.enum(['top', 'bottom', 'left', 'right']))
      .max(4)
      .optional()
      .describe('Which edges of openings may change.'),
    newOpenings: z.boolean().optional().describe('Whether an opening may be made where there is none.'),
    costs: z
      .strictObject({
        ...{ move: rate, movePerMm: rate, perElement: rate, perLength: rate },
        ...{ widen: rate, widenPerMm: rate, rebuild: rate, rebuildPerMm: rate, newOpening: rate },
      })
      .optional()
      .describe('By which changes are compared, in any unit.'),
    note,
  })
  .describe('What may be changed to mend a finding, and what that costs.');
const choices = z.strictObject({
  jurisdiction: name.optional(),
  edition: z
    .union([name, z.array(name).max(20)])
    .nullish()
    .transform((given) => (typeof given === 'string' ? [given] : (given ?? [])))
    .describe('The code and its edition; a list where several codes hold.'),
  headMovement: millimetres
    .max(500)
    .optional()
    .describe('How far the structure above stud walls moves; openings must keep clear of that head.'),
  movement: millimetres.max(500).optional().describe('How far ducts and barriers move against each other.'),
  pressure: pressure.optional(),
  siteTolerance: millimetres
    .max(200)
    .optional()
    .describe('How far what is built may lie off what is modelled, mm; 0 when left out.'),
  flangeHeight: sizeValue
    .optional()
    .describe('How far flanges stand out from the duct, mm, for all ducts or by size; flanges are seldom modelled.'),
  room: z
    .strictObject({
      working: millimetres
        .max(2000)
        .optional()
        .describe('Between the protection and what stands beside it, for hands and tools.'),
      hands: millimetres
        .max(2000)
        .optional()
        .describe('Free depth that hands need straight before a face of a barrier, mm.'),
      shaftsEntered: z
        .union([z.boolean(), words])
        .optional()
        .describe(
          'Whether people build in shafts: in all, in none, or in those with one of these words in their names.',
        ),
      shaftsNamed: z
        .boolean()
        .optional()
        .describe('true: every shaft is named as one, so what is not is a room that people enter.'),
      note,
    })
    .optional()
    .describe('Room to build: what is left out is not known.'),
  supports: supportChoice.optional(),
  changes: changes.optional(),
  takeoff: takeoffChoices.optional(),
  systems: listOf(systemChoice, 'Once any system is listed, all must be: what is not listed cannot be told.'),
  services: listOf(serviceChoice, 'What is changed of the shipped services.'),
  access: listOf(
    z.strictObject({
      system: name.optional().describe('Name of a system; left out: all.'),
      service: z.enum(SERVICES).optional(),
      spacing: millimetres.optional().describe('Greatest distance along the duct between openings.'),
      fromBend: millimetres.optional().describe('Greatest distance of an opening from a change of direction over 45°.'),
      source: sentence.describe('Where that is asked, e.g. a clause of the cleaning specification.'),
      note,
    }),
    'What the project itself asks of access openings for cleaning; the first entry that fits counts.',
  ),
  testedSystems: listOf(id, 'Ids of the tested systems that may be used.'),
  pinned: listOf(
    z.strictObject({
      penetration: name.describe('Its tag or its key.'),
      testedSystem: id,
      fixing: id.optional(),
      detail: id.optional(),
      note,
    }),
    'Penetrations for which the tested system is settled, whatever fits better.',
  ),
  testedDampers: listOf(id, 'Ids of the tested dampers that may be used.'),
  concessions: listOf(concession, 'What was conceded, by the key of the finding.'),
  comments: listOf(comment, 'What people said of findings, by the key of the finding.'),
});

export const ProjectBriefSchema = z.strictObject({
  kind: z.literal('project-brief'),
  id,
  version,
  demonstration: z
    .boolean()
    .default(false)
    .describe('true: demonstration documents count as tested, and every output is stamped as demonstration data.'),
  facts: facts.prefault({}),
  choices: choices.prefault({}),
});

export const CHOICES: readonly string[] = Object.keys(choices.shape);
export const BRIEF_FACTS: readonly string[] = Object.keys(facts.shape);

/** Plain data, with nothing left out that has a default. */
export type ProjectBrief = z.infer<typeof ProjectBriefSchema>;
/** What reading and finding go by; judging again needs none of it. */
export type BriefFacts = ProjectBrief['facts'];
export type BriefChoices = ProjectBrief['choices'];
export type BriefConcession = BriefChoices['concessions'][number];
export type BriefComment = BriefChoices['comments'][number];
export type SystemChoice = BriefChoices['systems'][number];
