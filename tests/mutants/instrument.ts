/** Mutants of sources by StrykerJS's instrumenter: every mutant stands in the code behind a switch, so code is loaded once. */
import { readFileSync } from 'node:fs';
import { relative, sep } from 'node:path';
import { type File, Instrumenter } from '@stryker-mutator/instrumenter';
import fc from 'fast-check';
import { fileUnder } from '../../src/collect.js';

export interface Mutant {
  readonly id: string;
  /** From the root of the repository, with slashes. */
  readonly file: string;
  /** 1-based. */
  readonly line: number;
  readonly column: number;
  /** What kind of change, in the library's words. */
  readonly kind: string;
  readonly code: string;
  readonly replacement: string;
}

type Place = { readonly start: Position; readonly end: Position };
type Position = { readonly line: number; readonly column: number };

export interface Instrumented {
  /** Code with its switches, by file. */
  readonly code: Readonly<Record<string, string>>;
  readonly mutants: readonly Mutant[];
}

const no = () => false;
const nothing = () => {};
const silent = {
  ...{
    isTraceEnabled: no,
    isDebugEnabled: no,
    isInfoEnabled: no,
    isWarnEnabled: no,
    isErrorEnabled: no,
    isFatalEnabled: no,
  },
  ...{ trace: nothing, debug: nothing, info: nothing, warn: nothing, error: nothing, fatal: nothing },
};

async function instrument(files: readonly string[], mutate: (file: string) => File['mutate']) {
  const texts = new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
  const sources = files.map((name) => ({ name, content: texts.get(name)!, mutate: mutate(name) }));
  const options = { plugins: null, excludedMutations: [], ignorers: [] };
  const done = await new Instrumenter(silent).instrument(sources, options);
  const mutants = done.mutants.map(({ id, fileName, location, mutatorName, replacement }) => {
    const mutant: Mutant = {
      ...{ id, file: relative('.', fileName).split(sep).join('/'), kind: mutatorName, replacement },
      ...{ line: location.start.line + 1, column: location.start.column + 1 },
      code: codeAt(texts.get(fileName)!, location),
    };
    return { mutant, place: location };
  });
  return { code: Object.fromEntries(done.files.map(({ name, content }) => [name, content])), mutants };
}

function codeAt(text: string, { start, end }: Place): string {
  const lines = text.split('\n').slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column);
  lines[0] = lines[0]!.slice(start.column);
  return lines.join('\n');
}

/** The same for the same place and change, whatever else is mutated. */
const name = ({ file, line, column, kind, code, replacement }: Mutant) =>
  [file, line, column, kind, code, replacement].join('\0');

/**
 * A sample spread over all files: each file has its share, and at least one while the sample is larger than the number of files.
 * Only what was drawn is put into the code, which stays nearly as fast as it is.
 *
 * @returns the drawn mutants, and how many there are in all
 */
export async function draw(
  files: readonly string[],
  { seed, sample, line }: { readonly seed: number; readonly sample: number; readonly line?: number | undefined },
): Promise<Instrumented & { readonly all: number }> {
  const all = await instrument(files, () => true);
  const found = all.mutants.filter(({ mutant }) => line === undefined || mutant.line === line);
  const mixed = shuffled(found, seed);
  const byFile = new Map<string, typeof mixed>();
  for (const one of mixed) fileUnder(byFile, one.mutant.file, one);
  // Rank within its file, as a share of it: the first of every file come first, then the large files' next.
  const ranked = [...byFile.values()].flatMap((of) =>
    of.map((one, i) => ({ one, rank: i === 0 ? 0 : (i + 0.5) / of.length })),
  );
  const order = shuffled(ranked, seed).sort((a, b) => a.rank - b.rank);
  const drawn = order.slice(0, sample).map(({ one }) => one);
  const places = new Map<string, Place[]>();
  for (const { mutant, place } of drawn) fileUnder(places, mutant.file, place);
  const some = await instrument([...places.keys()], (file) => places.get(file)!);
  const names = new Set(drawn.map(({ mutant }) => name(mutant)));
  const mutants = some.mutants.map(({ mutant }) => mutant).filter((mutant) => names.has(name(mutant)));
  if (mutants.length !== drawn.length)
    throw new Error(`${drawn.length} mutants were drawn, ${mutants.length} are placed.`);
  return { code: some.code, mutants, all: all.mutants.length };
}

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const whole = { minLength: list.length, maxLength: list.length };
  return fc.sample(fc.shuffledSubarray([...list], whole), { seed, numRuns: 1 })[0]!;
}
