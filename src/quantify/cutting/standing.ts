/** What has been found and proven by now. */
import type { Solution } from './pattern.js';
import type { Problem } from './problem.js';
import type { CuttingOptions } from './types.js';

export class Standing {
  /** The cheapest found. */
  best: Solution | undefined;
  bound = 0;
  /** Of every plan, whatever its stages. */
  boundOfAll = 0;
  method = 'nothing is cut';
  constructor(
    private readonly problem: Problem,
    private readonly options: CuttingOptions,
  ) {}

  get cost(): number {
    return this.best?.cost ?? Infinity;
  }

  get done(): boolean {
    return this.cost <= this.bound * (1 + (this.options.enough ?? 0));
  }

  /** Keeps the first of equals, so that the order of the search is all that decides. */
  offer(solution: Solution | undefined): void {
    if (solution && solution.cost < this.cost) this.best = solution;
  }

  prove(bound: number, ofAll: boolean, method: string): void {
    if (ofAll) this.boundOfAll = Math.max(this.boundOfAll, bound);
    if (bound <= this.bound) return;
    this.bound = bound;
    this.method = method;
  }

  /** Lets other work run, which may cancel this. @throws the reason of the signal */
  async pause(): Promise<void> {
    const { signal, onProgress } = this.options;
    if (this.best) onProgress?.(this.cost * this.problem.unit, this.bound * this.problem.unit);
    if (signal) await new Promise((resolve) => setTimeout(resolve, 0));
    signal?.throwIfAborted();
  }
}
