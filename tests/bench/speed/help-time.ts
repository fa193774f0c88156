/** What `--help` takes over bare node. */
import { join } from 'node:path';
import { packageRoot } from '../../../src/platform/package-root.js';
import { medianRun, type Run, runOnce } from './run-once.js';
import type { Verdict } from './targets.js';

const RUNS = 9;
const MOST = 150;

export async function helpTime(folder: string): Promise<Verdict> {
  const [helping, bare]: Run[][] = [[], []];
  for (let i = 0; i < RUNS; i++) {
    helping!.push(await runOnce([join(packageRoot, 'dist', 'src', 'cli', 'main.js'), '--help'], { folder }));
    bare!.push(await runOnce(['-e', '0'], { folder }));
  }
  const [help, nothing] = [medianRun(helping!), medianRun(bare!)];
  const over = help.processor - nothing.processor;
  return {
    target: `--help takes less than ${MOST} ms over bare node, in processor time`,
    held: over < MOST,
    found: `${over.toFixed(0)} ms (wall clock ${(help.wall - nothing.wall).toFixed(0)} ms)`,
  };
}
