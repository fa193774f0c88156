/** One file to be read somewhere else, and what comes back: what a worker of any platform is sent, and answers. */
import { InputError, unpack } from './container.js';
import type { ModelInput } from './file-reader.js';
import { type FileModel, readFile } from './read-file.js';
import type { Guidance } from './source.js';
import { ReaderStopped, type Stoppers } from './stoppers.js';

export interface ReadTask {
  readonly input: ModelInput;
  readonly model: string;
  readonly guidance: Guidance | undefined;
  readonly stoppers: Stoppers;
  /** Shared memory of one number, the element that is being read ({@link NO_ELEMENT}, {@link DONE}); left out: nobody looks. */
  readonly at?: Int32Array;
}
export type ReadAnswer =
  | { readonly model: FileModel }
  | { readonly inputError: string }
  | { readonly stopped: string; readonly element: number };

export const NO_ELEMENT = 0;
export const DONE = -1;

/**
 * @param wasm where web-ifc's wasm file is; beside its script when left out
 * @throws what is no fault of the file
 */
export async function answerTo(task: ReadTask, wasm?: string): Promise<ReadAnswer> {
  const { input, model, guidance, stoppers, at } = task;
  const onElement = (id: number): void => void (at && Atomics.store(at, 0, id));
  try {
    const step = unpack(input.name, input.bytes);
    const options = { ...guidance, stoppers, onElement, ...(wasm !== undefined && { wasm }) };
    return { model: await readFile(step, model, options) };
  } catch (error) {
    if (error instanceof InputError) return { inputError: error.message };
    if (error instanceof ReaderStopped) return { stopped: error.why, element: error.element };
    throw error;
  } finally {
    onElement(DONE);
  }
}

/** @throws InputError, ReaderStopped */
export function modelIn(answer: ReadAnswer): FileModel {
  if ('model' in answer) return answer.model;
  throw 'inputError' in answer ? new InputError(answer.inputError) : new ReaderStopped(answer.stopped, answer.element);
}
