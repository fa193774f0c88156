/** What the parts of report.json are made of. */
import * as z from 'zod';
import { CONSTRUCTIONS } from '../model.js';

export const vec3 = z.tuple([z.number(), z.number(), z.number()]);
/** Fields that name an element. */
export const ref = { model: z.string(), globalId: z.string() };
export const elementRef = z.object(ref);
export const polygon = z.array(z.tuple([z.number(), z.number()]));
export const count = z.int().nonnegative();
export const mm = z.number().nullable();

export const outcome = z.enum(['passed', 'failed', 'cantTell', 'inapplicable', 'untested']);
export const outcomeCounts = { passed: count, failed: count, cantTell: count, inapplicable: count, untested: count };
export const ruleStatus = z.enum(['tested', 'unverified', 'demonstration']);
export const side = z.enum(['top', 'bottom', 'left', 'right']);
export const construction = z.enum(CONSTRUCTIONS);

export const minutes = z.union([z.number(), z.literal('none'), z.null()]);
export const rating = z.object({
  state: z.enum(['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable']),
  text: z.string().nullable(),
  loadbearing: minutes,
  integrity: minutes,
  insulation: minutes,
  duration: z.number().nullable(),
  from: z.enum(['occurrence', 'type', 'material', 'brief']).nullable(),
});
export const storey = z.object({ globalId: z.string(), name: z.string(), elevation: z.number() }).nullable();
export const limit = z.object({
  atLeast: z.number().exactOptional(),
  atMost: z.number().exactOptional(),
  equals: z.union([z.number(), z.string(), z.boolean()]).exactOptional(),
  among: z.array(z.union([z.number(), z.string()])).exactOptional(),
});
export const wallLayer = z
  .object({
    thickness: mm,
    from: z.enum(['geometry', 'layers', 'covering', 'property', 'name', 'size', 'brief']),
  })
  .nullable();
