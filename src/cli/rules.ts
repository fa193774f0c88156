/** `ratedrun rules`: validates rule documents and runs the examples they carry; or prints their JSON Schema. */
import { loadRules, ruleJsonSchemas, runExamples } from '../rules/index.js';
import { readRuleTexts, UsageError } from './io.js';
import type { Streams } from './streams.js';

export interface RulesOptions {
  readonly schema?: boolean;
  readonly json?: boolean;
}

export async function rules(paths: readonly string[], options: RulesOptions, io: Streams): Promise<number> {
  if (options.schema) {
    io.out.write(`${JSON.stringify(ruleJsonSchemas(), null, 2)}\n`);
    return 0;
  }
  if (paths.length === 0) throw new UsageError('no rule document given; name files or folders, or ask for --schema.');
  const set = loadRules(await readRuleTexts(paths));
  const results = runExamples(set);
  const wrong = results.filter((result) => !result.ok);
  if (options.json) {
    io.out.write(`${JSON.stringify({ documents: set.documents, examples: results }, null, 2)}\n`);
    return wrong.length > 0 ? 1 : 0;
  }
  for (const { file, id, version, status } of set.documents) io.out.write(`${file}: ${id} ${version}, ${status}\n`);
  io.out.write(`${set.checks.length} checks, ${results.length} examples, ${wrong.length} of them wrong\n`);
  for (const { file, line, check, example, expected, got } of wrong)
    io.out.write(`${file}:${line} ${check}, example ${example}: expected ${expected}, got ${got}\n`);
  return wrong.length > 0 ? 1 : 0;
}
