/** One file to be read somewhere else, and what comes back: what a worker of any platform is sent, and answers. */
import { InputError } from './container.js';
import type { Guidance, ModelInput } from './file-reader.js';
import type { FileModel } from './read-file.js';
import { readingHere } from './read-here.js';

export interface ReadTask {
  readonly input: ModelInput;
  readonly model: string;
  readonly guidance: Guidance | undefined;
}
export type ReadAnswer = { readonly model: FileModel } | { readonly inputError: string };

/**
 * @param wasm where web-ifc's wasm file is; beside its script when left out
 * @throws what is no fault of the file
 */
export async function answerTo({ input, model, guidance }: ReadTask, wasm?: string): Promise<ReadAnswer> {
  try {
    return { model: await readingHere(wasm)(input, model, guidance) };
  } catch (error) {
    if (error instanceof InputError) return { inputError: error.message };
    throw error;
  }
}
