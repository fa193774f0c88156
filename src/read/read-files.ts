/** Files in, one federation out. Where each file is read (here, or in a worker) is the reader's business. */
import { compareTexts } from '../collect.js';
import type { Federation } from '../model.js';
import { sha256Of } from '../platform/sha256.js';
import { InputError } from './container.js';
import { type FederatedFile, federate } from './federate.js';
import type { FileReader, Guidance, ModelInput } from './file-reader.js';
import type { FileModel } from './read-file.js';

export interface ReadFilesOptions extends Guidance {
  /** Called when a file has been read. */
  readonly onProgress?: (file: string, done: number, of: number) => void;
}

/**
 * @throws InputError naming the file, what is wrong with it and what to do
 */
export async function readFilesBy(
  reader: FileReader,
  inputs: readonly ModelInput[],
  options: ReadFilesOptions = {},
): Promise<Federation> {
  const { facts, constructions } = options;
  const hashed = await Promise.all(inputs.map(async (input) => ({ ...input, sha256: await sha256Of(input.bytes) })));
  // By name, then content: the order in which files are named on the command line must not matter.
  hashed.sort((a, b) => compareTexts(a.name, b.name) || compareTexts(a.sha256, b.sha256));
  const files: FederatedFile[] = [];
  for (const [i, input] of hashed.entries()) {
    const id = `m${i + 1}`;
    files.push({
      id,
      file: input.name,
      sha256: input.sha256,
      model: await namingFile(input.name, reader(input, id, { facts, constructions })),
    });
    options.onProgress?.(input.name, i + 1, hashed.length);
  }
  return federate(files);
}

async function namingFile(file: string, reading: Promise<FileModel>): Promise<FileModel> {
  try {
    return await reading;
  } catch (error) {
    if (error instanceof InputError) throw new InputError(`${file} ${error.message}.`);
    throw error;
  }
}
