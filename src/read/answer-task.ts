/** What a worker does with the file that it is sent. */
import { InputError, unpack } from './container.js';
import { readFile } from './read-file.js';
import { DONE, type ReadAnswer, type ReadTask } from './read-task.js';
import { ReaderStopped } from './stoppers.js';

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
