/** Barriers, compartments and doors as report.json has them. */
import * as z from 'zod';
import { ENCLOSURE_GAPS, END_STATES, LEAF_PROBLEMS } from '../model.js';
import { construction, elementRef, mm, polygon, rating, ref, storey, vec3 } from './schema-parts.js';

const layerRole = z.enum(['leaf', 'lining', 'cavity']);
export const barrier = z.object({
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

const UNSTATED = {
  ...{ state: 'unstated' as const, text: null, loadbearing: null, integrity: null, insulation: null },
  ...{ duration: null, from: null },
};

export const door = z.object({
  ...ref,
  name: z.string().default(''),
  rating: rating.default(UNSTATED),
  at: vec3.nullable().default(null),
  barrier: elementRef,
});

export const end = z
  .object({
    state: z.enum(END_STATES).nullable().describe('null: no floors or roofs are modelled there'),
    barriers: z.array(elementRef),
    leastRating: rating.nullable(),
    openM2: z.number(),
  })
  .default({ state: null, barriers: [], leastRating: null, openM2: 0 });

export const compartment = z.object({
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
