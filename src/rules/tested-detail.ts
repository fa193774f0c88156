import * as z from 'zod';
import { degrees, id, millimetres, sentence } from './document-parts.js';
import { sizeValue } from './size-value.js';
import { construction, kinds, layers, name, range, source } from './tested-parts.js';

/** The form of one tested way to make a penetration good. */

const screws = z.strictObject({
  spacing: millimetres.describe('Between centres, at most.'),
  type: sentence.optional(),
  reachesFraming: z.boolean().optional().describe('true: they must hold in the framing, not in boards alone.'),
});
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
    intoBarrier: screws.optional().describe('What fixes it; left out: the document does not say.'),
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
    at: z
      .array(z.enum(['gap', 'blanketToBoard', 'boardToBarrier', 'blanketToBarrier', 'ductToBarrier']))
      .min(1)
      .describe('Where its beads run.'),
    depth: sizeValue.optional(),
    width: sizeValue.optional(),
    source,
  }),
]);

export const detail = z.strictObject({
  id,
  name,
  kinds: kinds.optional().describe('Left out: all that the scope allows.'),
  constructions: z.array(construction).min(1).optional(),
  layers: z.array(layers).min(1).optional(),
  faces: z
    .enum(['both', 'one'])
    .default('both')
    .describe('one: tested as it is built from either face alone, for barriers whose other face is out of reach.'),
  gapDatum: z
    .enum(['stopsAtFace', 'passesThrough'])
    .default('stopsAtFace')
    .describe(
      'stopsAtFace: the protection ends at the faces, and the gap is that of the bare duct; passesThrough: it goes through, and the gap is measured from its outside.',
    ),
  gap: z.strictObject({ atLeast: sizeValue, atMost: sizeValue, source }).optional().describe('Left out: as the scope.'),
  openingAtMost: z
    .strictObject({ width: sizeValue, height: sizeValue, source })
    .optional()
    .describe('The largest opening, as it lies; a round one counts as wide and as high as its diameter.'),
  packing: z
    .enum(['required', 'forbidden'])
    .optional()
    .describe('Whether the gap must or must not be packed; left out: as its parts show.'),
  movementAtMost: millimetres
    .optional()
    .describe('How far duct and barrier may move against each other; left out: nothing was tested.'),
  skewAtMost: degrees.optional().describe('Left out: as the scope.'),
  separationAtLeast: sizeValue.optional().describe('Clear distance between ducts; left out: as the scope.'),
  edgeDistanceAtLeast: sizeValue
    .optional()
    .describe('From the opening to the next opening, door, end or corner of the barrier; left out: not limited.'),
  parts: z.array(part).min(1).describe('In the order in which they are built.'),
  source,
});

export type Detail = z.infer<typeof detail>;
