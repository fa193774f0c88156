import * as z from 'zod';
import { CONSTRUCTIONS } from '../model.js';
import { evidence, id, sentence, status, version } from './document-parts.js';
import type { YamlSource } from './yaml-source.js';

/** The form of a `construction-table` document: words in the names of materials → classes of construction. */

const construction = z.enum(CONSTRUCTIONS).exclude(['unknown']);
const word = z.string().trim().min(2, 'must have at least two letters, or it is found in every name').max(100);

const row = z.strictObject({
  construction,
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
  layers: z.array(z.string().max(200)).default([]).describe('Names of the materials of the layers.'),
  names: z.array(z.string().max(200)).default([]).describe('Names of the barrier and of its type.'),
  construction: z.enum(CONSTRUCTIONS),
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
export function requireTableSense(source: YamlSource, { rows, status, evidence: proof }: ConstructionTable): void {
  if ((status === 'tested') !== (proof !== undefined))
    throw source.errorAt(['status'], 'status "tested" and evidence belong together: give both, or neither');
  const seen = new Map<string, string>();
  for (const [i, { words, wholeWords, construction: of, beside }] of rows.entries()) {
    const path = ['rows', i];
    if (words.length + wholeWords.length === 0)
      throw source.errorAt(path, 'a row needs "words" or "wholeWords", or it fits no name');
    if (beside.includes(of)) throw source.errorAt([...path, 'beside'], `"${of}" cannot stand beside itself`);
    for (const [key, list] of Object.entries({ words, wholeWords }))
      for (const [j, one] of list.entries()) {
        const known = seen.get(one.toLowerCase());
        if (known !== undefined)
          throw source.errorAt([...path, key, j], `the word "${one}" already means ${known}; keep one`);
        seen.set(one.toLowerCase(), of);
      }
  }
}
