/** What the runner of tests is told to do, and what it tells: line by line, since a mutant may never end. */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';

export interface Task {
  /** The file that is told what happens. */
  readonly told: string;
  /** Mutants that are to be tried. */
  readonly alive: readonly string[];
  /** What is known of tests from a run that did not end. */
  readonly ran: readonly Ran[];
  /** How many files of tests there are. */
  readonly files: number;
  /** Processor time that one mutant may take in all, ms. */
  readonly budget: number;
}

/** A test as the code is. */
export interface Ran {
  readonly test: string;
  /** Processor time, ms. */
  readonly cost: number;
  /** How often it ran the code of each drawn mutant. */
  readonly hits: Readonly<Record<string, number>>;
}

export type Told =
  | ({ readonly what: 'ran' } & Ran)
  /** A test that fails as the code is. */
  | { readonly what: 'failed'; readonly test: string; readonly error: string }
  /** @property limit processor time, ms */
  | { readonly what: 'started'; readonly mutant: string; readonly test: string; readonly limit: number }
  | { readonly what: 'killed' | 'survived' | 'timeout' | 'tooDear'; readonly mutant: string; readonly test: string }
  /** Mutants whose code ran while files of tests were loaded. */
  | { readonly what: 'loaded'; readonly mutants: readonly string[] }
  | { readonly what: 'done' };

export function tell(file: string, told: Told): void {
  appendFileSync(file, `${JSON.stringify(told)}\n`);
}

/** A line that is being written while it is read is not heard yet. */
export const heard = (file: string): Told[] =>
  existsSync(file)
    ? readFileSync(file, 'utf8')
        .split('\n')
        .slice(0, -1)
        .map((line) => JSON.parse(line))
    : [];
