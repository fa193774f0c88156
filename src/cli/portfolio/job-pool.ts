/** Threads of this machine that do jobs, so that whoever hands them out stays free to answer. */
import { availableParallelism } from 'node:os';
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import {
  type Dispatcher,
  type JobAnswer,
  type JobEnd,
  type JobProgress,
  type PortfolioJob,
  RETRIES,
  type Retries,
} from '../../portfolio/job.js';
import type { ThreadTask } from './job-thread.js';

export class JobPool {
  private readonly pool: Piscina<ThreadTask, JobAnswer>;

  /** @param threads left out: as many as there are cores */
  constructor(threads: number = availableParallelism()) {
    this.pool = new Piscina({
      filename: new URL('./job-thread.js', import.meta.url).href,
      minThreads: 0,
      maxThreads: threads,
      // Loading the program takes half a second; a thread that waits longer for a job gives its memory back.
      idleTimeout: 10_000,
    });
  }

  /** One try. A thread that ends is a fault that may be gone the next time. */
  async once(job: PortfolioJob, onProgress: (progress: JobProgress) => void): Promise<JobAnswer> {
    const { port1, port2 } = new MessageChannel();
    port1.on('message', onProgress);
    try {
      return await this.pool.run({ job, port: port2 }, { transferList: [port2] });
    } catch (error) {
      return { fault: `its thread ended (${error instanceof Error ? error.message : String(error)})`, isFinal: false };
    } finally {
      port1.close();
    }
  }

  /** Ends its threads, whatever they do. */
  async close(): Promise<void> {
    await this.pool.destroy();
  }
}

/** Without any server: jobs are tried again here, with the same waits as at a queue. */
export function localDispatcher(threads?: number, retries: Retries = RETRIES): Dispatcher {
  const pool = new JobPool(threads);
  let isClosed = false;
  return {
    run: (job, onProgress) =>
      tried(
        job,
        () => pool.once(job, onProgress),
        retries,
        () => isClosed,
      ),
    close() {
      isClosed = true;
      return pool.close();
    },
  };
}

/** @param once one try; @param isGivenUp asked before another */
export async function tried(
  job: PortfolioJob,
  once: () => Promise<JobAnswer>,
  { attempts, backoff }: Retries,
  isGivenUp: () => boolean = () => false,
): Promise<JobEnd> {
  for (let attempt = 1; ; attempt++) {
    const answer = await once();
    if ('result' in answer) return { job, attempts: attempt, ...answer };
    if (answer.isFinal || attempt >= attempts || isGivenUp()) return { job, attempts: attempt, fault: answer.fault };
    await new Promise((go) => setTimeout(go, backoff * 2 ** (attempt - 1)));
  }
}
