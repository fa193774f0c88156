/** Tries mutants: all of them in one run of the tests, and those that only loading runs each in a run of its own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { packageRoot } from '../../src/platform/package-root.js';
import type { Instrumented } from './instrument.js';
import type { Job } from './session.js';
import { heard, type Ran, type Told } from './told.js';

/**
 * `tooDear`: it survived, but not all tests that run it were tried, since they take more than the budget;
 * `loading`: only loading runs it, and it was not tried.
 */
export type Fate = 'killed' | 'timeout' | 'survived' | 'tooDear' | 'notRun' | 'loading';
type Failed = Extract<Told, { what: 'failed' }>;

export function tryAll(
  { code, mutants }: Instrumented,
  tests: readonly string[],
  { budget, loading }: { readonly budget: number; readonly loading: boolean },
): { readonly fates: ReadonlyMap<string, Fate>; readonly failed: readonly Failed[] } {
  const folder = mkdtempSync(join(tmpdir(), 'ratedrun-mutants-'));
  const told = join(folder, 'told.jsonl');
  const fates = new Map<string, Fate>(mutants.map(({ id }) => [id, 'notRun']));
  const failed: Failed[] = [];
  const ran: Ran[] = [];
  const loaded = new Set<string>();
  const alive = () => [...fates].filter(([, fate]) => fate !== 'killed' && fate !== 'timeout').map(([id]) => id);

  /**
   * @param mutant the one that is on while files load, if one is
   * @returns the exit code of a run of the tests, which ended by itself or with a mutant that didn't; and what it told
   */
  const run = (mutant: string | null) => {
    rmSync(told, { force: true });
    const file = join(folder, 'job.json');
    const task = { told, budget, ran, files: tests.length, alive: mutant === null ? alive() : [] };
    writeFileSync(file, JSON.stringify({ code, tests, task, loading: mutant } satisfies Job));
    const env = { ...process.env, __STRYKER_ACTIVE_MUTANT__: mutant ?? '' };
    const session = join(packageRoot, 'dist/tests/mutants/session.js');
    // A test that runs again listens again for the end of the run.
    const quiet = '--disable-warning=MaxListenersExceededWarning';
    const { status } = spawnSync(process.execPath, [quiet, session, file], { stdio: ['ignore', 2, 2], env });
    return { status, events: heard(told) };
  };

  for (let ended = false; !ended; ) {
    const { events } = run(null);
    for (const event of events) {
      if (event.what === 'failed') failed.push(event);
      else if (event.what === 'ran') ran.push(event);
      else if (event.what === 'loaded') for (const id of event.mutants) loaded.add(id);
      else if ('mutant' in event && event.what !== 'started')
        if (event.what !== 'survived' || fates.get(event.mutant) !== 'tooDear') fates.set(event.mutant, event.what);
    }
    const last = events.at(-1)?.what;
    ended = last === 'done';
    if (!ended && last !== 'timeout') throw new Error('The tests did not run to their end.');
  }
  for (const id of alive()) {
    if (!loaded.has(id) || fates.get(id) !== 'notRun') continue;
    fates.set(id, loading ? fateOf(run(id)) : 'loading');
  }
  rmSync(folder, { recursive: true });
  return { fates, failed };
}

/** Of a mutant that had a run of its own: one whose tests take more than the budget survives. */
const fateOf = ({ status, events }: { readonly status: number | null; readonly events: readonly Told[] }): Fate =>
  status === 0 || events.at(-1)?.what === 'timeout' ? 'survived' : 'killed';
