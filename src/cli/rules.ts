/** `ratedrun rules`: validates rule documents and briefs and runs their examples; or prints schemas, or a new brief. */
import { compareTexts } from '../collect.js';
import { newBrief, notesOn, type RuleSet, ruleJsonSchemas, runExamples } from '../rules/index.js';
import { jsonText } from '../words/json-text.js';
import { counted } from '../words/text.js';
import { documentsFrom } from './documents.js';
import { UsageError } from './io.js';
import { type SheetOptions, writeSheets } from './rule-sheets.js';
import type { Streams } from './streams.js';

export interface RulesOptions {
  readonly schema?: boolean;
  readonly newBrief?: boolean;
  readonly json?: boolean;
  readonly sheet?: SheetOptions['sheet'];
  /** Of the sheet. */
  readonly out?: string;
  readonly nonzeroFor?: 'examples' | 'notes';
}

export async function rules(paths: readonly string[], options: RulesOptions, io: Streams): Promise<number> {
  if (options.schema) {
    io.out.write(jsonText(ruleJsonSchemas(), 2));
    return 0;
  }
  if (options.newBrief) {
    io.out.write(newBrief());
    return 0;
  }
  if (paths.length === 0) {
    throw new UsageError(
      'no document given; name rule documents, briefs or folders, or ask for --schema or --new-brief.',
    );
  }
  const documents = await documentsFrom(paths);
  const { sheet, out } = options;
  if (out !== undefined && sheet === undefined)
    throw new UsageError('--out is for --sheet md or --sheet html; all else is printed.');
  if (sheet !== undefined) {
    await writeSheets(documents, { sheet, ...(out !== undefined && { out }) }, io);
    return 0;
  }
  const { rules: set, briefs } = documents;
  const notes = notesOn(documents.texts, set, documents.shipped);
  const results = runExamples(set);
  const wrong = results.filter((result) => !result.ok);
  const code = wrong.length > 0 || (options.nonzeroFor === 'notes' && notes.length > 0) ? 1 : 0;
  if (options.json) {
    const shown = briefs.map(({ file, id, version, demonstration }) => ({ file, id, version, demonstration }));
    io.out.write(jsonText({ documents: set.documents, briefs: shown, examples: results, notes }, 2));
    return code;
  }
  for (const { file, id, version, status } of set.documents) io.out.write(`${file}: ${id} ${version}, ${status}\n`);
  for (const { file, id, version, demonstration } of briefs)
    io.out.write(`${file}: ${id} ${version}, project brief${demonstration ? ' for demonstration' : ''}\n`);
  if (set.documents.length > 0)
    io.out.write(`${set.checks.length} checks, ${results.length} examples, ${wrong.length} of them wrong\n`);
  if (set.published.length > 0) io.out.write(`${set.published.length} published values\n`);
  for (const [code, count] of codesOf(set)) io.out.write(`code ${code}: ${counted(count, 'check')}\n`);
  for (const { file, line, check, example, expected, got } of wrong)
    io.out.write(`${file}:${line} ${check}, example ${example}: expected ${expected}, got ${got}\n`);
  if (notes.length > 0) io.out.write(`${counted(notes.length, 'note')} on what is valid all the same:\n`);
  for (const { file, line, column, kind, message, remedy } of notes)
    io.out.write(`${file}:${line}:${column} ${kind}: ${message}. ${remedy}\n`);
  return code;
}

/** As a brief must write them, with how many checks each has. */
function codesOf({ checks }: RuleSet): [code: string, checks: number][] {
  const counts = new Map<string, number>();
  for (const { definition } of checks) {
    const { code } = definition.basis;
    if (!code) continue;
    const words = `jurisdiction: ${code.jurisdiction}, edition: ${code.edition}`;
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return [...counts].sort(([a], [b]) => compareTexts(a, b));
}
