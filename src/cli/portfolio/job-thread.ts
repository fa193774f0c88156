/** A thread of the pool: what a job does to its memory, and whatever a bad model does to it, stays in it. */
import type { MessagePort } from 'node:worker_threads';
import type { JobAnswer, PortfolioJob } from '../../portfolio/job.js';
import { runJob } from './run-job.js';

export interface ThreadTask {
  readonly job: PortfolioJob;
  /** Takes the progress. */
  readonly port: MessagePort;
}

export default async function work({ job, port }: ThreadTask): Promise<JobAnswer> {
  try {
    return await runJob(job, (progress) => port.postMessage(progress));
  } finally {
    port.close();
  }
}
