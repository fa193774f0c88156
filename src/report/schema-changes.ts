/** Changes that mend findings, as report.json has them. */
import * as z from 'zod';
import { elementRef, ref, vec3 } from './schema-parts.js';

const moveDuct = z.object({
  kind: z.literal('moveDuct'),
  by: vec3,
  elements: z.array(elementRef),
  lengths: z.array(z.object({ ...ref, by: z.number(), end: vec3 })),
});
const changeOpening = z.object({
  kind: z.literal('changeOpening'),
  penetration: z.string(),
  barrier: elementRef,
  opening: elementRef.nullable(),
  sides: z.object({ top: z.number(), bottom: z.number(), left: z.number(), right: z.number() }),
  diameter: z.number(),
});
const newOpening = z.object({
  kind: z.literal('newOpening'),
  penetration: z.string(),
  barrier: elementRef,
  shape: z.enum(['rectangular', 'circular']),
  width: z.number(),
  height: z.number(),
  centre: vec3,
  instead: elementRef.nullable(),
  along: vec3,
});
const choose = z.object({
  kind: z.enum(['chooseFixing', 'chooseLayers', 'chooseDetail', 'chooseSystem']),
  penetration: z.string(),
  testedSystem: z.string(),
  fixing: z.string().nullable(),
  detail: z.string().nullable(),
  layers: z.number().nullable(),
});
const single = [moveDuct, changeOpening, newOpening, choose] as const;

export const change = z.discriminatedUnion('kind', [
  ...single,
  z.object({ kind: z.literal('several'), changes: z.array(z.discriminatedUnion('kind', single)) }),
]);
