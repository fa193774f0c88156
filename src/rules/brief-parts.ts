import * as z from 'zod';
import { sentence } from './document-parts.js';

/** Parts that the groups of a project brief share. */

export const name = z.string().min(1).max(200);
export const note = sentence.optional().describe('For people; the program does not read it.');

/** A key without a value is an empty list, so that the examples of a new brief can be left commented out. */
export const listOf = <T extends z.ZodType>(item: T, says: string) =>
  z
    .array(item)
    .max(5000)
    .nullable()
    .default([])
    .transform((items) => items ?? [])
    .describe(says);
