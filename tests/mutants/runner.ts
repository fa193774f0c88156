/**
 * Runs each test as it is, and then again for every drawn mutant whose code it ran and that still lives.
 * Nothing is loaded twice: a mutant is a switch in the loaded code. What happens is told line by line, since a mutant may never end.
 */
import fc from 'fast-check';
import { inject, TestRunner } from 'vitest';
import { type Task, type Told, tell } from './told.js';

declare module 'vitest' {
  interface ProvidedContext {
    task: Task;
  }
}

/** What instrumented code reads and counts, as the library lays it down. */
interface Switches {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number | undefined;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}
const place = globalThis as { __stryker__?: Switches };
place.__stryker__ ??= {};
const switches = place.__stryker__;

/** A loop that runs so many times as often as it should does not end. */
const MORE_LOOPS = 100;
/** Processor time after which a mutant is given up, as a multiple of what the test takes, and at least, ms. */
const MORE_TIME = 20;
const LEAST_TIME = 10_000;

// Whether it fails is asked, not the smallest example that does.
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });

type TestCase = Parameters<TestRunner['onAfterRunTask']>[0];

export default class MutantRunner extends TestRunner {
  #task = inject('task');
  #alive = new Set(this.#task.alive);
  #spent = new Map<string, number>();

  async runTask(test: TestCase): Promise<void> {
    const run = TestRunner.getTestFn(test);
    if (this.#alive.size === 0) return run();
    switches.currentTestId = test.id;
    const before = processorTime();
    try {
      await run();
    } catch (error) {
      this.#tell({ what: 'failed', test: test.fullName, error: String(error) });
      throw error;
    } finally {
      switches.currentTestId = undefined;
    }
    const cost = processorTime() - before;
    for (const [mutant, hits] of Object.entries(switches.mutantCoverage?.perTest[test.id] ?? {}))
      if (this.#alive.has(mutant)) await this.#try(mutant, hits, test, run, cost);
  }

  async #try(mutant: string, hits: number, test: TestCase, run: () => unknown, cost: number): Promise<void> {
    const spent = this.#spent.get(mutant) ?? 0;
    const of = { mutant, test: test.fullName };
    if (spent + cost > this.#task.budget) return this.#tell({ ...of, what: 'tooDear' });
    this.#tell({ ...of, what: 'started', limit: Math.max(LEAST_TIME, MORE_TIME * cost) });
    Object.assign(switches, { activeMutant: mutant, hitCount: 0, hitLimit: MORE_LOOPS * (hits + 1) });
    const before = processorTime();
    const killed = await Promise.resolve()
      .then(run)
      .then(
        () => false,
        () => true,
      );
    Object.assign(switches, { activeMutant: undefined, hitCount: undefined });
    const took = processorTime() - before;
    this.#spent.set(mutant, spent + took);
    if (killed) this.#alive.delete(mutant);
    this.#tell({ ...of, what: killed ? 'killed' : 'survived' });
  }

  override async onAfterRunSuite(suite: Parameters<TestRunner['onAfterRunSuite']>[0]): Promise<void> {
    await super.onAfterRunSuite(suite);
    if (!('filepath' in suite)) return;
    const mutants = Object.keys(switches.mutantCoverage?.static ?? {});
    if (switches.mutantCoverage) switches.mutantCoverage.static = {};
    this.#tell({ what: 'loaded', mutants });
    this.#tell({ what: 'done', file: String(suite.filepath) });
  }

  #tell(told: Told): void {
    tell(this.#task.told, told);
  }
}

function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
