/** Which functions a processor profile says are the most costly. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { packageRoot } from '../../../src/platform/package-root.js';

/** What of a V8 profile is read here; times are microseconds. */
interface Profile {
  readonly nodes: readonly {
    readonly id: number;
    readonly callFrame: { readonly functionName: string; readonly url: string; readonly lineNumber: number };
  }[];
  readonly samples: readonly number[];
  readonly timeDeltas: readonly number[];
}

export interface HotFunction {
  readonly name: string;
  readonly milliseconds: number;
}

/** By their own time, without what they call, over all profiles of the folder: one for each thread. */
export function hotFunctions(folder: string, most: number): HotFunction[] {
  const times = new Map<string, number>();
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.cpuprofile'))) {
    const { nodes, samples, timeDeltas } = JSON.parse(readFileSync(join(folder, file), 'utf8')) as Profile;
    const names = new Map(nodes.map(({ id, callFrame }) => [id, nameOf(callFrame)]));
    for (const [i, id] of samples.entries()) {
      const name = names.get(id)!;
      times.set(name, (times.get(name) ?? 0) + timeDeltas[i]! / 1000);
    }
  }
  return [...times]
    .filter(([name]) => name !== '(idle)' && name !== '(program)')
    .sort((a, b) => b[1] - a[1])
    .slice(0, most)
    .map(([name, milliseconds]) => ({ name, milliseconds }));
}

function nameOf({ functionName, url, lineNumber }: Profile['nodes'][number]['callFrame']): string {
  const name = functionName || '(anonymous)';
  if (url === '') return name;
  const path = url.startsWith('file:') ? fileURLToPath(url).replace(`${packageRoot}/`, '') : url;
  return `${name} ${path}:${lineNumber + 1}`;
}
