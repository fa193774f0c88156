/** Reads a file in this very thread. */
import { unpack } from './container.js';
import type { FileReader } from './file-reader.js';
import { readFile } from './read-file.js';

/** @param wasm where web-ifc's wasm file is; beside its script when left out */
export const readingHere =
  (wasm?: string): FileReader =>
  async (input, model, guidance) =>
    readFile(unpack(input.name, input.bytes), model, { ...guidance, ...(wasm !== undefined && { wasm }) });

export const readHere: FileReader = readingHere();
