import * as z from 'zod';
import { RODS } from '../supports/rods.js';
import {
  degrees,
  evidence,
  id,
  kilogramsPerCubicMetre,
  millimetres,
  minutes,
  pascals,
  sentence,
  status,
  stress,
  version,
} from './document-parts.js';
import { factsSchema, systemFactsSchema } from './example-facts.js';
import { sizeValue } from './size-value.js';
import { detail } from './tested-detail.js';
import { construction, kinds, layers, limitsByShape, name, range, source } from './tested-parts.js';

/**
 * The form of a `tested-system` document: what a protection was tested for, and how it is made. What spans several
 * fields is checked in `tested-system-sense.ts`.
 */

const material = z.enum(['steel', 'stainless', 'aluminium', 'plastic']);

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
    aspectRatioAtMost: z.number().min(1).max(100).optional().describe('Longer to shorter side; left out: not limited.'),
    sheet: range.optional().describe('Thickness of the sheet of the duct; left out: not limited.'),
    pressure: z
      .strictObject({ overAtMost: pascals.optional(), underAtMost: pascals.optional(), source })
      .optional()
      .describe('Pressure in the duct against that around it, both as positive numbers; left out: not limited.'),
    source,
  }),
  orientation: z.array(z.enum(['walls', 'floors'])).min(1),
  barriers: z
    .array(
      z.strictObject({
        construction,
        thicknessAtLeast: millimetres,
        kinds: kinds.optional(),
        coveredBy: construction
          .optional()
          .describe('Not tested itself: the test in this construction covers it, as the source says; needs a source.'),
        source,
      }),
    )
    .min(1)
    .describe('What the tests cover; a construction that is not listed is not covered.'),
  ratings: z
    .array(z.strictObject({ layers, integrity: minutes, insulation: minutes, source }))
    .min(1)
    .describe('What each number of layers reaches; a number that is not listed was not tested.'),
  gap: z.strictObject({ atLeast: sizeValue, atMost: sizeValue, source }),
  skewAtMost: degrees,
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
  undersideAtMost: sizeValue.optional().describe('Of the horizontal underside of the duct, across it.'),
  pattern: z.strictObject({ pins: pins.optional(), straps: straps.optional() }),
  source,
});

const layer = z
  .strictObject({
    thickness: millimetres.positive().max(500).describe('Of one layer as fixed.'),
    density: kilogramsPerCubicMetre,
    pieces: z
      .array(z.strictObject({ form: z.enum(['roll', 'sheet']), length: millimetres, width: millimetres, source }))
      .min(1)
      .optional()
      .describe('As it is delivered.'),
    source,
  })
  .describe('What one layer is: how much room it takes and how heavy it is.');

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
  .array(z.strictObject({ upTo: minutes, stress }))
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
  fixing: id.optional().describe('Left out: the one that fits best.'),
  detail: id.optional().describe('Left out: the one that fits best.'),
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
  compatibleWith: z
    .array(z.strictObject({ system: id, source: sentence }))
    .min(1)
    .optional()
    .describe('Other tested systems that may protect the same run beside it; left out: none.'),
  accessPanels: accessPanels.optional(),
  supports: supports.optional(),
  examples: z.array(example).min(1).describe('Facts in, limits out; run by `ratedrun rules`.'),
});

export type TestedSystemDocument = z.infer<typeof TestedSystemSchema>;
export type Fixing = TestedSystemDocument['fixings'][number];
export type SystemExample = TestedSystemDocument['examples'][number];

/** A document that makes sense, with the places of its examples. */
export interface TestedSystem extends Omit<TestedSystemDocument, 'examples'> {
  readonly file: string;
  readonly examples: readonly { readonly definition: SystemExample; readonly line: number }[];
}
