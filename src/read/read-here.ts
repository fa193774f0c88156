/** Reads a file in this very thread. */
import { unpack } from './container.js';
import type { FileReader } from './file-reader.js';
import { readFile } from './read-file.js';
import { withoutStoppers } from './stoppers.js';

export const readHere: FileReader = async (input, model, guidance) => {
  const step = unpack(input.name, input.bytes);
  return withoutStoppers((stoppers) => readFile(step, model, { ...guidance, stoppers }));
};
