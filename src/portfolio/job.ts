/** One job of a portfolio, as it is sent to whoever does it, and what comes back. Plain data. */
import * as z from 'zod';
import type { OutcomeCounts } from '../report/schema.js';

/** All paths are absolute: whoever does the job has to reach the same folders. */
export interface PortfolioJob {
  readonly name: string;
  readonly project: string;
  readonly revision: string | null;
  readonly models: readonly string[];
  readonly projectBrief: string | null;
  readonly rules: readonly string[] | null;
  /** Folder of the report before. */
  readonly previous: string | null;
  /** As `check --write` takes it. */
  readonly write: string;
  /** Where its outputs go; nothing else writes there. */
  readonly folder: string;
}

/** Written in one set with the outputs: where it stands they are whole, and made of what it says. */
export const RESULT_FILE = 'result.json';

const count = z.number().int().nonnegative();
export const jobResultSchema = z.object({
  name: z.string(),
  /** Hash of everything that the outputs follow from; the same again need not be done again. */
  fingerprint: z.string(),
  penetrations: count,
  outcomes: z.object({ passed: count, failed: count, cantTell: count, inapplicable: count, untested: count }),
  createdAt: z.string(),
  demonstration: z.boolean(),
  /** Seconds that it took when it was done, and megabytes of the process at most until then. */
  seconds: z.number(),
  peak: z.number(),
});
export type JobResult = Readonly<z.infer<typeof jobResultSchema>> & { readonly outcomes: OutcomeCounts };

/** A fault of the input stays what it is however often it is tried. */
export type JobAnswer =
  | { readonly result: JobResult; readonly wasDone: boolean }
  | { readonly fault: string; readonly isFinal: boolean };

export interface JobProgress {
  readonly stage: string;
  /** 0 to 1 of this stage. */
  readonly share: number;
}

/** How a job ended. */
export type JobEnd =
  | { readonly job: PortfolioJob; readonly attempts: number; readonly result: JobResult; readonly wasDone: boolean }
  | { readonly job: PortfolioJob; readonly attempts: number; readonly fault: string };

/** Who does jobs: threads of this machine, or workers at a queue. */
export interface Dispatcher {
  /** Never rejects for what is wrong with the job; it does when the dispatcher itself can't go on. */
  run(job: PortfolioJob, onProgress: (progress: JobProgress) => void): Promise<JobEnd>;
  /** What has not begun is given up. */
  close(): Promise<void>;
}

/** Tries of one job before it is dead, and the wait before the second; it doubles from one to the next. */
export interface Retries {
  readonly attempts: number;
  /** ms. */
  readonly backoff: number;
}
export const RETRIES: Retries = { attempts: 3, backoff: 1000 };
