/** One run of a program in a process of its own: what it used, stage by stage. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { packageRoot } from '../../../src/platform/package-root.js';
import type { Mark } from './record.js';

const RECORD = join(packageRoot, 'dist', 'tests', 'bench', 'speed', 'record.js');

export interface Run {
  /** ms. */
  readonly wall: number;
  /** ms of all its threads. */
  readonly processor: number;
  /** MB. */
  readonly peak: number;
  readonly marks: readonly Mark[];
}

export interface RunOptions {
  /** What the run is recorded in. */
  readonly folder: string;
  /** Exit codes that are no failure. */
  readonly fine?: readonly number[];
  /** s of wall clock after which it is stopped. */
  readonly limit?: number;
  /** Of node itself. */
  readonly node?: readonly string[];
}

/** @throws Error with the last line that a run wrote which failed */
export async function runOnce(program: readonly string[], options: RunOptions): Promise<Run> {
  const { folder, fine = [0], limit = 60, node = [] } = options;
  const record = join(folder, 'record.json');
  rmSync(record, { force: true });
  const child = spawn(process.execPath, [...node, '--import', RECORD, ...program], {
    env: { ...process.env, RATEDRUN_BENCH_RECORD: record },
    stdio: ['ignore', 'ignore', 'pipe'],
    timeout: limit * 1000,
  });
  let errors = '';
  child.stderr.on('data', (chunk: Buffer) => {
    errors = (errors + chunk.toString()).slice(-2000);
  });
  const [code, signal] = (await once(child, 'close')) as [number | null, string | null];
  if (signal === 'SIGTERM') throw new Error(`did not end within ${limit} s, in: ${errors.trim().split('\n').at(-1)}`);
  if (code === null || !fine.includes(code) || !existsSync(record)) {
    const lines = errors.split('\n').filter((line) => line.trim() !== '');
    const told = lines.find((line) => /error|FATAL/i.test(line)) ?? lines.at(-1) ?? '';
    throw new Error(`ended with ${signal ?? `exit code ${code}`}: ${told.trim()}`);
  }
  const marks = JSON.parse(readFileSync(record, 'utf8')) as Mark[];
  const { wall, processor, peak } = marks.at(-1)!;
  return { wall, processor, peak, marks };
}

/** By processor time. */
export function medianRun(runs: readonly Run[]): Run {
  return [...runs].sort((a, b) => a.processor - b.processor)[Math.floor(runs.length / 2)]!;
}
