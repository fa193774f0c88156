/** The reader for a browser: every file in a worker of its own. It ends with the worker that started it. */
import type { FileReader } from '../../src/read/file-reader.js';
import { timeLimitsFor } from '../../src/read/limits.js';
import type { FileModel } from '../../src/read/read-file.js';
import { modelIn, type ReadAnswer, type ReadTask } from '../../src/read/read-task.js';
import { ReaderStopped, withoutStoppers } from '../../src/read/stoppers.js';

/** @param onRead is told of every file that was read, before anything is made of it */
export function browserReader(onRead: (file: string, model: FileModel) => void): FileReader {
  return async (input, model, guidance) => {
    const read = await withoutStoppers((stoppers) => readInWorker({ input, model, guidance, stoppers }));
    onRead(input.name, read);
    return read;
  };
}

/** Memory is shared only with pages that are isolated, so that nobody sees at which element a worker takes too long. */
function readInWorker(task: ReadTask): Promise<FileModel> {
  const worker = new Worker(new URL('./read-worker.ts', import.meta.url), { type: 'module' });
  const { fileSeconds } = timeLimitsFor(task.input.bytes.length);
  return new Promise<ReadAnswer>((resolve, reject) => {
    const stopped = (why: string): void => reject(new ReaderStopped(why, 0));
    const timer = setTimeout(() => stopped(`it takes longer than ${fileSeconds} s`), fileSeconds * 1000);
    worker.onmessage = ({ data }: MessageEvent<ReadAnswer>) => {
      clearTimeout(timer);
      resolve(data);
    };
    worker.onerror = ({ message }) => {
      clearTimeout(timer);
      stopped(message);
    };
    worker.postMessage(task);
  })
    .then(modelIn)
    .finally(() => worker.terminate());
}
