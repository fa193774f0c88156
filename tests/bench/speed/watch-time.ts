/** How long `check --watch` takes to answer when a limit changes. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as wait } from 'node:timers/promises';
import { packageRoot } from '../../../src/platform/package-root.js';
import type { Verdict } from './targets.js';
import { towerFile } from './towers.js';

const STOREYS = 16;
const MOST = 300;
/** The limit of gaps, mm, one value after the other. */
const LIMITS = [40, 45, 35, 30, 25];
/** As long as a person takes at least between two changes, ms: the outputs of the one before are still being made. */
const BETWEEN = 3000;

export async function watchTime(folder: string): Promise<Verdict> {
  const rules = join(folder, 'watched-rules');
  cpSync(join(packageRoot, 'rules'), rules, { recursive: true });
  const changed = join(rules, 'common-practice.yaml');
  const text = readFileSync(changed, 'utf8');
  const brief = join(packageRoot, 'fixtures', 'tower', 'brief.yaml');
  const paths = [towerFile({ storeys: STOREYS }), '--project-brief', brief, '--rules', rules];
  const options = ['--out', join(folder, 'watched'), '--write', 'json', '--watch', '--quiet', '--json'];
  const main = join(packageRoot, 'dist', 'src', 'cli', 'main.js');
  const child = spawn(process.execPath, [main, 'check', ...paths, ...options], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const answers = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const nextAnswer = async (): Promise<number> => {
    const { value, done } = await answers.next();
    if (done) throw new Error('check --watch ended by itself');
    return (JSON.parse(value) as { readonly milliseconds: number }).milliseconds;
  };
  try {
    const first = await nextAnswer();
    const times: number[] = [];
    for (const limit of LIMITS) {
      await wait(BETWEEN);
      writeFileSync(changed, text.replaceAll('atMost: 50', `atMost: ${limit}`));
      times.push(await nextAnswer());
    }
    const median = times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!;
    return {
      target: `a rule change under \`check --watch\` is answered within ${MOST} ms on ${STOREYS} storeys`,
      held: median <= MOST,
      found: `${median} ms by the clock (${times.join(', ')}; the first answer, with reading and finding, ${first})`,
    };
  } finally {
    const ended = once(child, 'exit');
    child.kill('SIGINT');
    await ended;
  }
}
