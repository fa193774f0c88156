/** Starts programs that are to be broken. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { packageRoot } from '../../src/platform/package-root.js';
import type { AtStep } from './at-step.js';

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly err: string;
}

/** Compiled, also where a test runs from source. */
const compiled = (...path: string[]): string => join(packageRoot, 'dist', ...path);
export const WRITE_SETS = compiled('tests', 'kill', 'write-sets.js');
export const RATEDRUN = compiled('src', 'cli', 'main.js');

export interface StartOptions {
  readonly at?: AtStep;
  readonly env?: Readonly<Record<string, string>>;
  /** Killed after so long, ms, where it still runs. */
  readonly kill?: { readonly after: number; readonly signal: NodeJS.Signals };
  readonly cwd?: string;
  /** Another user than the one who runs the tests. */
  readonly uid?: number;
}

export function start(program: string, args: readonly string[], options: StartOptions = {}): Promise<Ended> {
  const { at, env, kill, cwd, uid } = options;
  const preload = at === undefined ? [] : ['--import', pathToFileURL(compiled('tests', 'kill', 'at-step.js')).href];
  const child = spawn(process.execPath, [...preload, program, ...args], {
    env: { ...process.env, ...env, ...(at !== undefined && { RATEDRUN_AT_STEP: JSON.stringify(at) }) },
    stdio: ['ignore', 'ignore', 'pipe'],
    ...(cwd !== undefined && { cwd }),
    ...(uid !== undefined && { uid }),
  });
  const timer = kill && setTimeout(() => child.kill(kill.signal), kill.after);
  let err = '';
  child.stderr.on('data', (part: Buffer) => {
    err += part.toString();
  });
  return new Promise((done, failed) => {
    child.once('error', failed);
    child.once('close', (code, signal) => {
      clearTimeout(timer);
      done({ code, signal, err });
    });
  });
}
