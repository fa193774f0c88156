import * as z from 'zod';
import { parseRating } from '../fire-rating/index.js';
import { FIRE_SIDES, SERVICES } from '../model.js';
import type { Asked, ServiceDefault, ServiceRow } from '../strategy/index.js';
import { codeOf, codeOfValue, findValue, type PublishedValues } from './cite.js';
import { id, minutes, sentence, status, version } from './document-parts.js';
import { type PublishedValue, sourceWords } from './published-values.js';
import type { Path, YamlSource } from './yaml-source.js';

/** The form of a `service-table` document: words in the names of systems → what they are for, and what then holds. */

const word = z.string().trim().min(2, 'must have at least two letters, or it is found in every name').max(100);

export const asked = {
  dampers: z.enum(['allowed', 'never']).optional().describe('Fire dampers where it passes rated barriers.'),
  resists: z
    .enum(['always', 'whereUndampered'])
    .optional()
    .describe(
      'always: all of it outside the compartment that it serves; whereUndampered: where it passes a rated barrier without a fire damper.',
    ),
  fire: z.enum(FIRE_SIDES).optional().describe('Where the fire is that it must resist.'),
  integrity: minutes.optional().describe('Least integrity, whatever the barriers ask.'),
  insulation: minutes.optional().describe('Least insulation, whatever the barriers ask.'),
};

const serviceDefault = z.strictObject({
  ...asked,
  least: z
    .strictObject({ published: id })
    .optional()
    .describe('Least integrity and insulation, as a published value has them: minutes, or a rating such as -/30/30.'),
  source: sentence.optional(),
  published: id.optional().describe('Id of the published value that says so, which has source and code.'),
  jurisdiction: sentence.optional(),
  edition: sentence.optional(),
});

const row = z.strictObject({
  service: z.enum(SERVICES),
  words: z.array(word).default([]).describe('Parts of names, in any case, with or without accents and hyphens.'),
  wholeWords: z.array(word).default([]).describe('Short words that must stand alone, such as abbreviations.'),
  source: sentence.describe('Where the words come from; "common practice, no source" where they have none.'),
  defaults: z.array(serviceDefault).default([]).describe('What holds unless a brief says otherwise; the first counts.'),
});

const example = z.strictObject({
  why: sentence.optional(),
  names: z.array(z.string().max(200)).min(1).describe('Names of a system.'),
  service: z.enum([...SERVICES, 'none']),
});

export const ServiceTableSchema = z.strictObject({
  kind: z.literal('service-table'),
  id,
  version,
  status: status.exclude(['tested']),
  source: sentence,
  rows: z.array(row).min(1),
  examples: z.array(example).min(1).describe('Names in, service out; run by `ratedrun rules`.'),
});

export type ServiceTable = z.infer<typeof ServiceTableSchema>;
export type ServiceExample = ServiceTable['examples'][number];
type WrittenDefault = ServiceTable['rows'][number]['defaults'][number];

/** Refuses what makes no sense together, and puts published values in. */
export function serviceRowsOf(source: YamlSource, table: ServiceTable, values: PublishedValues): ServiceRow[] {
  const seen = new Map<string, string>();
  for (const [i, { words, wholeWords, service }] of table.rows.entries()) {
    if (words.length + wholeWords.length === 0)
      throw source.errorAt(['rows', i], 'a row needs "words" or "wholeWords", or it fits no name');
    for (const [key, list] of Object.entries({ words, wholeWords }))
      for (const [j, one] of list.entries()) {
        const known = seen.get(one.toLowerCase());
        if (known !== undefined)
          throw source.errorAt(['rows', i, key, j], `the word "${one}" already means ${known}; keep one`);
        seen.set(one.toLowerCase(), service);
      }
  }
  return table.rows.map((given, i) => ({
    ...given,
    status: table.status,
    defaults: given.defaults.map((one, j) => defaultOf(source, ['rows', i, 'defaults', j], one, table, values)),
  }));
}

function defaultOf(
  source: YamlSource,
  path: Path,
  given: WrittenDefault,
  table: ServiceTable,
  values: PublishedValues,
): ServiceDefault {
  const { least, published, source: from, jurisdiction, edition, ...own } = given;
  if (Object.keys(own).length === 0 && !least)
    throw source.errorAt(path, 'a default says something: dampers, resists, fire, integrity, insulation or least');
  const named = published ?? least?.published;
  if (named === undefined) {
    if (from === undefined) throw source.errorAt(path, 'a default needs "source" or "published"');
    return { ...own, source: from, status: table.status, code: codeOf(source, path, given) };
  }
  if (from !== undefined || jurisdiction !== undefined || edition !== undefined)
    throw source.errorAt(path, `source and code stand with the published value "${named}"; leave them out here`);
  const value = findValue(source, [...path, ...(published === undefined ? ['least'] : []), 'published'], named, values);
  const reached = least ? leastOf(source, [...path, 'least', 'published'], value) : {};
  return { ...own, ...reached, source: clauseWords(value), status: value.status, code: codeOfValue(value) };
}

const clauseWords = (value: PublishedValue): string =>
  [sourceWords(value), value.clause].filter((part) => part !== undefined).join(', ');

function leastOf(source: YamlSource, path: Path, { id: name, value, confidence }: PublishedValue): Asked {
  if (confidence === 'memoryLow')
    throw source.errorAt(path, `"${name}" is a faint memory (memoryLow); it may not become a demand`);
  if ('number' in value && value.unit === 'min') return { integrity: value.number, insulation: value.number };
  const rating = 'text' in value ? parseRating(value.text, { object: 'duct' }) : undefined;
  if (rating?.state !== 'stated')
    throw source.errorAt(path, `"${name}" is neither minutes nor a rating such as -/30/30`);
  const { integrity, insulation } = rating;
  return {
    ...(typeof integrity === 'number' && { integrity }),
    ...(typeof insulation === 'number' && { insulation }),
  };
}
