/** `ratedrun rules`: validates rule documents and briefs and runs their examples; or prints schemas, or a new brief. */
import { newBrief, ruleJsonSchemas, runExamples } from '../rules/index.js';
import { documentsFrom } from './documents.js';
import { UsageError } from './io.js';
import type { Streams } from './streams.js';

export interface RulesOptions {
  readonly schema?: boolean;
  readonly newBrief?: boolean;
  readonly json?: boolean;
}

export async function rules(paths: readonly string[], options: RulesOptions, io: Streams): Promise<number> {
  if (options.schema) {
    io.out.write(`${JSON.stringify(ruleJsonSchemas(), null, 2)}\n`);
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
  const { rules: set, briefs } = await documentsFrom(paths);
  const results = runExamples(set);
  const wrong = results.filter((result) => !result.ok);
  if (options.json) {
    const shown = briefs.map(({ file, id, version, demonstration }) => ({ file, id, version, demonstration }));
    io.out.write(`${JSON.stringify({ documents: set.documents, briefs: shown, examples: results }, null, 2)}\n`);
    return wrong.length > 0 ? 1 : 0;
  }
  for (const { file, id, version, status } of set.documents) io.out.write(`${file}: ${id} ${version}, ${status}\n`);
  for (const { file, id, version, demonstration } of briefs)
    io.out.write(`${file}: ${id} ${version}, project brief${demonstration ? ' for demonstration' : ''}\n`);
  if (set.documents.length > 0)
    io.out.write(`${set.checks.length} checks, ${results.length} examples, ${wrong.length} of them wrong\n`);
  for (const { file, line, check, example, expected, got } of wrong)
    io.out.write(`${file}:${line} ${check}, example ${example}: expected ${expected}, got ${got}\n`);
  return wrong.length > 0 ? 1 : 0;
}
