/** Reads a file in this very thread. */
import { unpack } from './container.js';
import type { FileReader } from './file-reader.js';
import { readFile } from './read-file.js';

export const readHere: FileReader = async (input, model, guidance) =>
  readFile(unpack(input.name, input.bytes), model, guidance);
