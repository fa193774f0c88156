/** What the parts of report.json are made of. */
import * as z from 'zod';

export const vec3 = z.tuple([z.number(), z.number(), z.number()]);
/** Fields that name an element. */
export const ref = { model: z.string(), globalId: z.string() };
export const elementRef = z.object(ref);
