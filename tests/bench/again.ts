/**
 * `npm run bench:again [models...]`: what it costs to check again. Processor time, so that it may be read on a machine that has
 * other things to do; models are those that are named, else two copies of the demo building.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { foundStore } from '../../src/platform/found-store.js';
import { packageRoot } from '../../src/platform/package-root.js';
import { programVersions } from '../../src/platform/program-versions.js';
import { workerReader } from '../../src/platform/worker-reader.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { readFilesBy } from '../../src/read/read-files.js';
import { findAll } from '../../src/review/found.js';
import { findingUnder } from '../../src/review/review.js';
import { constructionRows, judgeChecks, KeptCases, loadRules, type RuleSet } from '../../src/rules/index.js';
import { processorTime } from './demo.js';

const say = (what: string, milliseconds: number, beside = ''): void =>
  void process.stdout.write(`${what.padEnd(66)}${milliseconds.toFixed(0).padStart(8)} ms  ${beside}\n`);

async function timed<T>(
  what: string,
  work: () => T | Promise<T>,
  beside: (result: T) => string = () => '',
): Promise<T> {
  const before = processorTime();
  const result = await work();
  say(what, processorTime() - before, beside(result));
  return result;
}

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;

const encoder = new TextEncoder();
const named = process.argv.slice(2).map((path): ModelInput => ({ name: basename(path), bytes: readFileSync(path) }));
const demo = ['a', 'b'].flatMap((copy) =>
  demoBuilding().files.map(({ name, text }): ModelInput => ({ name: `${copy}-${name}`, bytes: encoder.encode(text) })),
);
const models = named.length > 0 ? named : demo;
const names = readdirSync(join(packageRoot, 'rules')).filter((name) => name.endsWith('.yaml'));
const texts = names.map((file) => ({ file, text: readFileSync(join(packageRoot, 'rules', file), 'utf8') }));
const rules = loadRules(texts);
const constructions = constructionRows(rules);
const reader = workerReader();
const folder = mkdtempSync(join(tmpdir(), 'ratedrun-bench-'));

/** Of a program until it ends, by itself: what its own exit says. */
function timeOf(...args: string[]): number {
  const tell =
    'process.on("exit",()=>{const u=process.cpuUsage();process.stderr.write(String((u.user+u.system)/1000))})';
  const { stderr } = spawnSync(process.execPath, ['--import', `data:text/javascript,${tell}`, ...args]);
  return Number(String(stderr));
}

/** The least of several: what else runs on the machine only adds. */
const least = (work: () => number): number => Math.min(...Array.from({ length: 7 }, work));

try {
  const main = join(packageRoot, 'dist', 'src', 'cli', 'main.js');
  const bare = least(() => timeOf('-e', '0'));
  const help = least(() => timeOf(main, '--help'));
  say('--help over bare node', help - bare, help - bare < 150 ? 'held: under 150 ms' : 'missed: 150 ms');

  const [smallest] = [...models].sort((a, b) => a.bytes.length - b.bytes.length);
  await timed('read the smallest file in a thread of its own', () => reader(smallest!, 'm1', { constructions }));
  await timed(`read ${models.length} files, one after the other`, () => readFilesBy(reader, models, { constructions }));
  const atOnce = availableParallelism();
  await timed(`read them, ${atOnce} at once`, () => readFilesBy(reader, models, { constructions, atOnce }));

  await timed('name the program, its packages and Node', programVersions);
  const store = foundStore(folder, {
    onProblem: (problem) => {
      throw new Error(problem);
    },
  });
  const input = { models, reader, constructions, ...findingUnder({ rules, brief: undefined }) };
  await timed('read and find', () => findAll(input));
  const found = await timed('read, find and keep', () => findAll({ ...input, store }));
  await timed('take what was kept', () => findAll({ ...input, store }));
  for (const kind of ['federation', 'crossings'] as const) {
    const bytes = await timed(
      `${kind} by v8.serialize`,
      () => serialize(found[kind]),
      (b) => megabytes(b.length),
    );
    await timed(`${kind} by v8.deserialize`, () => deserialize(bytes));
    const text = await timed(
      `${kind} by JSON.stringify`,
      () => JSON.stringify(found[kind]),
      (t) => megabytes(t.length),
    );
    await timed(`${kind} by JSON.parse`, () => JSON.parse(text) as unknown);
  }

  const { crossings, federation } = found;
  const kept = new KeptCases();
  const judged = (set: RuleSet) => judgeChecks(crossings, set, { models: federation.models, kept });
  await timed(`judge ${crossings.penetrations.length} penetrations for the first time`, () => judged(rules));
  for (const limit of [40, 30, 20]) {
    const changed = texts.map((one) =>
      one.file === 'common-practice.yaml'
        ? { ...one, text: one.text.replaceAll('atMost: 50', `atMost: ${limit}`) }
        : one,
    );
    const set = await timed(`load the rules with one document changed (${limit})`, () => loadRules(changed));
    await timed('judge again under it', () => judged(set));
  }
} finally {
  rmSync(folder, { recursive: true });
}
