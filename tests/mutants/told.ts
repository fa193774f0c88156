/** What the runner of tests is told to do, and what it tells: line by line, since a mutant may never end. */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';

export interface Task {
  /** The file that is told what happens. */
  readonly told: string;
  /** Mutants that are to be tried. */
  readonly alive: readonly string[];
  /** Processor time that one mutant may take in all, ms. */
  readonly budget: number;
}

export type Told =
  /** A test that fails as the code is. */
  | { readonly what: 'failed'; readonly test: string; readonly error: string }
  /** @property limit processor time, ms */
  | { readonly what: 'started'; readonly mutant: string; readonly test: string; readonly limit: number }
  | { readonly what: 'killed' | 'survived' | 'timeout' | 'tooDear'; readonly mutant: string; readonly test: string }
  /** Mutants whose code ran while this file of tests was loaded. */
  | { readonly what: 'loaded'; readonly mutants: readonly string[] }
  | { readonly what: 'done'; readonly file: string };

export function tell(file: string, told: Told): void {
  appendFileSync(file, `${JSON.stringify(told)}\n`);
}

export const heard = (file: string): Told[] =>
  existsSync(file)
    ? readFileSync(file, 'utf8')
        .trimEnd()
        .split('\n')
        .filter(Boolean)
        .map((line) => JSON.parse(line))
    : [];
