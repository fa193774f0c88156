/** What a person can do beside looking: everything here takes the worker, a file or the local server. */
import type { Assumption } from '../../src/index.js';
import type { NewComment, NewConcession } from './state.js';

export interface Actions {
  /** Checks models, opens a report.json or reads a BCF file back, by what was dropped or picked. */
  open(files: readonly File[]): Promise<void>;
  /** Ends what is under way; what was open before stays open. */
  stop(): void;
  /** From what could not be opened to the review that is open, else to the empty page. */
  backToReview(): void;
  /** Judges again under these choices instead of the brief's own; the state's `trial` shows it. */
  tryChoices(assumptions: readonly Assumption[]): Promise<void>;
  endTrial(): void;
  /** Kept in `unsaved` until the brief is saved. */
  addConcession(concession: NewConcession): void;
  addComment(comment: Omit<NewComment, 'date'>): void;
  /** Takes back what is not saved yet. */
  takeBack(entry: NewConcession | NewComment): void;
  /**
   * The brief with the trial's choices, concessions and comments written in: to the local server, else as a download.
   *
   * @returns the file
   * @throws Error in one line, which the state's `said` has too
   */
  saveBrief(): Promise<string>;
  /** findings.bcf with the comments, as a download. @throws Error in one line, which the state's `said` has too */
  saveTopics(): Promise<void>;
}

/** For who shows no fault of its own: `said` has it, and is shown already. */
export const isSaid = (): void => undefined;
