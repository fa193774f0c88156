/**
 * A property's runs in slices, each a test with a seed of its own: `npm run mutants` tries a mutant by one test at a time,
 * and leaves out those that cost more than a mutant may.
 */
export interface Slice {
  readonly seed: number;
  readonly numRuns: number;
}

/** @param each runs of one slice: about a second's worth */
export const slices = (runs: number, each: number, seed: number): Slice[] =>
  Array.from({ length: Math.ceil(runs / each) }, (_, i) => ({
    seed: seed + i,
    numRuns: Math.min(each, runs - i * each),
  }));
