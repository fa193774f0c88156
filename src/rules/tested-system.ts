import * as z from 'zod';
import { CONSTRUCTIONS } from '../model.js';
import { RODS } from '../supports/rods.js';
import { evidence, id, millimetres, minutes, sentence, status, version } from './document-parts.js';
import { factsSchema, systemFactsSchema } from './example-facts.js';
import { sizeValue } from './size-value.js';

/**
 * The form of a `tested-system` document: what a protection was tested for, and how it is made. What spans several
 * fields is checked in `tested-system-sense.ts`.
 */

const name = z.string().min(1).max(200);
const source = sentence.optional().describe("Where it comes from, if not from the document's own source.");
const layers = z.int().min(1).max(20);
const kinds = z.array(z.enum(['wall', 'floor', 'roof'])).min(1);
const construction = z.enum(CONSTRUCTIONS).exclude(['unknown']);
const material = z.enum(['steel', 'stainless', 'aluminium', 'plastic']);

const sectionLimits = z
  .strictObject({
    width: sizeValue.optional(),
    height: sizeValue.optional(),
    longestSide: sizeValue.optional(),
    shortestSide: sizeValue.optional(),
  })
  .describe('The largest section: width and height as they lie, or longestSide, with or without shortestSide.');

const limitsByShape = {
  rectangular: sectionLimits.optional(),
  oval: sectionLimits.optional(),
  circular: z.strictObject({ diameter: sizeValue }).optional(),
};

const range = z.strictObject({ atLeast: sizeValue.optional(), atMost: sizeValue.optional(), source });

const scope = z.strictObject({
  duct: z.strictObject({
    ...limitsByShape,
    materials: z.array(material).min(1),
    flexible: z.boolean().describe('Whether flexible ducts were tested.'),
    inLine: z
      .array(z.enum(['fan', 'silencer']))
      .default([])
      .describe('What was tested in line with the protected duct, protected like it.'),
    fittings: z.boolean().default(false).describe('Whether bends, transitions and tees were tested in the barrier.'),
    source,
  }),
  orientation: z.array(z.enum(['walls', 'floors'])).min(1),
  barriers: z
    .array(z.strictObject({ construction, thicknessAtLeast: millimetres, kinds: kinds.optional(), source }))
    .min(1),
  ratings: z
    .array(z.strictObject({ layers, integrity: minutes, insulation: minutes, source }))
    .min(1)
    .describe('What each number of layers reaches; a number that is not listed was not tested.'),
  gap: z.strictObject({ atLeast: sizeValue, atMost: sizeValue, source }),
  skewAtMost: z.number().min(0).max(90),
  fire: z
    .array(z.enum(['inside', 'outside']))
    .min(1)
    .optional()
    .describe('Where the fire was in the tests: inside the duct, outside it, or both; left out: not known.'),
  separationAtLeast: sizeValue.describe('Clear distance between ducts.'),
  threeSided: z
    .array(
      z.strictObject({
        constructions: z.array(construction).min(1).describe('Of what the fourth side lies against.'),
        kinds: kinds.optional().describe('Left out: walls, floors and roofs.'),
        gapAtMost: millimetres.describe('Largest gap between the duct and it.'),
        source,
      }),
    )
    .min(1)
    .optional()
    .describe(
      'Details that cover three sides of a duct that lies tight against a soffit or a wall; left out: none was tested.',
    ),
});

const pins = z.strictObject({
  grid: millimetres.describe('Between centres, both ways.'),
  lengths: z.array(z.strictObject({ layers, length: millimetres })).min(1),
  where: z.enum(['all sides', 'underside']).optional(),
  source,
});

const straps = z.strictObject({
  width: millimetres,
  spacing: millimetres,
  clearOfPenetration: millimetres.optional(),
  oneMoreOnOverlaps: z.boolean().optional(),
  compression: range.optional().describe('How far the tightened strap presses the blanket in.'),
  source,
});

const fixing = z.strictObject({
  id,
  name,
  limits: z.strictObject(limitsByShape),
  pattern: z.strictObject({ pins: pins.optional(), straps: straps.optional() }),
  source,
});

const layer = z
  .strictObject({
    thickness: z.number().positive().max(500).describe('Of one layer as fixed, mm.'),
    density: z.number().positive().max(3000).describe('kg/m³.'),
    source,
  })
  .describe('What one layer is: how much room it takes and how heavy it is.');

const screws = z.strictObject({ spacing: millimetres, type: sentence.optional() });
const part = z.discriminatedUnion('part', [
  z.strictObject({ part: z.literal('packing'), material: sentence, source }),
  z.strictObject({
    part: z.literal('angle'),
    sides: z.enum(['all', 'top and bottom', 'left and right']),
    faces: z.enum(['both', 'one']),
    leg: sizeValue,
    thickness: sizeValue,
    intoBarrier: screws,
    intoDuct: screws.optional().describe('Left out where no fastener may go through the duct.'),
    source,
  }),
  z.strictObject({
    part: z.literal('boardCollar'),
    material: sentence,
    width: sizeValue,
    thickness: sizeValue,
    drilledFromEnd: range.optional(),
    source,
  }),
  z.strictObject({
    part: z.literal('localBuildUp'),
    faces: z.enum(['both', 'one']),
    length: sizeValue.describe('Along the duct, from the face of the barrier.'),
    layers,
    source,
  }),
  z.strictObject({
    part: z.literal('sealant'),
    at: z.array(z.enum(['gap', 'blanketToBoard', 'boardToBarrier', 'blanketToBarrier'])).min(1),
    depth: sizeValue.optional(),
    width: sizeValue.optional(),
    source,
  }),
]);

