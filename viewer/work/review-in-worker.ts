/** The review that is open, as bytes: after a stop, or a fault, it is opened in another worker before that is asked. */
import type { Assumption } from '../../src/index.js';
import { joined } from '../state/entries.js';
import type { Unsaved } from '../state/state.js';
import type { WorkClient } from './client.js';
import type { Answers, Asks, BriefFile, DroppedFile, RequestName, ReviewFiles } from './protocol.js';

export interface Opened {
  readonly files: ReviewFiles;
  /** geometry.glb; null: there is none. */
  readonly geometry: ArrayBuffer | null;
  /** The BCF file that came back last. */
  readonly sentBack: DroppedFile | null;
  /** Where its server takes the changed brief; null: it is downloaded. */
  readonly saveTo: URL | null;
  /** The brief as it was saved last, and what of it was granted and said here; null: it is as it was reviewed. */
  readonly written: BriefFile | null;
  readonly saved: Unsaved;
  /** What of trials was written into it. */
  readonly kept: readonly Assumption[];
}

export class ReviewInWorker {
  /** Null: nothing is open. */
  opened: Opened | null = null;
  private isThere = false;

  constructor(private readonly work: WorkClient) {}

  /** The worker has it open already. */
  keep(opened: Opened): void {
    [this.opened, this.isThere] = [opened, true];
  }

  /** The brief was saved: what is saved next is written into that. */
  wrote(written: BriefFile, entries: Unsaved, assumptions: readonly Assumption[]): void {
    if (!this.opened) return;
    const { saved, kept } = this.opened;
    this.opened = { ...this.opened, written, saved: joined(saved, entries), kept: [...kept, ...assumptions] };
  }

  /** What of a trial does not stand in the brief that was saved: what was taken out of it can't be taken out again. */
  notKept(assumptions: readonly Assumption[]): readonly Assumption[] {
    const known = new Map(this.opened?.kept.map(({ name, value }) => [name, JSON.stringify(value)]));
    return assumptions.filter(({ name, value }) => known.get(name) !== JSON.stringify(value));
  }

  /** Ends the worker, with all that is under way. */
  stop(): void {
    this.work.stop();
    this.isThere = false;
  }

  async ask<N extends RequestName>(name: N, asks: Asks<N>): Promise<Answers<N>> {
    if ((this.isThere && this.work.isRunning) || !this.opened) return this.work.ask(name, asks);
    const { files, sentBack, saved: entries } = this.opened;
    this.isThere = true;
    // Questions are answered in the order in which they are asked.
    const again = [
      this.work.ask('open', files),
      ...(sentBack ? [this.work.ask('bcfIn', { file: sentBack, entries })] : []),
    ];
    const [answer] = await Promise.all([this.work.ask(name, asks), ...again]);
    return answer;
  }
}
