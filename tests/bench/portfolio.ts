/** A list of 40 jobs by one worker and by two, and what the queue itself costs; needs `redis-server`. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once as event } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { packageRoot } from '../../src/platform/package-root.js';

const MAIN = join(packageRoot, 'dist', 'src', 'cli', 'main.js');
const PORT = 6399;
const REDIS = `redis://127.0.0.1:${PORT}`;
const JOBS = 40;
const WALLS = 12;
/** Jobs that are dead at once, few and many: what one more of them takes is what handing it out takes. */
const DEAD = [40, 440] as const;

/** Wall-clock: what is asked is how long people wait. */
interface PortfolioTimes {
  readonly oneWorker: number;
  readonly twoWorkers: number;
  /** ms that one more job takes at the queue, less what it takes on threads of this machine. */
  readonly queueCost: number;
}

/** Undefined: there is no redis-server. */
export async function portfolioTimes(): Promise<PortfolioTimes | undefined> {
  if (spawnSync('redis-server', ['--version']).status !== 0) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'ratedrun-bench-'));
  const server = spawn(
    'redis-server',
    ['--port', String(PORT), '--bind', '127.0.0.1', '--save', '', '--appendonly', 'no'],
    {
      stdio: 'ignore',
    },
  );
  const workers: ChildProcess[] = [];
  try {
    await new Promise((go) => setTimeout(go, 1000));
    const list = writeList(folder, 'list', 'row.ifc', JOBS);
    const warm = writeList(folder, 'warm', 'row.ifc', 4);
    const dead = DEAD.map((jobs) => writeList(folder, `dead-${jobs}`, 'nothing.ifc', jobs));
    const run = async (of: string, out: string, ...more: string[]): Promise<number> => {
      const start = performance.now();
      const args = ['portfolio', of, '--out', join(folder, out), '--quiet', ...more];
      await event(spawn(process.execPath, [MAIN, ...args], { stdio: 'ignore' }), 'exit');
      return performance.now() - start;
    };
    const oneMore = async (...more: string[]): Promise<number> => {
      const [few, many] = [await run(dead[0]!, 'few', ...more), await run(dead[1]!, 'many', ...more)];
      return (many - few) / (DEAD[1] - DEAD[0]);
    };
    const addWorker = async (): Promise<void> => {
      const worker = spawn(process.execPath, [MAIN, 'worker', '--redis', REDIS, '--threads', '1']);
      workers.push(worker);
      await event(worker.stdout, 'data');
      worker.stdout.resume();
    };
    await addWorker();
    await run(warm, 'warm', '--redis', REDIS);
    const oneWorker = await run(list, 'one', '--redis', REDIS);
    const queueCost = (await oneMore('--redis', REDIS)) - (await oneMore('--threads', '1'));
    await addWorker();
    await run(warm, 'warm-2', '--redis', REDIS);
    const twoWorkers = await run(list, 'two', '--redis', REDIS);
    return { oneWorker, twoWorkers, queueCost };
  } finally {
    for (const child of [...workers, server]) child.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

function writeList(folder: string, id: string, model: string, jobs: number): string {
  const b = new ModelBuilder({ fileName: 'row.ifc' });
  for (let i = 0; i < WALLS; i++) b.wall({ ...WALL, name: `Wall ${i}`, from: [0, 2000 * i], to: [5000, 2000 * i] });
  b.duct({ ...DUCT, to: [3000, 2000 * WALLS, 2000] });
  writeFileSync(join(folder, 'row.ifc'), b.toString());
  const lines = Array.from({ length: jobs }, (_, i) => `  - { name: job-${i}, models: [${model}] }\n`);
  const list = join(folder, `${id}.yaml`);
  writeFileSync(list, `kind: portfolio\nid: ${id}\njobs:\n${lines.join('')}`);
  return list;
}
