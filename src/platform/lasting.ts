/** Files and folders that outlast a loss of power: flushed to the disk, not only handed to the system. */
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** With all folders above it that are not there. */
export function makeFolder(folder: string): void {
  const first = mkdirSync(folder, { recursive: true });
  if (first === undefined) return;
  for (let at = folder; at.length >= first.length && at !== dirname(at); at = dirname(at)) flushFolder(dirname(at));
}

export function writeFlushed(path: string, bytes: Uint8Array): void {
  const file = openSync(path, 'wx');
  try {
    writeFileSync(file, bytes);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Makes names last through a loss of power. Windows has no such call, and some network drives take none. */
export function flushFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const file = unless(['EACCES'], () => openSync(folder, 'r')); // it may be ours to write and not to read
  if (file === undefined) return;
  try {
    unless(['EINVAL', 'ENOTSUP'], () => fsyncSync(file));
  } finally {
    closeSync(file);
  }
}

/** Virus scanners and indexers of Windows keep new files open for a moment. */
const WAITS = process.platform === 'win32' ? 20 : 0;
export const WAIT_MS = 50;

export function move(from: string, to: string): void {
  for (let waits = 0; ; waits++) {
    try {
      renameSync(from, to);
      return;
    } catch (error) {
      if (waits >= WAITS || !['EPERM', 'EACCES', 'EBUSY'].includes(codeOf(error))) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, WAIT_MS);
    }
  }
}

/** Undefined where it fails for one of these. */
export function unless<T>(codes: readonly string[], work: () => T): T | undefined {
  try {
    return work();
  } catch (error) {
    if (codes.includes(codeOf(error))) return undefined;
    throw error;
  }
}

export const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : String(error);
