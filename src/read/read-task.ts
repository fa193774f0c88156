/**
 * One file to be read somewhere else, and what comes back: what a worker of any platform is sent, and answers. Whoever asks
 * needs nothing of web-ifc, which takes long to load.
 */
import { InputError } from './container.js';
import type { ModelInput } from './file-reader.js';
import type { FileModel } from './read-file.js';
import type { Guidance } from './source.js';
import { ReaderStopped, type Stoppers } from './stoppers.js';

export interface ReadTask {
  readonly input: ModelInput;
  readonly model: string;
  readonly guidance: Guidance | undefined;
  readonly stoppers: Stoppers;
  /** Shared memory of one number, the element that is being read (0: none, {@link DONE}); left out: nobody looks. */
  readonly at?: Int32Array;
}

export type ReadAnswer =
  | { readonly model: FileModel }
  | { readonly inputError: string }
  | { readonly stopped: string; readonly element: number };

export const DONE = -1;

/** @throws InputError, ReaderStopped */
export function modelIn(answer: ReadAnswer): FileModel {
  if ('model' in answer) return answer.model;
  throw 'inputError' in answer ? new InputError(answer.inputError) : new ReaderStopped(answer.stopped, answer.element);
}
