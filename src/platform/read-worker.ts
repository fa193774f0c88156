/** Reads one file in a thread of its own, which is thrown away with web-ifc's heap and whatever a bad file did to it. */
import { parentPort, workerData } from 'node:worker_threads';
import { InputError } from '../read/container.js';
import type { Guidance, ModelInput } from '../read/file-reader.js';
import type { FileModel } from '../read/read-file.js';
import { readHere } from '../read/read-here.js';

export interface ReadTask {
  readonly input: ModelInput;
  readonly model: string;
  readonly guidance: Guidance | undefined;
}
export type ReadAnswer = { readonly model: FileModel } | { readonly inputError: string };

const { input, model, guidance } = workerData as ReadTask;
const answer: ReadAnswer = await readHere(input, model, guidance).then(
  (read) => ({ model: read }),
  (error: unknown) => {
    if (error instanceof InputError) return { inputError: error.message };
    throw error; // becomes the worker's error event
  },
);
parentPort!.postMessage(answer);
