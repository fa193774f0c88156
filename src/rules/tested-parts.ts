import * as z from 'zod';
import { CONSTRUCTIONS } from '../model.js';
import { sentence } from './document-parts.js';
import { sizeValue } from './size-value.js';

/** Forms that several parts of a `tested-system` document share. */

export const name = z.string().min(1).max(200);
export const source = sentence
  .optional()
  .describe("Clause, table or page where it stands, if not in the document's own source.");
export const layers = z.int().min(1).max(20);
export const kinds = z.array(z.enum(['wall', 'floor', 'roof'])).min(1);
export const construction = z.enum(CONSTRUCTIONS).exclude(['unknown']);

export const sectionLimits = z
  .strictObject({
    width: sizeValue.optional(),
    height: sizeValue.optional(),
    longestSide: sizeValue.optional(),
    shortestSide: sizeValue.optional(),
  })
  .describe('The largest section: width and height as they lie, or longestSide, with or without shortestSide.');

export const limitsByShape = {
  rectangular: sectionLimits.optional(),
  oval: sectionLimits.optional(),
  circular: z.strictObject({ diameter: sizeValue }).optional(),
};

export const range = z.strictObject({ atLeast: sizeValue.optional(), atMost: sizeValue.optional(), source });

export type SectionLimits = z.infer<typeof sectionLimits>;
export type LimitsByShape = { readonly [S in keyof typeof limitsByShape]?: z.infer<(typeof limitsByShape)[S]> };
