/** Files in, one federation out. Where each file is read (here, or in a worker) is the reader's business. */
import { compareTexts } from '../collect.js';
import type { Federation } from '../model.js';
import { sha256Of } from '../platform/sha256.js';
import { InputError } from './container.js';
import { type FederatedFile, federate } from './federate.js';
import type { FileReader, ModelInput } from './file-reader.js';
import type { FileModel } from './read-file.js';
import type { Guidance } from './source.js';

export interface ReadFilesOptions extends Guidance {
  /** So many files are read at the same time, the largest first; left out: one. What comes of them is the same. */
  readonly atOnce?: number;
  /** Called when a file has been read. */
  readonly onProgress?: (file: string, done: number, of: number) => void;
}

/** A file in its place among the others. */
export interface NamedInput extends ModelInput {
  readonly id: string;
  readonly sha256: string;
}

/** By name, then content: the order in which files are named on the command line must not matter. */
export async function inOrder(inputs: readonly ModelInput[]): Promise<NamedInput[]> {
  const hashed = await Promise.all(
    inputs.map(async (input) => ({ ...input, sha256: input.sha256 ?? (await sha256Of(input.bytes)) })),
  );
  return hashed
    .sort((a, b) => compareTexts(a.name, b.name) || compareTexts(a.sha256, b.sha256))
    .map((input, i) => ({ ...input, id: `m${i + 1}` }));
}

/**
 * @throws InputError naming the file, what is wrong with it and what to do: of several the first in their order
 */
export async function readFilesBy(
  reader: FileReader,
  inputs: readonly ModelInput[],
  { facts, constructions, atOnce = 1, onProgress }: ReadFilesOptions = {},
): Promise<Federation> {
  const files = await inOrder(inputs);
  const read = new Map<NamedInput, FederatedFile>();
  const faults = new Map<NamedInput, unknown>();
  const waiting = files.toSorted((a, b) => b.bytes.length - a.bytes.length);
  const readOn = async (): Promise<void> => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const file = next;
      // After a fault nobody asks for what comes later in the order; what comes before may have a fault to be named first.
      if (files.slice(0, files.indexOf(file)).some((before) => faults.has(before))) continue;
      try {
        const model = await namingFile(file.name, reader(file, file.id, { facts, constructions }));
        read.set(file, { id: file.id, file: file.name, sha256: file.sha256, model });
        onProgress?.(file.name, read.size, files.length);
      } catch (error) {
        faults.set(file, error);
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, files.length) }, readOn));
  const faulty = files.find((file) => faults.has(file));
  if (faulty) throw faults.get(faulty);
  return federate(files.map((file) => read.get(file)!));
}

async function namingFile(file: string, reading: Promise<FileModel>): Promise<FileModel> {
  try {
    return await reading;
  } catch (error) {
    if (error instanceof InputError) throw new InputError(`${file} ${error.message}.`);
    throw error;
  }
}
