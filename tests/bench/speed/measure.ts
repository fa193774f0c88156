/** Both programs on one file, each less what it takes on an empty model. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { packageRoot } from '../../../src/platform/package-root.js';
import type { Report } from '../../../src/report/schema.js';
import { type BenchFile, emptyFile, type Kind, megabytes } from './files.js';
import { medianRun, type Run, runOnce } from './run-once.js';
import { netOf, type Stage, stagesOf } from './stages.js';

const MAIN = join(packageRoot, 'dist', 'src', 'cli', 'main.js');
const ALONE = join(packageRoot, 'dist', 'tests', 'bench', 'speed', 'web-ifc-alone.js');
/** Something failed, or could not be told: the check itself went well. */
const CHECKED = [0, 1, 3];

/** Net of the empty model, ms. */
export interface Net {
  readonly wall: number;
  readonly processor: number;
}

export interface Measured {
  readonly file: string;
  readonly kind: Kind;
  readonly storeys: number | null;
  readonly megabytes: number;
  readonly runs: number;
  readonly alone: Net & { readonly peak: number };
  /** Or why it did not end. */
  readonly check:
    | (Net & { readonly peak: number; readonly penetrations: number; readonly stages: readonly Stage[] })
    | { readonly error: string };
}

export interface MeasureOptions {
  readonly folder: string;
  /** Runs of each program where one is short. */
  readonly runs: number;
  /** s that a run may take. */
  readonly limit: number;
}

/** Longer ones are run once. */
const SHORT = 20_000;

export class Measurer {
  private readonly emptyRuns = new Map<string, Promise<Run>>();
  private readonly empty: string;

  constructor(private readonly options: MeasureOptions) {
    this.empty = emptyFile(options.folder);
  }

  async measure(file: BenchFile): Promise<Measured> {
    const paths = file.paths();
    const [alone, checked]: Run[][] = [[], []];
    const of = { file: file.name, kind: file.kind, storeys: file.storeys ?? null, megabytes: megabytes(paths) };
    let error: string | undefined;
    // In turn, so that what else the machine does falls on both.
    for (let i = 0; i < this.options.runs && error === undefined; i++) {
      alone!.push(await this.run([ALONE, ...paths]));
      try {
        checked!.push(await this.run(this.checking(paths, file.brief), CHECKED));
      } catch (failed) {
        error = (failed as Error).message;
      }
      if ((checked!.at(-1)?.wall ?? 0) > SHORT) break;
    }
    const one = medianRun(alone!);
    const without = await this.emptyRun('alone', [ALONE, this.empty]);
    const result = { ...of, runs: alone!.length, alone: { ...net(one, without), peak: one.peak } };
    if (error !== undefined) return { ...result, check: { error } };
    const check = medianRun(checked!);
    // Before the empty model's report takes the place of this one.
    const penetrations = this.penetrations();
    const emptyCheck = await this.emptyRun(file.brief ?? '', this.checking([this.empty], file.brief), CHECKED);
    const stages = netOf(stagesOf(check), stagesOf(emptyCheck));
    return { ...result, check: { ...net(check, emptyCheck), peak: check.peak, penetrations, stages } };
  }

  /** Writes a processor profile of the check for each of its threads. */
  async profile(file: BenchFile, into: string): Promise<void> {
    const node = ['--cpu-prof', `--cpu-prof-dir=${into}`];
    const { folder, limit } = this.options;
    await runOnce(this.checking(file.paths(), file.brief), { folder, limit, fine: CHECKED, node });
  }

  private checking(paths: readonly string[], brief: string | undefined): string[] {
    const out = ['--write', 'json', '--out', join(this.options.folder, 'out')];
    return [MAIN, 'check', ...paths, ...(brief === undefined ? [] : ['--project-brief', brief]), ...out];
  }

  private penetrations(): number {
    const text = readFileSync(join(this.options.folder, 'out', 'report.json'), 'utf8');
    return (JSON.parse(text) as Report).penetrations.length;
  }

  private run(program: readonly string[], fine: readonly number[] = [0]): Promise<Run> {
    const { folder, limit } = this.options;
    return runOnce(program, { folder, limit, fine });
  }

  private emptyRun(key: string, program: readonly string[], fine?: readonly number[]): Promise<Run> {
    const known = this.emptyRuns.get(key) ?? this.medianOf(program, fine);
    this.emptyRuns.set(key, known);
    return known;
  }

  private async medianOf(program: readonly string[], fine?: readonly number[]): Promise<Run> {
    const runs: Run[] = [];
    for (let i = 0; i < Math.max(3, this.options.runs); i++) runs.push(await this.run(program, fine));
    return medianRun(runs);
  }
}

const net = (run: Run, empty: Run): Net => ({
  wall: Math.max(0, run.wall - empty.wall),
  processor: Math.max(0, run.processor - empty.processor),
});
