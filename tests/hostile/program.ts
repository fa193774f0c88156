/** The compiled program, started in a folder of models that are called what texts say, as far as a disk takes such names. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Ran, ratedrun } from '../cli/program.js';
import { fileNameOf, modelOf } from './models.js';
import { HOSTILE, type HostileText } from './strings.js';

/** A dozen, of every kind. */
export const SOME: readonly HostileText[] = HOSTILE.filter(
  ({ kind }, i) => HOSTILE.findIndex((other) => other.kind === kind) === i,
);

/** Texts that lie in wait for a page. */
export const FOR_PAGES: readonly HostileText[] = HOSTILE.filter(({ kind }) => kind === 'html' || kind === 'svg').filter(
  (_, i) => i % 3 === 0,
);

/** Names of the files as they are on the disk; what no disk takes has a name of its own. */
export function writeModels(folder: string, texts: readonly HostileText[]): string[] {
  mkdirSync(folder, { recursive: true });
  return texts.map((text) => {
    const name = fileNameOf(text).replace(/^-/, './-');
    const path = join(folder, name);
    const isName = !/[/\\\0]/.test(fileNameOf(text)) && Buffer.byteLength(name) < 200 && !existsSync(path);
    const taken = isName ? name : `model-${text.number}.ifc`;
    writeFileSync(join(folder, taken), modelOf(text).bytes);
    return taken;
  });
}

/** Changes are proven for no place here: that takes longer than all the rest. */
const BRIEF = `kind: project-brief
id: hostile
version: "1"
choices:
  changes: { ductBy: 0, widenBy: 0, rebuildBy: 0, newOpenings: false }
`;

export function checkModels(folder: string, models: readonly string[], ...options: readonly string[]): Ran {
  writeFileSync(join(folder, 'brief.yaml'), BRIEF);
  return ratedrun(folder, ['check', '--project-brief', 'brief.yaml', ...options, '--', ...models], {}, 600_000);
}
