/** The outputs of what was answered last: made in a thread that can be ended at any moment, written by whoever asked. */
import { Worker } from 'node:worker_threads';
import { CANNOT_REVIEW, faultLine } from '../fault-line.js';
import type { ReviewOutputs } from '../make-review.js';
import type { ThreadAnswer, ThreadTask } from './review-thread.js';

export interface Listeners {
  readonly onProgress: (stage: string, share: number) => void;
  readonly onOutputs: (outputs: ReviewOutputs) => Promise<void>;
  /** With the line that says why there are none, and the exit code that goes with it. */
  readonly onFault: (line: string, code: number) => void;
}

export class OutputThread {
  private worker: Worker | undefined;

  /** Whatever it was doing before, it is no longer asked for. */
  begin(task: ThreadTask, { onProgress, onOutputs, onFault }: Listeners): void {
    this.end();
    const worker = new Worker(new URL('./review-thread.js', import.meta.url), {
      ...{ workerData: task, stdout: true, stderr: true },
    });
    this.worker = worker;
    const fail = (line: string): void => {
      if (this.worker !== worker) return;
      this.end();
      onFault(line, CANNOT_REVIEW);
    };
    worker.on('message', (answer: ThreadAnswer) => {
      if (this.worker !== worker) return;
      if ('stage' in answer) onProgress(answer.stage, answer.share);
      else if ('fault' in answer) fail(answer.fault);
      else
        onOutputs(answer.outputs).then(
          () => this.endOf(worker),
          (error) => fail(faultLine(error)),
        );
    });
    worker.on('error', (error) => fail(faultLine(error)));
    worker.on('exit', () => fail(faultLine(new Error('its thread ended early'))));
  }

  end(): void {
    const { worker } = this;
    this.worker = undefined;
    void worker?.terminate();
  }

  private endOf(worker: Worker): void {
    if (this.worker === worker) this.end();
  }
}
