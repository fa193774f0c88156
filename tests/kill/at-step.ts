/**
 * Loaded into a program before it starts (`node --import`): stops it, or lets its disk be full, before one step of what it
 * writes below a folder. The program itself knows nothing of it. A write that is cut is cut in the middle.
 */
import fs, { type PathLike } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { sep } from 'node:path';
import { isMainThread } from 'node:worker_threads';

export type Fault = 'SIGKILL' | 'SIGINT' | 'SIGTERM' | 'ENOSPC';

/** As JSON in `RATEDRUN_AT_STEP`. */
export interface AtStep {
  readonly folder: string;
  /** From 1 on. */
  readonly step: number;
  readonly fault: Fault;
  /** Takes the number of steps, where the program gets to its end. */
  readonly countTo?: string;
}

const asked = process.env.RATEDRUN_AT_STEP;
if (asked !== undefined && isMainThread) breakAt(JSON.parse(asked) as AtStep);

function breakAt({ folder, step, fault, countTo }: AtStep): void {
  const original = { ...fs };
  const opened = new Set<number>();
  let steps = 0;
  const isOurs = (at: unknown): boolean =>
    typeof at === 'number' ? opened.has(at) : String(at) === folder || String(at).startsWith(folder + sep);

  /** @param half what comes about of the step before it is broken off */
  const before = (at: unknown, half: () => void = () => {}): void => {
    if (!isOurs(at) || ++steps !== step) return;
    if (fault === 'SIGKILL' || fault === 'ENOSPC') half(); // the others let the program go on
    if (fault === 'ENOSPC') throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' });
    process.kill(process.pid, fault);
  };

  fs.openSync = (path: PathLike, flags?, mode?) => {
    if (flags !== 'r') before(path);
    const file = original.openSync(path, flags ?? 'r', mode);
    if (isOurs(path)) opened.add(file);
    return file;
  };
  fs.closeSync = (file) => {
    original.closeSync(file);
    opened.delete(file);
  };
  fs.writeFileSync = (file, data, options) => {
    const bytes = Buffer.from(data as Uint8Array);
    before(file, () => original.writeFileSync(file, bytes.subarray(0, bytes.length >> 1)));
    original.writeFileSync(file, data, options);
  };
  for (const name of ['mkdirSync', 'fsyncSync', 'renameSync', 'rmdirSync', 'rmSync'] as const) {
    const real = original[name] as (...given: unknown[]) => unknown;
    const broken = (...given: unknown[]): unknown => {
      before(given[0]);
      return real(...given);
    };
    Object.assign(fs, { [name]: broken });
  }
  syncBuiltinESMExports();
  if (countTo !== undefined) process.on('exit', () => original.writeFileSync(countTo, String(steps)));
}
