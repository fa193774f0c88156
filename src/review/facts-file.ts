/**
 * facts.json: all that judging goes by (what was measured, the rule documents, the brief), so that another choice can be
 * tried without the models. It stands beside the report that it belongs to.
 */
import * as z from 'zod';
import type { Crossings, ModelInfo, Storey } from '../model.js';
import type { Report } from '../report/schema.js';
import type { RuleDocumentText } from '../rules/index.js';
import { jsonText } from '../words/json-text.js';
import { fileName } from '../words/text.js';
import type { ReadBrief } from './documents.js';

export const FACTS_FILE = 'facts.json';
const FORMAT = 'ratedrun-facts';
const VERSION = 1;

export interface ReviewFacts {
  readonly format: typeof FORMAT;
  readonly version: typeof VERSION;
  /** The program that measured; another version may judge otherwise. */
  readonly tool: string;
  readonly createdAt: string;
  readonly models: readonly ModelInfo[];
  readonly crossings: Crossings;
  readonly storeys: readonly Storey[];
  /** Null: the shipped rules hold. */
  readonly rules: readonly RuleDocumentText[] | null;
  readonly shipped: readonly RuleDocumentText[];
  /** Null: the default brief holds. */
  readonly brief: { readonly file: string; readonly text: string } | null;
}

export interface FactsInput extends Pick<ReviewFacts, 'crossings' | 'storeys' | 'shipped'> {
  readonly report: Report;
  readonly rules: readonly RuleDocumentText[] | undefined;
  readonly brief: ReadBrief | undefined;
}

/** Of the review that made the report: `createdAt` says that they belong together. */
export const factsOf = ({ report, crossings, storeys, rules, shipped, brief }: FactsInput): ReviewFacts => ({
  ...{ format: FORMAT, version: VERSION, tool: report.tool, createdAt: report.createdAt },
  ...{ models: report.models, crossings, storeys, shipped },
  rules: rules?.map(({ file, text }) => ({ file: fileName(file), text })) ?? null,
  brief: brief ? { file: brief.info.file, text: brief.text } : null,
});

/** On one line: it is read by programs, and indented it is three times as long. */
export const writeFacts = (facts: ReviewFacts): Uint8Array => new TextEncoder().encode(jsonText(facts));

export class FactsError extends Error {}

const text = z.object({ file: z.string(), text: z.string() });
const head = z.object({ format: z.literal(FORMAT), version: z.number(), createdAt: z.string() });
/** What is read as documents again, and the lists that judging begins with. */
const body = z.object({
  tool: z.string(),
  models: z.array(z.object({ id: z.string() })),
  crossings: z.object({
    penetrations: z.array(z.object({ id: z.string() })),
    runs: z.array(z.object({ id: z.string() })),
    barriers: z.array(z.object({ globalId: z.string() })),
  }),
  storeys: z.array(z.object({})),
  rules: z.array(text).nullable(),
  shipped: z.array(text),
  brief: text.nullable(),
});

/**
 * Only its outline is checked: what was measured is this program's own, and whoever changes it judges something else. Its
 * documents are loaded like all others, and refused like them.
 *
 * @param report that they have to belong to
 * @throws FactsError in words that follow the file's name
 */
export function readFacts(text: string, report: Pick<Report, 'createdAt'>): ReviewFacts {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new FactsError('is not JSON, or cut off; check the models again.');
  }
  const said = head.safeParse(data);
  if (!said.success || said.data.version !== VERSION)
    throw new FactsError('was not written by this version of the program; check the models again.');
  if (said.data.createdAt !== report.createdAt)
    throw new FactsError('belongs to another review than report.json beside it; check the models again.');
  const outline = body.safeParse(data);
  if (outline.success) return data as ReviewFacts;
  const where = outline.error.issues[0]?.path.join('.');
  throw new FactsError(`is damaged (${where}); check the models again.`);
}
