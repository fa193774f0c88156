/** Makes the outputs of a review in a thread of its own, which ends when something has changed meanwhile. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Found } from '../../review/found.js';
import { faultLine } from '../fault-line.js';
import { outputsOfReview, type ReviewOutputs, type ReviewPaths } from '../make-review.js';

export interface ThreadTask {
  readonly models: readonly string[];
  readonly options: ReviewPaths;
  readonly found: Found;
}

export type ThreadAnswer =
  | { readonly stage: string; readonly share: number }
  | { readonly outputs: ReviewOutputs }
  | { readonly fault: string };

const answer = (one: ThreadAnswer): void => parentPort!.postMessage(one);
const { models, options, found } = workerData as ThreadTask;
try {
  const onProgress = (stage: string, share: number): void => answer({ stage, share });
  answer({ outputs: await outputsOfReview(models, options, onProgress, { found }) });
} catch (error) {
  answer({ fault: faultLine(error) });
}
