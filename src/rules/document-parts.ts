import * as z from 'zod';
import type { YamlSource } from './yaml-source.js';

/** Parts that several kinds of document share. */

export const status = z.enum(['tested', 'unverified', 'demonstration']);

export const sentence = z.string().min(1).max(1000);

export const id = z
  .string()
  .max(80)
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'must be lower-case words joined by hyphens, e.g. "gap-within-range"');

export const version = z.string().min(1).max(40);

export const evidence = z.strictObject({
  report: sentence.describe('Number of the test report.'),
  laboratory: sentence,
  standard: sentence,
  date: z.iso.date(),
  scope: sentence,
});

/** Of tables, which prove nothing unless they were measured somewhere. */
export function requireEvidence(
  source: YamlSource,
  document: { readonly status: z.infer<typeof status>; readonly evidence?: z.infer<typeof evidence> | undefined },
): void {
  if ((document.status === 'tested') !== (document.evidence !== undefined))
    throw source.errorAt(['status'], 'status "tested" and evidence belong together: give both, or neither');
}

/** What a number is counted in. JSON Schema has no word for it; sheets for proof-readers show it. */
export const units = z.registry<{ readonly unit: string }>();

/** No length in a building is longer than a kilometre; a number above that is in the wrong unit. */
export const millimetres = z.number().min(0).max(1_000_000).register(units, { unit: 'mm' });
export const minutes = z
  .number()
  .min(0)
  .max(1440)
  .describe('Minutes; 0 where nothing is granted or asked.')
  .register(units, { unit: 'min' });

/** Off square. */
export const degrees = z.number().min(0).max(90).register(units, { unit: 'deg' });
export const kilogramsPerCubicMetre = z.number().positive().max(3000).register(units, { unit: 'kg/m³' });
/** Of steel in supports. */
export const stress = z.number().positive().max(500).register(units, { unit: 'N/mm²' });
export const pascals = z.number().min(0).max(10_000).register(units, { unit: 'Pa' });
