/**
 * `npm run kill -- [--runs 500] [--reviews 25] [--seed 1]`: breaks off writers of outputs alone and whole reviews, at random
 * moments and at random steps of their writing, and says what readers found in the folder after each. Ends with 1 where it was
 * anything but one whole set.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { readOutputs } from '../../src/cli/io.js';
import { COMMIT } from '../../src/platform/file-set.js';
import { randomBy } from '../quantify/cutting/instances.js';
import type { Fault } from './at-step.js';
import { type Ended, RATEDRUN, type StartOptions, start, WRITE_SETS } from './start.js';

const { values } = parseArgs({
  options: {
    runs: { type: 'string', default: '500' },
    reviews: { type: 'string', default: '25' },
    seed: { type: 'string', default: '1' },
  },
});
const random = randomBy(Number(values.seed));
const anyOf = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
const root = mkdtempSync(join(tmpdir(), 'ratedrun-kill-'));

/** What is broken off: it writes one of two sets into a folder, each time the same bytes. */
interface Writer {
  readonly what: string;
  readonly sets: readonly [string, string];
  write(set: string, folder: string, options?: StartOptions): Promise<Ended>;
}

const outputsAlone: Writer = {
  what: 'writers of outputs',
  sets: ['1', '2'],
  write: (set, folder, options) => start(WRITE_SETS, [folder, set], options),
};

function reviews(): Writer {
  const sets = ['with-opening', 'without-opening'] as const;
  for (const name of sets) {
    const builder = new ModelBuilder({ fileName: `${name}.ifc` });
    const wall = builder.wall(WALL);
    if (name === 'with-opening') builder.opening(wall, OPENING);
    builder.duct(DUCT);
    writeFileSync(join(root, `${name}.ifc`), builder.toString());
  }
  const more = ['--write', 'xlsx,ifc,glb,facts,csv', '--quiet', '--nonzero-for', 'nothing'];
  return {
    ...{ what: 'whole reviews', sets },
    write: (set, folder, options) =>
      start(RATEDRUN, ['check', join(root, `${set}.ifc`), '--out', folder, ...more], {
        env: { SOURCE_DATE_EPOCH: '1767225600' },
        ...options,
      }),
  };
}

const names = (folder: string): string[] => (existsSync(folder) ? readdirSync(folder) : []);
const filesIn = (folder: string): string[] => names(folder).filter((name) => !name.startsWith('.'));
const leftoversIn = (folder: string): string[] => names(folder).filter((name) => name.startsWith('.ratedrun'));
const printOf = (folder: string): string =>
  filesIn(folder)
    .map(
      (name) =>
        `${name} ${createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex')}`,
    )
    .join('\n');

/** What is known of the sets before anything is broken. */
async function measured({ what, sets, write }: Writer) {
  const prints = new Map([['', 'nothing']]);
  const files = new Set<string>();
  let [longest, steps] = [0, 0];
  for (const set of sets) {
    const folder = join(root, `${what} ${set}`);
    const countTo = join(root, 'steps');
    const began = performance.now();
    const ended = await write(set, folder, { at: { folder, step: 0, fault: 'SIGKILL', countTo } });
    if (ended.code !== 0) throw new Error(`${what} don't work: ${ended.err}`);
    longest = Math.max(longest, performance.now() - began);
    steps = Math.max(steps, Number(readFileSync(countTo, 'utf8')));
    prints.set(printOf(folder), set);
    for (const file of filesIn(folder)) files.add(file);
  }
  return { prints, files: [...files], longest, steps };
}

/** @returns what readers could not live with */
async function breakOff(writer: Writer, runs: number): Promise<string[]> {
  const { prints, files, longest, steps } = await measured(writer);
  const folder = join(root, `${writer.what} broken`);
  const counts = new Map<string, number>();
  const count = (what: string): void => void counts.set(what, (counts.get(what) ?? 0) + 1);
  const faults: string[] = [];
  let held = 'nothing';
  for (let run = 1; run <= runs; run++) {
    const set = anyOf(writer.sets);
    const byStep = random() < 0.6;
    const fault = anyOf<Fault>(byStep ? ['SIGKILL', 'SIGKILL', 'SIGINT', 'SIGTERM', 'ENOSPC'] : ['SIGKILL', 'SIGINT']);
    const options: StartOptions = byStep
      ? { at: { folder, step: 1 + Math.floor(random() * steps), fault } }
      : { kill: { after: random() * longest * 1.1, signal: fault as NodeJS.Signals } };
    const { code, err } = await writer.write(set, folder, options);
    count(byStep ? `${fault} at a step of its writing` : `${fault} at any moment`);
    const fail = (what: string): void =>
      void faults.push(`${writer.what}, run ${run}, ${JSON.stringify(options)}: ${what}`);

    const left = leftoversIn(folder);
    const isMixed = !prints.has(printOf(folder));
    if (isMixed) count('the folder held a mix, and the rest of the new set beside it');
    if (isMixed && !left.includes(COMMIT)) fail(`a mix, and nothing waits; there are ${left.join(', ')}`);
    if (left.length > 0) count('left something to be cleaned up');
    const found = await readOutputs(folder, files, async () => prints.get(printOf(folder)));
    if (found === undefined) fail('readers find a mix');
    else if (found !== held && found !== set) fail(`readers find ${found} instead of ${held} or ${set}`);
    else count(found === set ? 'readers find the new set' : 'readers find the set before');
    if (code === 0 && found !== set) fail(`it ended well, but readers find ${found}`);
    // What a full disk did not let it delete is for the next run.
    if (code === 0 && fault !== 'ENOSPC' && leftoversIn(folder).length > 0)
      fail(`it ended well and left ${leftoversIn(folder).join(', ')}`);
    if (code === 2 && err.trim().split('\n').length !== 1) fail(`said ${err}`);
    held = found ?? held;
  }
  await writer.write(writer.sets[0], folder);
  if (leftoversIn(folder).length > 0) faults.push(`left for good: ${leftoversIn(folder).join(', ')}`);
  process.stdout.write(`${runs} ${writer.what}, each of ${steps} steps, seed ${values.seed}\n`);
  for (const [what, times] of [...counts].sort()) process.stdout.write(`${String(times).padStart(6)}  ${what}\n`);
  return faults;
}

const faults = [
  ...(await breakOff(outputsAlone, Number(values.runs))),
  ...(await breakOff(reviews(), Number(values.reviews))),
];
process.stdout.write(`${faults.length} faults\n${faults.map((fault) => `${fault}\n`).join('')}`);
rmSync(root, { recursive: true, force: true });
process.exitCode = faults.length > 0 ? 1 : 0;
