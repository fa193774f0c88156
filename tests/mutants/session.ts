/** One run of vitest over instrumented sources, in a process of its own that can be ended: `session.js JOB`, JOB as JSON. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { startVitest } from 'vitest/node';
import { packageRoot } from '../../src/platform/package-root.js';
import type { Mutant } from './instrument.js';
import { heard, type Task, tell } from './told.js';

export interface Job {
  readonly code: Readonly<Record<string, string>>;
  readonly tests: readonly string[];
  readonly task: Task;
  /** The mutant that is on while files load; then each test runs once, and the first that fails ends the run. */
  readonly loading: Mutant['id'] | null;
}

/** A run that loads everything again may take so many times what a mutant may take elsewhere. */
const LOADING = 6;

/** Ends this process, tests and all, when one mutant takes more processor time than its limit. */
function watch(told: string): void {
  let seen = 0;
  let since = 0;
  setInterval(() => {
    const events = heard(told);
    const { user, system } = process.cpuUsage();
    const now = (user + system) / 1000;
    if (events.length !== seen) [seen, since] = [events.length, now];
    const last = events.at(-1);
    if (last?.what !== 'started' || now - since <= last.limit) return;
    const { mutant, test } = last;
    tell(told, { what: 'timeout', mutant, test });
    process.kill(process.pid, 'SIGKILL');
  }, 1000);
}

const job = JSON.parse(readFileSync(process.argv[2]!, 'utf8')) as Job;
const { told, budget } = job.task;
if (job.loading !== null) tell(told, { what: 'started', mutant: job.loading, test: '', limit: LOADING * budget });
watch(told);
const code = new Map(Object.entries(job.code).map(([file, text]) => [join(packageRoot, file), text]));
const vitest = await startVitest(
  'test',
  [...job.tests],
  {
    ...{ root: packageRoot, config: false, include: ['tests/**/*.test.ts'], watch: false, reporters: ['dot'] },
    ...{ pool: 'threads', isolate: false, maxWorkers: 1, runner: 'tests/mutants/runner.ts' },
    // Mutants are timed by what they take of the processor.
    ...{ testTimeout: 0, bail: job.loading === null ? 0 : 1, provide: { task: job.task } },
  },
  {
    plugins: [{ name: 'mutants', enforce: 'pre', load: (id: string) => code.get(id.split('?')[0]!) }],
  },
);
await vitest.close();
process.exit();
