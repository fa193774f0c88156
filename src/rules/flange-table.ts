import * as z from 'zod';
import { evidence, id, millimetres, requireEvidence, sentence, status, version } from './document-parts.js';
import { type DuctSize, requireSizeValue, type SizeValue, sizeValue, valueAt } from './size-value.js';
import type { YamlSource } from './yaml-source.js';

/** The form of a `flange-table` document: how far the flanges of ducts usually stand out, by size. */

const shape = z.enum(['rectangular', 'circular', 'oval']);

export const FlangeTableSchema = z.strictObject({
  kind: z.literal('flange-table'),
  id,
  version,
  status,
  source: sentence,
  evidence: evidence.optional().describe('Needed with status "tested", and only then.'),
  shapes: z.array(shape).min(1).describe('Shapes of ducts that it holds for; of others it says nothing.'),
  flangeHeight: sizeValue.describe("How far a flange stands out from the duct's sheet, mm."),
  examples: z
    .array(
      z.strictObject({
        why: sentence.optional(),
        duct: z.strictObject({
          shape: shape.optional(),
          width: millimetres.optional(),
          height: millimetres.optional(),
          diameter: millimetres.optional(),
        }),
        flangeHeight: millimetres.optional().describe('Left out: the table does not say.'),
      }),
    )
    .min(1)
    .describe('Sizes in, height out; run by `ratedrun rules`.'),
});

export type FlangeTable = z.infer<typeof FlangeTableSchema>;
export type FlangeExample = FlangeTable['examples'][number];

export function requireFlangeSense(source: YamlSource, table: FlangeTable): void {
  requireEvidence(source, table);
  requireSizeValue(source, ['flangeHeight'], table.flangeHeight);
}

/** undefined: the table says nothing of this shape, or the size is not known or beyond it. */
export const usualFlange = (
  { shapes, flangeHeight }: Pick<FlangeTable, 'shapes' | 'flangeHeight'>,
  duct: DuctSize,
): number | undefined => (shapes.some((one) => one === duct.shape) ? valueAt(flangeHeight, duct) : undefined);

export interface Flange {
  /** How far it stands out, mm; undefined where it is not known. */
  readonly height: number | undefined;
  readonly from: 'brief' | 'flangeTable' | 'nowhere';
}

/** @param own what the project brief says, which goes before all tables */
export function flangeOf(
  duct: DuctSize,
  own: SizeValue | undefined,
  tables: readonly Pick<FlangeTable, 'shapes' | 'flangeHeight'>[],
): Flange {
  if (own !== undefined) return { height: valueAt(own, duct), from: 'brief' };
  const height = tables.map((table) => usualFlange(table, duct)).find((one) => one !== undefined);
  return { height, from: height === undefined ? 'nowhere' : 'flangeTable' };
}
