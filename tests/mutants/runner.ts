/**
 * Runs every test as it is, and when all have run, those first that are cheap and run little, again for each drawn mutant that lives and whose code
 * the test ran. Nothing is loaded twice: a mutant is a switch in the loaded code.
 */
import fc from 'fast-check';
import { inject, TestRunner } from 'vitest';
import { type Ran, type Task, type Told, tell } from './told.js';

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

type Run = () => unknown;
type TestCase = Parameters<TestRunner['onAfterRunTask']>[0];

// A runner is made for each file; what they learn is kept here.
const task = inject('task');
const known = new Map(task.ran.map((ran) => [ran.test, ran]));
const alive = new Set(task.alive);
const spent = new Map<string, number>();
const tests: { readonly run: Run; readonly ran: Ran }[] = [];
let files = 0;
const say = (told: Told) => tell(task.told, told);

export default class MutantRunner extends TestRunner {
  async runTask(test: TestCase): Promise<void> {
    const run: Run = TestRunner.getTestFn(test);
    if (alive.size === 0) return void (await run());
    const name = `${test.file.name} ${test.id}`;
    const ran = known.get(name) ?? (await asItIs(run, name));
    tests.push({ run, ran });
  }

  override async onAfterRunSuite(suite: Parameters<TestRunner['onAfterRunSuite']>[0]): Promise<void> {
    await super.onAfterRunSuite(suite);
    if (!('filepath' in suite)) return;
    say({ what: 'loaded', mutants: Object.keys(switches.mutantCoverage?.static ?? {}) });
    files++;
    if (files < task.files) return;
    for (const { run, ran } of tests.sort((a, b) => price(a.ran) - price(b.ran)))
      for (const [mutant, hits] of Object.entries(ran.hits))
        if (alive.has(mutant)) await mutated(mutant, hits, run, ran);
    say({ what: 'done' });
  }
}

/** Tests of little notice what is wrong with it sooner than those of much. */
const price = ({ cost, hits }: Ran) => cost * Object.keys(hits).length;

async function asItIs(run: Run, test: string): Promise<Ran> {
  switches.currentTestId = test;
  const before = processorTime();
  try {
    await run();
  } catch (error) {
    say({ what: 'failed', test, error: String(error) });
    throw error;
  } finally {
    switches.currentTestId = undefined;
  }
  const ran: Ran = { test, cost: processorTime() - before, hits: switches.mutantCoverage?.perTest[test] ?? {} };
  say({ what: 'ran', ...ran });
  return ran;
}

async function mutated(mutant: string, hits: number, run: Run, { test, cost }: Ran): Promise<void> {
  const before = processorTime();
  const already = spent.get(mutant) ?? 0;
  if (already + cost > task.budget) return say({ what: 'tooDear', mutant, test });
  say({ what: 'started', mutant, test, limit: Math.max(LEAST_TIME, MORE_TIME * cost) });
  Object.assign(switches, { activeMutant: mutant, hitCount: 0, hitLimit: MORE_LOOPS * (hits + 1) });
  const killed = await Promise.resolve()
    .then(run)
    .then(
      () => false,
      () => true,
    );
  Object.assign(switches, { activeMutant: undefined, hitCount: undefined });
  spent.set(mutant, already + processorTime() - before);
  if (killed) alive.delete(mutant);
  say({ what: killed ? 'killed' : 'survived', mutant, test });
}

function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
