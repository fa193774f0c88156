/** The reader for a browser: every file in a worker of its own. It ends with the worker that started it. */
import { InputError } from '../../src/read/container.js';
import { type FileReader, stoppedReader } from '../../src/read/file-reader.js';
import type { FileModel } from '../../src/read/read-file.js';
import type { ReadTask } from '../../src/read/read-task.js';
import type { BrowserAnswer } from './read-worker.js';

/** @param onRead is told of every file that was read, before anything is made of it */
export function browserReader(onRead: (file: string, model: FileModel) => void): FileReader {
  return (input, model, guidance) =>
    new Promise<FileModel>((resolve, reject) => {
      const worker = new Worker(new URL('./read-worker.ts', import.meta.url), { type: 'module' });
      worker.onmessage = ({ data }: MessageEvent<BrowserAnswer>) => {
        worker.terminate();
        if ('stopped' in data) return reject(stoppedReader(data.stopped));
        if ('inputError' in data) return reject(new InputError(data.inputError));
        onRead(input.name, data.model);
        resolve(data.model);
      };
      worker.onerror = ({ message }) => {
        worker.terminate();
        reject(stoppedReader(message));
      };
      worker.postMessage({ input, model, guidance } satisfies ReadTask);
    });
}
