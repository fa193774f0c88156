/** Steps of arithmetic are counted, not seconds: the same input stops at the same place on every machine. */
export class Effort {
  private spent = 0;

  constructor(private readonly steps: number) {}

  spend(steps: number): void {
    this.spent += steps;
  }

  /** Whether this share of all there is has not been spent. */
  has(share: number, steps = 0): boolean {
    return this.spent + steps <= this.steps * share;
  }
}
