/** The reader for Node: every file in a worker of its own. To cancel is to end the worker. */
import { Worker } from 'node:worker_threads';
import { InputError } from '../read/container.js';
import { type FileReader, stoppedReader } from '../read/file-reader.js';
import type { FileModel } from '../read/read-file.js';
import type { ReadAnswer, ReadTask } from '../read/read-task.js';

/** @param signal ends the worker that is reading, and every later one */
export function workerReader(signal?: AbortSignal): FileReader {
  return (input, model, guidance) =>
    new Promise<FileModel>((resolve, reject) => {
      const workerData: ReadTask = { input, model, guidance };
      // Silent streams: whatever a library prints must not get between the lines of a report on stdout.
      const worker = new Worker(new URL('./read-worker.js', import.meta.url), {
        workerData,
        stdout: true,
        stderr: true,
      });
      const stop = (): void => void worker.terminate();
      signal?.addEventListener('abort', stop, { once: true });
      const settle = (done: () => void): void => {
        signal?.removeEventListener('abort', stop);
        done();
        stop();
      };
      worker.once('message', (answer: ReadAnswer) =>
        settle(() => ('model' in answer ? resolve(answer.model) : reject(new InputError(answer.inputError)))),
      );
      worker.once('error', (error) => settle(() => reject(stoppedReader(error.message))));
      worker.once('exit', () =>
        settle(() =>
          reject(new InputError(signal?.aborted ? 'was not read: cancelled' : 'was not read: its reader ended early')),
        ),
      );
    });
}
