/**
 * `npm run approve`: takes what is found and judged now for right. With a folder, that is listed there, a file for each line,
 * so that what is listed before a change and after it can be compared.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { APPROVED, approvedText } from './approved.js';
import { judged, linesOf, listing } from './lines.js';
import { find, MODELS, read } from './models.js';

const [folder] = process.argv.slice(2);
const fileName = (text: string): string => text.replaceAll(/[^\w.-]+/g, '-');

const approved = new Map<string, readonly string[]>();
for (const model of MODELS) {
  const federation = await read(model);
  const crossings = find(federation, model);
  const stages = { found: { ...crossings }, judged: judged(federation, crossings, model) };
  for (const [stage, said] of Object.entries(stages)) {
    const name = `${model.name}, ${stage}`;
    approved.set(name, linesOf(model, said));
    if (folder === undefined) continue;
    const at = join(folder, fileName(name));
    mkdirSync(at, { recursive: true });
    for (const [what, value] of Object.entries(said)) writeFileSync(join(at, `${fileName(what)}.json`), listing(value));
  }
}
writeFileSync(APPROVED, approvedText(approved));
process.stdout.write(
  `${APPROVED} says what is found and judged now; look at what changed in it before you commit it.\n`,
);
