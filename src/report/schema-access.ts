/** How duct runs are reached for cleaning, as report.json has it. */
import * as z from 'zod';
import { elementRef, ref, side, vec3 } from './schema-parts.js';

const length = z.number().nullable();

const stop = z.object({
  ...ref,
  kind: z.enum(['panel', 'end', 'terminal']).describe('end: nothing is modelled there, so it may be open'),
  name: z.string(),
  at: vec3,
});

export const runAccess = z.object({
  run: z.string(),
  systemType: z.string().nullable(),
  systemNames: z.array(z.string()),
  complete: z.literal(true).nullable().describe('All panels are modelled, as the brief says; null: nobody says so'),
  panels: z.array(
    z.object({
      ...ref,
      name: z.string(),
      evidence: z.string(),
      duct: elementRef,
      at: vec3,
      side: side.nullable().describe('Of level ducts, seen along the axis as it is drawn'),
      width: length.describe('Along the duct, as it is drawn'),
      height: length.describe('Across the duct'),
      toEdge: length.describe('To the nearer edge of the side that it lies on'),
      chainage: length.describe('Along the run from where its walk begins'),
      barrier: z.object({ penetration: z.string(), distance: z.number() }).nullable().describe('To its nearer face'),
    }),
  ),
  gaps: z
    .array(
      z.object({
        from: stop,
        to: stop,
        length: z.number(),
        level: z.number().describe('The longest stretch of it that is level'),
        path: z.array(
          z.object({ at: vec3, chainage: z.number(), free: z.boolean().describe('A straight duct goes on from here') }),
        ),
      }),
    )
    .describe('From each opening to the next along the ducts'),
  bends: z
    .array(
      z.object({
        ...ref,
        name: z.string(),
        at: vec3,
        angle: z.number(),
        toAccess: length.describe('Along the duct to the nearest opening'),
        nearest: stop.nullable(),
      }),
    )
    .describe('Changes of direction of more than 45°'),
});

export const proposedPanel = z.object({
  run: z.string(),
  system: z.string().nullable(),
  at: vec3.describe('On the axis of the duct'),
  size: length.describe('Least width and height; null: nothing that holds says'),
  reason: z.string(),
  source: z.string(),
});