const detail = z.strictObject({
  id,
  name,
  kinds: kinds.optional().describe('Left out: all that the scope allows.'),
  constructions: z.array(construction).min(1).optional(),
  layers: z.array(layers).min(1).optional(),
  faces: z
    .enum(['both', 'one'])
    .default('both')
    .describe('one: tested as it is built from either face alone, for barriers whose other face is out of reach.'),
  parts: z.array(part).min(1),
  source,
});

const joints = z.strictObject({
  overlap: millimetres.describe('Of neighbouring pieces.'),
  pieceAllowance: millimetres.describe('Added to the outside perimeter of the duct for the length of a piece.'),
  cornerAllowance: millimetres
    .optional()
    .describe('Added for each corner; where both are given the longer piece holds.'),
  taped: z.boolean(),
  source,
});

const stressSteps = z
  .array(z.strictObject({ upTo: minutes, stress: z.number().positive().max(500).describe('N/mm².') }))
  .min(1)
  .describe('By minutes of fire, ascending; nothing is allowed for longer than the last.');

const supports = z
  .strictObject({
    spacingAtMost: sizeValue,
    firstSupportAtMost: sizeValue.optional().describe('From each face of a barrier to the first support.'),
    rodStress: stressSteps.optional().describe('Tension in rods.'),
    rods: z.array(z.enum(RODS)).min(1).optional().describe('Sizes of rods that were tested.'),
    rodLengthAtMost: millimetres.optional().describe('Of rods as they were tested.'),
    rodsProtected: z.boolean().optional().describe('Whether the tested rods were protected.'),
    rodFromSideAtMost: millimetres.optional().describe('Between rod and outside of the protection.'),
    bearers: z.array(sentence).min(1).optional().describe('Bearers that were tested, e.g. L 40x40x4.'),
    bearerStress: stressSteps.optional().describe('Bending of the bearer.'),
    risers: z
      .strictObject({
        distanceAtMost: millimetres.describe('Between supports at floors.'),
        timesSmallerSideAtMost: z.number().positive().max(100).optional(),
      })
      .optional()
      .describe('Of upright ducts.'),
    source,
  })
  .describe('How ducts with this protection were held in the test.');

const example = z.strictObject({
  why: sentence.optional(),
  facts: factsSchema(['barrier', 'penetration', 'duct', 'brief']),
  fixing: id.optional(),
  gives: systemFactsSchema().optional().describe('Facts of the system that must come out so.'),
  unknown: z.array(z.string()).min(1).optional().describe('Facts of the system that must not be known.'),
  misses: z.array(z.string()).optional().describe('The limits that are missed, by name; [] fits.'),
});

const accessPanels = z
  .strictObject({
    allowed: z.boolean().describe('Whether panels were part of the tested duct.'),
    widthAtMost: millimetres.optional().describe('Of the panel along the duct.'),
    heightAtMost: millimetres.optional().describe('Of the panel across the duct.'),
    sides: z
      .array(z.enum(['top', 'bottom', 'left', 'right']))
      .min(1)
      .optional()
      .describe('Left out: any.'),
    clearOfPenetration: millimetres.optional().describe('From the face of the barrier.'),
    source,
  })
  .describe('Access panels that were tested as part of the protected duct; left out: not known.');

export const TestedSystemSchema = z.strictObject({
  kind: z.literal('tested-system'),
  id,
  name,
  version,
  status,
  source: sentence.describe('Of every limit that names none of its own.'),
  evidence: evidence.optional().describe('Needed with status "tested", and only then.'),
  protection: z.enum(['blanket', 'board', 'fireResistingDuct']),
  scope,
  layer: layer.optional(),
  fixings: z.array(fixing).describe('Ways to hold it to the duct; empty where it needs none.'),
  details: z.array(detail),
  joints: joints.optional(),
  accessPanels: accessPanels.optional(),
  supports: supports.optional(),
  examples: z.array(example).min(1).describe('Facts in, limits out; run by `ratedrun rules`.'),
});

export type TestedSystemDocument = z.infer<typeof TestedSystemSchema>;
export type SectionLimits = z.infer<typeof sectionLimits>;
export type LimitsByShape = { readonly [S in keyof typeof limitsByShape]?: z.infer<(typeof limitsByShape)[S]> };
export type Fixing = TestedSystemDocument['fixings'][number];
export type SystemExample = TestedSystemDocument['examples'][number];

/** A document that makes sense, with the places of its examples. */
export interface TestedSystem extends Omit<TestedSystemDocument, 'examples'> {
  readonly file: string;
  readonly examples: readonly { readonly definition: SystemExample; readonly line: number }[];
}
