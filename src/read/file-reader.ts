/** What reads one file: in this thread, in a worker, in a browser. */
import type { ConstructionWords, ProjectFacts } from '../model.js';
import type { FileModel } from './read-file.js';

export interface ModelInput {
  /** File name without folders, as it is to stand in the report. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Of the bytes, in hex, from who has a faster way to it than we have here; left out: it is worked out. */
  readonly sha256?: string;
}

/** What reading goes by beside the file itself: plain data, so that it can be sent to a worker. */
export interface Guidance {
  /** From the project's brief. */
  readonly facts?: ProjectFacts | undefined;
  /** Rows of the construction tables; without any, only the brief's own words tell what a barrier is built of. */
  readonly constructions?: readonly ConstructionWords[] | undefined;
}

/** Rejects with an InputError when the file can't be reviewed. */
export type FileReader = (input: ModelInput, model: string, guidance?: Guidance) => Promise<FileModel>;
