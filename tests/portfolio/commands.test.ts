/** Portfolios as people run them: on this machine alone, and by workers at a real Redis, one of which is killed. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import type { Portfolio } from '../../src/portfolio/summary.js';
import { ratedrun, temporaryFolder } from '../cli/program.js';
import { hasRedis, startRedis, stopRedis, waitingIn } from './redis-server.js';

const MAIN = resolve('dist/src/cli/main.js');
const folder = temporaryFolder();
mkdirSync(join(folder, 'models'), { recursive: true });

function writeModel(name: string, walls: number): void {
  const b = new ModelBuilder({ fileName: name });
  for (let i = 0; i < walls; i++) b.wall({ ...WALL, name: `Wall ${i}`, from: [0, 2000 * i], to: [5000, 2000 * i] });
  b.duct({ ...DUCT, to: [3000, 2000 * walls, 2000] });
  writeFileSync(join(folder, 'models', name), b.toString());
}

function writeList(name: string, jobs: readonly string[]): string {
  const path = join(folder, name);
  writeFileSync(
    path,
    `kind: portfolio\nid: ${name.replace('.yaml', '')}\njobs:\n${jobs.map((job) => `  - ${job}\n`).join('')}`,
  );
  return path;
}

const read = (...path: string[]) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));

describe('on this machine', () => {
  writeModel('one.ifc', 1);
  writeModel('two.ifc', 2);
  const list = writeList('harbour.yaml', [
    '{ name: a, project: Quay, revision: A, models: [models/two.ifc] }',
    '{ name: b, project: Quay, revision: B, models: [models/one.ifc], previous: a }',
    '{ name: gone, models: [models/gone.ifc] }',
  ]);
  const run = (...more: string[]) =>
    ratedrun(folder, ['portfolio', list, '--out', 'out', '--json', '--quiet', ...more]);

  it('reviews each, says what is dead and why, and ends with 2 where one is', () => {
    const ran = run();
    expect(ran.err).toMatch(/^ratedrun: gone: .*gone\.ifc does not exist; check the path\.\n$/);
    expect(ran.code).toBe(2);
    const portfolio = JSON.parse(ran.out) as Portfolio;
    // A fault of the input is not tried again.
    expect(portfolio.totals).toMatchObject({ jobs: 3, done: 2, dead: 1, attempts: 3 });
    expect(portfolio.projects[0]!.rows[1]!.trend).toMatchObject({ penetrations: -1 });
    const report = read('out', 'b', 'report.json');
    expect(report.revision).toBe('B');
    // Tags of the revision before stay issued.
    expect(report.issuedTags.length).toBe(2);
    expect(readdirSync(join(folder, 'out', 'a')).sort()).toEqual(['report.json', 'result.json']);
    expect(readFileSync(join(folder, 'out', 'portfolio.html'), 'utf8')).toContain('Not a certification'.slice(4));
  });

  it('does again only what is not done, or whose models are others', () => {
    const at = (job: string) => statSync(join(folder, 'out', job, 'report.json')).mtimeMs;
    const before = [at('a'), at('b')];
    run();
    expect([at('a'), at('b')]).toEqual(before);
    writeModel('one.ifc', 3);
    writeModel('gone.ifc', 1);
    const ran = run();
    expect([ran.code, ran.err]).toEqual([1, '']);
    expect(at('a')).toBe(before[0]);
    expect(at('b')).toBeGreaterThan(before[1]!);
    rmSync(join(folder, 'out', 'a', 'result.json'));
    run();
    expect(at('a')).toBeGreaterThan(before[0]!);
  });

  it('does not do what waits for a dead one', () => {
    const broken = writeList('broken.yaml', [
      '{ name: a, models: [models/nothing.ifc] }',
      '{ name: b, models: [models/one.ifc], previous: a }',
    ]);
    const ran = ratedrun(folder, ['portfolio', broken, '--out', 'broken', '--quiet']);
    expect([ran.code, ran.err.trimEnd().split('\n').length]).toEqual([2, 2]);
    expect(ran.err).toContain('b: the revision before it, a, was not reviewed');
  });

  it.each([
    [['nothing.yaml'], /nothing\.yaml does not exist/],
    [['harbour.yaml', '--redis', 'nowhere'], /--redis nowhere is no address/],
    [['harbour.yaml', '--redis', 'redis://127.0.0.1:1'], /no server answers at redis:\/\/127\.0\.0\.1:1/],
    [['harbour.yaml', '--threads', '0'], /"0" is no number of them/],
  ])('one line and exit 2: %s', (args, line) => {
    const ran = ratedrun(folder, ['portfolio', ...args, '--quiet']);
    expect([ran.code, ran.out, ran.err.trimEnd().split('\n').length]).toEqual([2, '', 1]);
    expect(ran.err).toMatch(line);
  });
});

describe.skipIf(!hasRedis)('by workers at a queue', () => {
  const children: ChildProcess[] = [];
  afterAll(() => {
    stopRedis();
    for (const child of children) child.kill('SIGKILL');
  });

  function start(...args: string[]): { child: ChildProcess; lines: string[]; ended: Promise<number | null> } {
    const child = spawn(process.execPath, [MAIN, ...args], { cwd: folder });
    children.push(child);
    const lines: string[] = [];
    for (const stream of [child.stdout!, child.stderr!])
      stream.on('data', (part: Buffer) => lines.push(...part.toString().split('\n').filter(Boolean)));
    return { child, lines, ended: new Promise((done) => child.once('exit', done)) };
  }

  async function until(is: () => boolean, what: string): Promise<void> {
    for (let i = 0; i < 600; i++) {
      if (is()) return;
      await new Promise((go) => setTimeout(go, 50));
    }
    throw new Error(`waited in vain for ${what}`);
  }

  it('loses no job and doubles none when a worker is killed in the middle of one', { timeout: 180_000 }, async () => {
    const redis = await startRedis();
    writeModel('many.ifc', 12);
    const jobs = Array.from({ length: 8 }, (_, i) => `{ name: job-${i}, models: [models/many.ifc] }`);
    const list = writeList('killed.yaml', [...jobs, '{ name: dead, models: [models/nothing.ifc] }']);
    const worker = () => start('worker', '--redis', redis, '--threads', '1', '--silence', '2');
    const [first, second] = [worker(), worker()];
    await until(() => first.lines.length > 0 && second.lines.length > 0, 'workers');
    const portfolio = start('portfolio', list, '--out', 'killed', '--redis', redis, '--json', '--quiet');
    const begun = () => first.lines.filter((line) => line.includes('begun')).length;
    const ended = () => first.lines.filter((line) => /: done|does not exist/.test(line)).length;
    await until(() => begun() > ended(), 'a job of the first worker');
    first.child.kill('SIGKILL');
    expect(await portfolio.ended).toBe(2);

    const { totals, projects } = read('killed', 'portfolio.json') as Portfolio;
    const rows = projects.flatMap((project) => project.rows);
    expect(totals).toMatchObject({ jobs: 9, done: 8, dead: 1 });
    // What the killed worker had begun was begun once more; nothing else was.
    expect(totals.attempts).toBe(10);
    expect(rows.filter(({ attempts }) => attempts === 2)).toHaveLength(1);
    const results = readdirSync(join(folder, 'killed'), { withFileTypes: true }).filter((one) => one.isDirectory());
    expect(results.map(({ name }) => name).filter((name) => name.startsWith('job-'))).toHaveLength(8);
    for (const i of jobs.keys()) expect(read('killed', `job-${i}`, 'result.json').penetrations).toBe(12);
    const lines = [...first.lines, ...second.lines];
    for (const i of jobs.keys()) expect(lines.filter((line) => line === `job-${i}: done`)).toHaveLength(1);

    // The same again is not done again: the workers find it done.
    const again = start('portfolio', list, '--out', 'killed', '--redis', redis, '--json', '--quiet');
    expect(await again.ended).toBe(2);
    expect(second.lines.filter((line) => line.endsWith('done before'))).toHaveLength(8);
    second.child.kill('SIGTERM');
    expect(await second.ended).toBe(0);
  });

  it('is stopped with one line, and goes on where it was', { timeout: 180_000 }, async () => {
    const redis = await startRedis();
    const list = writeList('stopped.yaml', [
      '{ name: x, models: [models/one.ifc] }',
      '{ name: y, models: [models/two.ifc] }',
    ]);
    const waiting = start('portfolio', list, '--out', 'stopped', '--redis', redis, '--quiet');
    // Nobody works, so only the queue tells that it waits.
    await expect.poll(() => waitingIn(redis, 'ratedrun'), { timeout: 60_000 }).toBe(2);
    waiting.child.kill('SIGINT');
    expect([await waiting.ended, waiting.lines]).toEqual([
      2,
      ['ratedrun: it was stopped; run it again to go on with what is not done yet.'],
    ]);
    start('worker', '--redis', redis, '--threads', '1');
    const resumed = start('portfolio', list, '--out', 'stopped', '--redis', redis, '--quiet');
    expect(await resumed.ended).toBe(1);
    expect(read('stopped', 'portfolio.json').totals).toMatchObject({ jobs: 2, done: 2, dead: 0 });
  });
});
