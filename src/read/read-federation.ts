/** Files in, one federation out, for programs that read in this thread unless they say otherwise. */
import type { Federation } from '../model.js';
import type { FileReader, ModelInput } from './file-reader.js';
import { type ReadFilesOptions, readFilesBy } from './read-files.js';

export interface ReadOptions extends ReadFilesOptions {
  /** Left out: files are read in this thread, one after the other. */
  readonly reader?: FileReader;
}

/**
 * @throws InputError naming the file, what is wrong with it and what to do
 */
export async function readFederation(inputs: readonly ModelInput[], options: ReadOptions = {}): Promise<Federation> {
  // Loaded only where it is used: web-ifc is large, and a program that reads in workers has it there.
  const reader = options.reader ?? (await import('./read-here.js')).readHere;
  return readFilesBy(reader, inputs, options);
}
