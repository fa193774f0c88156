import * as z from 'zod';
import { id, minutes, sentence, version } from './document-parts.js';
import { requireRange, requireSizeValue, sizeRows } from './size-value.js';
import type { YamlSource } from './yaml-source.js';

/**
 * The form of a `published-values` document: what standards and codes say in numbers and words, each once, with its
 * source. Checks and service tables go by the ids. Nothing here proves anything: only a tested system does.
 */

/** How sure it is that the source says so, from most to least. */
const CONFIDENCES = ['seen', 'computed', 'secondHand', 'memoryHigh', 'memoryMedium', 'memoryLow'] as const;
export type Confidence = (typeof CONFIDENCES)[number];

const unit = z.enum(['mm', 'deg', 'min', 'ratio', 'degC', 'K', 'percent', 'Pa', 'm3/(h.m2)', 'N/mm2']);

const row = z.strictObject({
  upTo: z.number().optional().describe('The largest that the row holds for.'),
  below: z.number().optional().describe('The row holds for what is less.'),
  value: z.union([z.number(), sentence]),
});

export const barrierRows = z
  .array(z.strictObject({ upTo: minutes.optional(), below: minutes.optional(), value: minutes }))
  .min(1)
  .describe("By the minutes of the barrier's rating; the first row that holds counts.");

const value = z.union(
  [
    z.strictObject({ number: z.number(), unit }),
    z.strictObject({ atLeast: z.number(), atMost: z.number(), unit }),
    z.strictObject({ text: sentence }),
    z.strictObject({ bySize: sizeRows, unit: z.literal('mm') }),
    z.strictObject({ byBarrier: barrierRows, unit: z.literal('min') }),
    z.strictObject({ by: sentence.describe('What the rows go by, with its unit.'), rows: z.array(row).min(1) }),
  ],
  {
    error:
      'must be { number: …, unit: … }, { atLeast: …, atMost: …, unit: … }, { text: … }, { bySize: [ … ], unit: mm }, { byBarrier: [ … ], unit: min } or { by: …, rows: [ … ] }',
  },
);

const entry = z.strictObject({
  id,
  says: sentence.describe('What the value means.'),
  value,
  source: sentence.describe('The standard or code, and where it was seen.'),
  clause: sentence.optional(),
  jurisdiction: sentence.optional().describe('Where it holds; left out, with edition: anywhere.'),
  edition: sentence.optional().describe('The code and its edition, as far as the source names one.'),
  confidence: z.enum(CONFIDENCES),
});

export const PublishedValuesSchema = z.strictObject({
  kind: z.literal('published-values'),
  id,
  version,
  status: z.enum(['unverified', 'demonstration']).describe('A published value proves nothing, so never "tested".'),
  source: sentence,
  values: z.array(entry).min(1),
});

export type PublishedValuesDocument = z.infer<typeof PublishedValuesSchema>;
export type BarrierRows = z.infer<typeof barrierRows>;
export type PublishedValue = PublishedValuesDocument['values'][number] & {
  readonly status: PublishedValuesDocument['status'];
};

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireValuesSense(source: YamlSource, { values }: PublishedValuesDocument): void {
  for (const [i, { id: name, value: given, jurisdiction, edition }] of values.entries()) {
    const path = ['values', i];
    if (values.findIndex((other) => other.id === name) !== i)
      throw source.errorAt([...path, 'id'], `id "${name}" is used twice in this document`);
    if ((jurisdiction === undefined) !== (edition === undefined))
      throw source.errorAt(
        path,
        'a value of one code needs both "jurisdiction" and "edition"; one of anywhere neither',
      );
    if ('bySize' in given) requireSizeValue(source, [...path, 'value'], given);
    if ('atLeast' in given) requireRange(source, [...path, 'value'], given);
    const rows = 'byBarrier' in given ? given.byBarrier : 'rows' in given ? given.rows : [];
    for (const [j, { upTo, below }] of rows.entries()) {
      const isLast = j === rows.length - 1;
      const ends = [upTo, below].filter((end) => end !== undefined);
      const at = [...path, 'value', 'byBarrier' in given ? 'byBarrier' : 'rows', j];
      if (ends.length > 1 || (ends.length === 0 && !isLast))
        throw source.errorAt(at, 'a row ends with "upTo" or "below"; only the last may go on without end');
      const before = j === 0 ? undefined : (rows[j - 1]!.upTo ?? rows[j - 1]!.below);
      if (before !== undefined && ends[0] !== undefined && ends[0] <= before)
        throw source.errorAt(at, `rows must ascend; ${ends[0]} comes after ${before}`);
    }
  }
}

/** undefined: no row goes so far. */
export const valueByBarrier = (rows: BarrierRows, barrier: number): number | undefined =>
  rows.find(
    ({ upTo, below }) => barrier <= (upTo ?? Number.POSITIVE_INFINITY) && barrier < (below ?? Number.POSITIVE_INFINITY),
  )?.value;

const FROM_MEMORY = 'from memory';
const CONFIDENCE_WORDS: { readonly [C in Confidence]: string | null } = {
  seen: null,
  computed: 'computed',
  secondHand: 'second-hand',
  memoryHigh: FROM_MEMORY,
  memoryMedium: FROM_MEMORY,
  memoryLow: FROM_MEMORY,
};

/** Source with how sure it is, as a basis names it. */
export function sourceWords({ source, confidence }: Pick<PublishedValue, 'source' | 'confidence'>): string {
  const words = CONFIDENCE_WORDS[confidence];
  return words === null ? source : `${source}; ${words}`;
}
