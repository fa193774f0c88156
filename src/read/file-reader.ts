/** What reads one file: in this thread, in a worker, in a browser. */
import type { ProjectFacts } from '../model.js';
import type { FileModel } from './read-file.js';

export interface ModelInput {
  /** File name without folders, as it is to stand in the report. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Rejects with an InputError when the file can't be reviewed. */
export type FileReader = (input: ModelInput, model: string, facts?: ProjectFacts) => Promise<FileModel>;
