/** The reader for Node: every file in a worker of its own, ended when it takes too long. To cancel is to end the worker. */
import { Worker } from 'node:worker_threads';
import { InputError } from '../read/container.js';
import type { FileReader } from '../read/file-reader.js';
import { READER_MEMORY, type TimeLimits, timeLimitsFor } from '../read/limits.js';
import type { FileModel } from '../read/read-file.js';
import { DONE, modelIn, type ReadAnswer, type ReadTask } from '../read/read-task.js';
import { ReaderStopped, withoutStoppers } from '../read/stoppers.js';

/**
 * @param signal ends the worker that is reading, and every later one
 * @param limitsFor seconds by the size of the file, bytes
 */
export const workerReader =
  (signal?: AbortSignal, limitsFor: (bytes: number) => TimeLimits = timeLimitsFor): FileReader =>
  (input, model, guidance) =>
    withoutStoppers((stoppers) => {
      const at = new Int32Array(new SharedArrayBuffer(4));
      return readInWorker({ input, model, guidance, stoppers, at }, limitsFor(input.bytes.length), signal);
    });

function readInWorker(task: ReadTask & { readonly at: Int32Array }, limits: TimeLimits, signal?: AbortSignal) {
  return new Promise<FileModel>((resolve, reject) => {
    // Silent streams: whatever a library prints must not get between the lines of a report on stdout.
    const worker = new Worker(new URL('./read-worker.js', import.meta.url), {
      workerData: task,
      stdout: true,
      stderr: true,
      resourceLimits: { maxOldGenerationSizeMb: READER_MEMORY },
    });
    const stop = (): void => void worker.terminate();
    signal?.addEventListener('abort', stop, { once: true });
    const settle = (done: () => void): void => {
      signal?.removeEventListener('abort', stop);
      endWatch();
      done();
      stop();
    };
    const stopped = (why: string): void =>
      settle(() => reject(new ReaderStopped(why, Math.max(0, Atomics.load(task.at, 0)))));
    const endWatch = watch(task.at, limits, stopped);
    worker.once('message', (answer: ReadAnswer) => settle(() => resolve(Promise.resolve(answer).then(modelIn))));
    worker.once('error', ({ message }) => stopped(message.replace(/\s+/g, ' ')));
    worker.once('exit', () =>
      signal?.aborted ? settle(() => reject(new InputError('was not read: cancelled'))) : stopped('it ended early'),
    );
  });
}

const TICKS_A_SECOND = 4;

/**
 * Counts ticks instead of reading a clock, so that the time for which this thread or the whole machine stands still is
 * not taken for the worker's.
 */
function watch(at: Int32Array, { elementSeconds, fileSeconds }: TimeLimits, late: (why: string) => void): () => void {
  let [ticks, ticksAtElement, element] = [0, 0, 0];
  const timer = setInterval(() => {
    const now = Atomics.load(at, 0);
    ticksAtElement = now === element ? ticksAtElement + 1 : 0;
    element = now;
    ticks++;
    if (element === DONE) return;
    if (element > 0 && ticksAtElement > elementSeconds * TICKS_A_SECOND)
      late(`it takes longer than ${elementSeconds} s`);
    else if (ticks > fileSeconds * TICKS_A_SECOND) late(`it takes longer than ${fileSeconds} s`);
  }, 1000 / TICKS_A_SECOND);
  return () => clearInterval(timer);
}
