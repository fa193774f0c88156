/**
 * Jobs at a Redis or Valkey server, by BullMQ: delivered at least once, tried again with growing waits, given to another worker
 * when theirs falls silent. What a job writes is whole or not there, and the same again is not done again, so a second
 * delivery does no harm.
 */
import { createHash } from 'node:crypto';
import { type Job, Queue, QueueEvents, UnrecoverableError, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import {
  type Dispatcher,
  type JobEnd,
  type JobProgress,
  type JobResult,
  type PortfolioJob,
  RETRIES,
  type Retries,
} from '../../portfolio/job.js';
import { UsageError } from '../io.js';
import { JobPool } from './job-pool.js';

const QUEUE = 'ratedrun';
/** Results are on disk; the server keeps those of a day, for whoever looks. */
const KEPT = { age: 24 * 3600 } as const;

interface Done {
  readonly result: JobResult;
  readonly wasDone: boolean;
}
type QueuedJob = Job<PortfolioJob, Done>;

/** @throws UsageError where no server answers */
async function connected(url: string): Promise<Redis> {
  if (!/^rediss?:\/\//.test(url)) throw new UsageError(`--redis ${url} is no address; write redis://HOST:PORT.`);
  // BullMQ waits for as long as it takes; whether anybody is there at all is asked first.
  const connection = new Redis(url, {
    maxRetriesPerRequest: null,
    lazyConnect: true,
    retryStrategy: (n) => (n < 20 ? 250 : null),
  });
  connection.on('error', () => {}); // each command that fails says so itself
  try {
    await connection.connect();
    return connection;
  } catch (error) {
    connection.disconnect();
    throw new UsageError(
      `no server answers at ${url} (${error instanceof Error ? error.message : String(error)}); start one, or leave --redis out.`,
    );
  }
}

/** The same job of the same list is one job at the server, however often it is sent. */
const idOf = (list: string, job: PortfolioJob): string =>
  `${list}-${job.name}-${createHash('sha256').update(JSON.stringify(job)).digest('hex').slice(0, 16)}`;

/** Sends jobs and waits for what becomes of them. @throws UsageError where no server answers */
export async function queueDispatcher(url: string, list: string, retries: Retries = RETRIES): Promise<Dispatcher> {
  const connection = await connected(url);
  const queue = new Queue<PortfolioJob, Done>(QUEUE, { connection });
  const events = new QueueEvents(QUEUE, { connection: connection.duplicate() });
  await events.waitUntilReady();
  events.setMaxListeners(0);
  const sent = new Map<string, (progress: JobProgress) => void>();
  events.on('progress', ({ jobId, data }) => sent.get(jobId)?.(data as JobProgress));
  return {
    async run(job, onProgress): Promise<JobEnd> {
      const jobId = idOf(list, job);
      sent.set(jobId, onProgress);
      await removeEnded(queue, jobId);
      const { attempts, backoff } = retries;
      const queued = await queue.add(job.project, job, {
        ...{ jobId, attempts, removeOnComplete: KEPT, removeOnFail: KEPT },
        backoff: { type: 'exponential', delay: backoff },
      });
      try {
        const done = await queued.waitUntilFinished(events);
        return { job, attempts: await attemptsOf(queue, jobId), ...done };
      } catch (error) {
        const fault = error instanceof Error ? error.message : String(error);
        return { job, attempts: await attemptsOf(queue, jobId), fault };
      } finally {
        sent.delete(jobId);
      }
    },
    async close() {
      // What is under way goes on with its worker, and what it writes is found by the next run.
      for (const jobId of sent.keys()) await removeWaiting(queue, jobId);
      await events.close();
      await queue.close();
      connection.disconnect();
    },
  };
}

/** How a job ended in another run says nothing of this one: its files may be gone. */
async function removeEnded(queue: Queue, jobId: string): Promise<void> {
  const job = await queue.getJob(jobId);
  if (job && ((await job.isCompleted()) || (await job.isFailed()))) await job.remove();
}

async function removeWaiting(queue: Queue, jobId: string): Promise<void> {
  const job = await queue.getJob(jobId);
  if (!job || (await job.isActive())) return;
  await job.remove().catch(() => {}); // begun in the meantime
}

const attemptsOf = async (queue: Queue, jobId: string): Promise<number> => {
  const job: QueuedJob | undefined = await queue.getJob(jobId);
  return Math.max(1, job?.attemptsStarted ?? 1);
};

export interface QueueWorkerOptions {
  readonly url: string;
  /** Jobs at the same time. */
  readonly threads: number;
  /** Seconds of silence after which a job is given to another worker. */
  readonly silence: number;
  readonly onLine: (line: string) => void;
}

/** Does jobs until it is closed. @throws UsageError where no server answers */
export async function startQueueWorker({ url, threads, silence, onLine }: QueueWorkerOptions) {
  const connection = await connected(url);
  const pool = new JobPool(threads);
  const work = async (queued: QueuedJob): Promise<Done> => {
    onLine(`${queued.data.name}: begun, try ${queued.attemptsStarted} of ${queued.opts.attempts ?? 1}`);
    const answer = await pool.once(queued.data, (progress) => {
      queued.updateProgress(progress).catch(() => {}); // it ended in the meantime
    });
    if ('result' in answer) {
      onLine(`${queued.data.name}: done${answer.wasDone ? ' before' : ''}`);
      return answer;
    }
    onLine(`${queued.data.name}: ${answer.fault}`);
    throw answer.isFinal ? new UnrecoverableError(answer.fault) : new Error(answer.fault);
  };
  const worker = new Worker<PortfolioJob, Done>(QUEUE, work, {
    connection,
    concurrency: threads,
    lockDuration: silence * 1000,
    stalledInterval: silence * 1000,
    // A job whose worker was killed has used up one try, like one that failed.
    maxStalledCount: RETRIES.attempts,
  });
  worker.on('error', (error) => onLine(`the server: ${error.message}`));
  await worker.waitUntilReady();
  return {
    /** What is under way is ended first. */
    async close(): Promise<void> {
      await worker.close();
      await pool.close();
      connection.disconnect();
    },
  };
}
