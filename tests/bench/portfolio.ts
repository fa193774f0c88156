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
const WALLS = 5;

/** Wall-clock: what is asked is how long people wait. */
interface PortfolioTimes {
  readonly oneWorker: number;
  readonly twoWorkers: number;
  /** ms for each of 40 jobs that were done before, at the queue, less the same on threads of this machine. */
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
    const list = writeList(folder);
    const run = async (out: string, ...more: string[]): Promise<number> => {
      const start = performance.now();
      const ran = spawn(process.execPath, [MAIN, 'portfolio', list, '--out', join(folder, out), '--quiet', ...more], {
        stdio: 'ignore',
      });
      await event(ran, 'exit');
      return performance.now() - start;
    };
    const addWorker = async (): Promise<void> => {
      const worker = spawn(process.execPath, [MAIN, 'worker', '--redis', REDIS, '--threads', '1']);
      workers.push(worker);
      await event(worker.stdout, 'data');
      worker.stdout.resume();
    };
    await addWorker();
    await run('warm', '--redis', REDIS);
    const oneWorker = await run('one', '--redis', REDIS);
    const queued = await run('one', '--redis', REDIS);
    await addWorker();
    await run('warm-2', '--redis', REDIS);
    const twoWorkers = await run('two', '--redis', REDIS);
    const here = await run('one', '--threads', '1');
    return { oneWorker, twoWorkers, queueCost: (queued - here) / JOBS };
  } finally {
    for (const child of [...workers, server]) child.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

function writeList(folder: string): string {
  const b = new ModelBuilder({ fileName: 'row.ifc' });
  for (let i = 0; i < WALLS; i++) b.wall({ ...WALL, name: `Wall ${i}`, from: [0, 2000 * i], to: [5000, 2000 * i] });
  b.duct({ ...DUCT, to: [3000, 2000 * WALLS, 2000] });
  writeFileSync(join(folder, 'row.ifc'), b.toString());
  const jobs = Array.from({ length: JOBS }, (_, i) => `  - { name: job-${i}, models: [row.ifc] }\n`);
  const list = join(folder, 'list.yaml');
  writeFileSync(list, `kind: portfolio\nid: bench\njobs:\n${jobs.join('')}`);
  return list;
}
