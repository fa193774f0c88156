/**
 * Threads that do runs until all are done; one that hangs or dies is replaced, and its run is named.
 *
 * Runs read files where they are, since threads of their own cost several times as much. So a run that is late is done again
 * with the program's own reader, which ends what never ends in web-ifc; what is late then too is a hang.
 */
import { Worker } from 'node:worker_threads';
import type { Shares } from './buildings.js';
import type { Outcome, Task } from './run-one.js';

export interface Ended extends Omit<Outcome, 'end'> {
  readonly end: Outcome['end'] | 'hang';
}

export interface FuzzOptions {
  readonly runs: number;
  /** Runs are numbered from here on. */
  readonly seed: number;
  readonly threads: number;
  readonly shares: Shares;
  readonly onEnd?: (ended: Ended, done: number) => void;
}

/** Of one run; most take tenths, the slowest some seconds, on a busy machine many times as long. */
const LATE_SECONDS = 60;
const HANG_SECONDS = 300;
/** web-ifc's memory of each run is let go late, so threads are renewed. */
const RUNS_OF_A_THREAD = 400;

export interface Summary {
  readonly runs: number;
  readonly seconds: number;
  readonly ends: { readonly [E in Ended['end']]: number };
  readonly passes: number;
  readonly reread: number;
  readonly faults: readonly Ended[];
}

export async function fuzz({ runs, seed, threads, shares, onEnd = () => {} }: FuzzOptions): Promise<Summary> {
  const begun = performance.now();
  const ends = { reviewed: 0, refused: 0, stopped: 0, crash: 0, 'false pass': 0, hang: 0 };
  const faults: Ended[] = [];
  let [next, done, passes, reread] = [0, 0, 0, 0];
  const note = (ended: Ended): void => {
    ends[ended.end]++;
    passes += ended.passes;
    reread += ended.reread;
    if (ended.end === 'crash' || ended.end === 'hang' || ended.end === 'false pass') faults.push(ended);
    onEnd(ended, ++done);
  };
  const thread = async (): Promise<void> => {
    while (next < runs) {
      const worker = started(shares);
      for (let n = 0; n < RUNS_OF_A_THREAD && next < runs; n++) {
        const task = { seed: seed + next++, isWatched: false };
        const ended = await ask(worker, task, LATE_SECONDS);
        if (ended.end === 'hang') await worker.terminate();
        note(ended.end === 'hang' ? await again(task.seed, shares) : ended);
        if (ended.what === '') break;
      }
      await worker.terminate();
    }
  };
  await Promise.all(Array.from({ length: threads }, thread));
  const seconds = (performance.now() - begun) / 1000;
  return { runs: done, seconds, ends, passes, reread, faults };
}

const started = (shares: Shares): Worker =>
  new Worker(new URL('./worker.js', import.meta.url), { workerData: shares, stdout: true, stderr: true });

async function again(seed: number, shares: Shares): Promise<Ended> {
  const worker = started(shares);
  const ended = await ask(worker, { seed, isWatched: true }, HANG_SECONDS);
  await worker.terminate();
  return ended;
}

function ask(worker: Worker, task: Task, seconds: number): Promise<Ended> {
  const { seed } = task;
  return new Promise((resolve) => {
    const none = { seed, what: '', passes: 0, reread: 0 };
    const settle = (ended: Ended): void => {
      clearTimeout(timer);
      worker.off('message', settle).off('error', onError).off('exit', onExit);
      resolve(ended);
    };
    const onError = (error: Error): void =>
      settle({ ...none, end: 'crash', detail: `its thread died: ${error.message}` });
    const onExit = (code: number): void => settle({ ...none, end: 'crash', detail: `its thread ended with ${code}` });
    const timer = setTimeout(
      () => settle({ ...none, end: 'hang', detail: `took longer than ${seconds} s` }),
      seconds * 1000,
    );
    worker.on('message', settle).on('error', onError).on('exit', onExit);
    worker.postMessage(task);
  });
}
