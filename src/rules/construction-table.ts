import * as z from 'zod';
import { CONSTRUCTIONS, LAYER_KINDS } from '../model.js';
import { evidence, id, requireEvidence, sentence, status, version } from './document-parts.js';
import type { Path, YamlSource } from './yaml-source.js';

/** The form of a `construction-table` document: words in the names of materials → classes of construction. */

const construction = z.enum(CONSTRUCTIONS).exclude(['unknown']);
const word = z.string().trim().min(2, 'must have at least two letters, or it is found in every name').max(100);

/** What a row speaks of; the brief's own rows have the same. */
export const rowMeaning = {
  construction: construction.optional().describe('A class of construction; or else "layer".'),
  layer: z
    .enum(LAYER_KINDS)
    .optional()
    .describe('What one layer is that is no construction: air, insulation, a board, what carries a lining, a finish.'),
};

const row = z.strictObject({
  ...rowMeaning,
  words: z.array(word).default([]).describe('Parts of names, in any case, with or without accents and hyphens.'),
  wholeWords: z.array(word).default([]).describe('Short words that must stand alone, such as abbreviations.'),
  beside: z
    .array(construction)
    .default([])
    .describe('Classes of other layers that leave the barrier what it is, such as the concrete on a deck.'),
  source: sentence.describe('Where the words come from; "common practice, no source" where they have none.'),
});

const example = z.strictObject({
  why: sentence.optional(),
  layers: z
    .array(
      z.union([
        z.string().max(200),
        z.strictObject({
          material: z.string().max(200),
          category: z.string().max(200).optional().describe('IfcMaterialLayer.Category.'),
          isAir: z.boolean().optional().describe('IfcMaterialLayer.IsVentilated is not FALSE.'),
        }),
      ]),
    )
    .default([])
    .describe('Names of the materials of the layers, or with what the file says of them besides.'),
  names: z.array(z.string().max(200)).default([]).describe('Names of the barrier and of its type.'),
  construction: z.enum(CONSTRUCTIONS),
  roles: z
    .array(z.enum(['leaf', 'lining', 'cavity', 'unknown']))
    .optional()
    .describe('What each of the layers is, one on the other as they are listed.'),
});

export const ConstructionTableSchema = z.strictObject({
  kind: z.literal('construction-table'),
  id,
  version,
  status,
  source: sentence,
  evidence: evidence.optional().describe('Needed with status "tested", and only then.'),
  rows: z.array(row).min(1).describe('The first row that fits a name counts.'),
  examples: z.array(example).min(1).describe('Names in, class out; run by `ratedrun rules`.'),
});

export type ConstructionTable = z.infer<typeof ConstructionTableSchema>;
export type ConstructionExample = ConstructionTable['examples'][number];

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireTableSense(source: YamlSource, table: ConstructionTable): void {
  const { rows } = table;
  requireEvidence(source, table);
  const seen = new Map<string, string>();
  for (const [i, { words, wholeWords, construction: of, layer, beside }] of rows.entries()) {
    const path = ['rows', i];
    const meaning = requireOneMeaning(source, path, { construction: of, layer });
    if (of === undefined && beside.length > 0)
      throw source.errorAt([...path, 'beside'], 'only a construction can stand beside others');
    if (words.length + wholeWords.length === 0)
      throw source.errorAt(path, 'a row needs "words" or "wholeWords", or it fits no name');
    if (of !== undefined && beside.includes(of))
      throw source.errorAt([...path, 'beside'], `"${of}" cannot stand beside itself`);
    for (const [key, list] of Object.entries({ words, wholeWords }))
      for (const [j, one] of list.entries()) {
        const known = seen.get(one.toLowerCase());
        if (known !== undefined)
          throw source.errorAt([...path, key, j], `the word "${one}" already means ${known}; keep one`);
        seen.set(one.toLowerCase(), meaning);
      }
  }
}

export function requireOneMeaning(
  source: YamlSource,
  path: Path,
  { construction, layer }: { readonly construction?: string | undefined; readonly layer?: string | undefined },
): string {
  const meaning = construction ?? layer;
  if (meaning === undefined || (construction !== undefined && layer !== undefined))
    throw source.errorAt(path, 'words mean a construction or a layer: give "construction" or "layer", and not both');
  return meaning;
}
