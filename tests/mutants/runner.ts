/**
 * Runs every test as it is, and when all have run, again for each drawn mutant that lives and whose code the test ran, those first
 * that are likely to notice it soon. Nothing is loaded twice: a mutant is a switch in the loaded code.
 */
import fc from 'fast-check';
import { inject, TestRunner } from 'vitest';
import { letGoOfKept } from '../../src/collect.js';
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
interface Tried {
  readonly run: Run;
  readonly ran: Ran;
  readonly file: string;
  /** Mutants that it was run for, and how many of them it noticed. */
  tried: number;
  killed: number;
}
type TestCase = Parameters<TestRunner['onAfterRunTask']>[0];

// A runner is made for each file; what they learn is kept here.
const task = inject('task');
const known = new Map(task.ran.map((ran) => [ran.test, ran]));
const alive = new Set(task.alive);
const tests: Tried[] = [];
let files = 0;
const say = (told: Told) => tell(task.told, told);

export default class MutantRunner extends TestRunner {
  async runTask(test: TestCase): Promise<void> {
    const run: Run = TestRunner.getTestFn(test);
    if (alive.size === 0) return void (await run());
    const name = `${test.file.name} ${test.id}`;
    const ran = known.get(name) ?? (await asItIs(run, name));
    tests.push({ run, ran, file: test.file.name, tried: 0, killed: 0 });
  }

  override async onAfterRunSuite(suite: Parameters<TestRunner['onAfterRunSuite']>[0]): Promise<void> {
    await super.onAfterRunSuite(suite);
    if (!('filepath' in suite)) return;
    say({ what: 'loaded', mutants: Object.keys(switches.mutantCoverage?.static ?? {}) });
    files++;
    if (files < task.files) return;
    for (const mutant of alive) await tryMutant(mutant);
    say({ what: 'done' });
  }
}

async function tryMutant(mutant: string): Promise<void> {
  const left = new Set(tests.filter(({ ran }) => ran.hits[mutant] !== undefined));
  const missedBy = new Map<string, number>();
  const worthOf = (test: Tried) => worth(test) / 2 ** (missedBy.get(test.file) ?? 0);
  let budget = task.budget;
  while (left.size > 0 && alive.has(mutant)) {
    const next = [...left].reduce((a, b) => (worthOf(b) > worthOf(a) ? b : a));
    left.delete(next);
    if (next.ran.cost > budget) {
      say({ what: 'tooDear', mutant, test: next.ran.test });
      for (const test of left) if (test.ran.cost > budget) left.delete(test);
      continue;
    }
    budget -= await mutated(mutant, next);
    // Tests of one file look at the same things: what one did not notice the others hardly will.
    missedBy.set(next.file, (missedBy.get(next.file) ?? 0) + 1);
  }
}

/** Tests of little notice what is wrong with it sooner than those of much; and some look closer than others. */
const worth = ({ ran: { cost, hits }, tried, killed }: Tried): number =>
  (killed + 1) / (tried + 2) / ((cost + 1) * Object.keys(hits).length);

async function asItIs(run: Run, test: string): Promise<Ran> {
  // What an earlier test had worked out this one would not run.
  letGoOfKept();
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

/** @returns processor time, ms */
async function mutated(mutant: string, one: Tried): Promise<number> {
  const { test, cost, hits } = one.ran;
  // Nor would a mutant change it.
  letGoOfKept();
  const before = processorTime();
  say({ what: 'started', mutant, test, limit: Math.max(LEAST_TIME, MORE_TIME * cost) });
  Object.assign(switches, { activeMutant: mutant, hitCount: 0, hitLimit: MORE_LOOPS * (hits[mutant]! + 1) });
  const killed = await Promise.resolve()
    .then(one.run)
    .then(
      () => false,
      () => true,
    );
  Object.assign(switches, { activeMutant: undefined, hitCount: undefined });
  one.tried++;
  if (killed) {
    one.killed++;
    alive.delete(mutant);
  }
  say({ what: killed ? 'killed' : 'survived', mutant, test });
  return processorTime() - before;
}

function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
