/** What reads one file: in this thread, in a worker, in a browser. */
import type { FileModel } from './read-file.js';
import type { Guidance } from './source.js';

export interface ModelInput {
  /** File name without folders, as it is to stand in the report. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Of the bytes, in hex, from who has a faster way to it than we have here; left out: it is worked out. */
  readonly sha256?: string;
}

/** Rejects with an InputError when the file can't be reviewed. */
export type FileReader = (input: ModelInput, model: string, guidance?: Guidance) => Promise<FileModel>;
