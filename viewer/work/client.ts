/** The page's end of the worker. To stop is to end the worker; the next question starts another. */
import type { Progress } from '../state/state.js';
import type { Answers, Asks, Message, RequestName } from './protocol.js';

/** One clear line for the person; everything else is a fault of the program. */
export class WorkFault extends Error {}
/** The person stopped it. */
export class Stopped extends Error {}

type OnProgress = (progress: Progress) => void;
interface Waiting {
  readonly progress: OnProgress;
  readonly resolve: (answers: never) => void;
  readonly reject: (fault: Error) => void;
}

export class WorkClient {
  private worker: Worker | undefined;
  private next = 1;
  private readonly waiting = new Map<number, Waiting>();

  ask<N extends RequestName>(name: N, asks: Asks<N>, progress: OnProgress = () => {}): Promise<Answers<N>> {
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { progress, resolve, reject });
      this.running().postMessage({ id, name, asks });
    });
  }

  /** False: nothing is open in it. */
  get isRunning(): boolean {
    return this.worker !== undefined;
  }

  /** Ends all that is under way; what was open in the worker has to be opened again. */
  stop(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.rejectAll(new Stopped('Stopped.'));
  }

  private running(): Worker {
    if (this.worker) return this.worker;
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<Message>) => this.hear(data);
    worker.onerror = (event) => {
      this.worker?.terminate();
      this.worker = undefined;
      this.rejectAll(new WorkFault(`The work stopped by an error of its own (${event.message}); try again.`));
    };
    this.worker = worker;
    return worker;
  }

  private hear(message: Message): void {
    const waiting = this.waiting.get(message.id);
    if (!waiting) return;
    if ('progress' in message) {
      waiting.progress(message.progress);
      return;
    }
    this.waiting.delete(message.id);
    if ('fault' in message) waiting.reject(new WorkFault(message.fault));
    else waiting.resolve(message.answers as never);
  }

  private rejectAll(fault: Error): void {
    for (const { reject } of this.waiting.values()) reject(fault);
    this.waiting.clear();
  }
}
