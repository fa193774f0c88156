/** Threads that plan cuts while the one that asks for them does something else. */
import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import type { Planner } from '../quantify/cut-items.js';
import type { CuttingPlan } from '../quantify/cutting/index.js';
import type { PlanTask } from './plan-thread.js';

/** Blanket, boards and bars; what else is cut is planned in no time. */
const MOST_THREADS = 3;
/** What waited for a thread to be free would wait until the thread that asks is, too. */
const TASKS_OF_A_THREAD = 1000;

/** Starts no thread before there is something to plan: most reviews that are refused never get that far. */
export class PlanPool {
  private pool: Piscina<PlanTask, CuttingPlan> | undefined;

  /** To cancel is to end the thread. */
  readonly plan: Planner = async (parts, stocks, { signal, ...options }) => {
    this.pool ??= startThreads();
    try {
      return await this.pool.run({ parts, stocks, options }, { signal: signal ?? null });
    } catch (error) {
      signal?.throwIfAborted();
      throw error;
    }
  };

  /** Ends its threads, whatever they do. */
  async close(): Promise<void> {
    await this.pool?.destroy();
  }
}

function startThreads(): Piscina<PlanTask, CuttingPlan> {
  // One core is for whoever asks.
  const threads = Math.min(MOST_THREADS, Math.max(1, availableParallelism() - 1));
  return new Piscina({
    filename: new URL('./plan-thread.js', import.meta.url).href,
    ...{ minThreads: threads, maxThreads: threads, concurrentTasksPerWorker: TASKS_OF_A_THREAD },
  });
}
