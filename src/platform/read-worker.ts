/** Reads one file in a thread of its own, which is thrown away with web-ifc's heap and whatever a bad file did to it. */
import { parentPort, workerData } from 'node:worker_threads';
import type { ProjectFacts } from '../model.js';
import { InputError } from '../read/container.js';
import type { ModelInput } from '../read/file-reader.js';
import type { FileModel } from '../read/read-file.js';
import { readHere } from '../read/read-here.js';

export interface ReadTask {
  readonly input: ModelInput;
  readonly model: string;
  readonly facts: ProjectFacts | undefined;
}
export type ReadAnswer = { readonly model: FileModel } | { readonly inputError: string };

const { input, model, facts } = workerData as ReadTask;
const answer: ReadAnswer = await readHere(input, model, facts).then(
  (read) => ({ model: read }),
  (error: unknown) => {
    if (error instanceof InputError) return { inputError: error.message };
    throw error; // becomes the worker's error event
  },
);
parentPort!.postMessage(answer);
