/** `ratedrun worker`: does jobs of portfolios from a queue until it is told to stop. */
import { availableParallelism } from 'node:os';
import { interrupted } from '../../platform/signals.js';
import type { Streams } from '../streams.js';
import { startQueueWorker } from './job-queue.js';

export interface WorkerOptions {
  readonly redis: string;
  readonly threads?: number;
  /** Seconds. */
  readonly silence?: number;
  readonly quiet?: boolean;
}

const SILENCE = 30;

export async function worker(
  { redis, threads = availableParallelism(), silence = SILENCE, quiet = false }: WorkerOptions,
  io: Streams,
): Promise<number> {
  const onLine = quiet ? () => {} : (line: string) => void io.out.write(`${line}\n`);
  const working = await startQueueWorker({ url: redis, threads, silence, onLine });
  onLine(`Waiting for jobs at ${new URL(redis).host}. Stop it with Ctrl+C; what is under way is ended first.`);
  await interrupted();
  await working.close();
  return 0;
}
