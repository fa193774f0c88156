/** Runs the compiled program as a person would, in a folder of their own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll } from 'vitest';

const MAIN = resolve('dist/src/cli/main.js');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

export function ratedrun(
  cwd: string,
  args: readonly string[],
  env: Record<string, string> = {},
  timeout = 300_000,
): Ran {
  const ran = spawnSync(process.execPath, [MAIN, ...args], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, ...env },
    maxBuffer: 64 << 20,
    timeout,
  });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

/** A folder that is removed when the test file is done. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'ratedrun-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
