/**
 * Files of a folder that are replaced as one set: whoever reads by this file sees all of the old set or all of the new one,
 * whatever is killed or loses power, and whoever else writes.
 *
 * No system renames several files at once, so one rename decides and the rest can be done by anybody, at any time:
 * 1. `.ratedrun-PID-HOST-ID/ID/` is filled and flushed to the disk: `put/` with the files, `drop/` with the names of what is
 *    to go. Whatever stops here changes nothing.
 * 2. It is renamed to `.ratedrun-commit`. From here on the new set holds. A rename onto a folder that is not empty fails
 *    everywhere, so there is one of them at a time, and who finds one puts it in place first.
 * 3. Whoever writes or reads puts it in place (`settle`): files go from `put/` into the folder, what is to go into `drop/`,
 *    then `ID` is renamed away. Every step has `ID` in its path, so done twice, late or by several at once it moves nothing
 *    of a later set. It is only finished, never taken back: nobody has to know whether its writer is still alive.
 *
 * Attempts that lost: lock files (a process that is suspended or on another machine looks dead, a new one with an old number
 * alive), renaming the folder itself (people keep other files in it, and have it open), links to it (not everybody may make
 * them on Windows), and renaming file by file, which a kill cuts in the middle.
 *
 * Steps are synchronous and signals to stop wait for them (`signals.ts`), so that only a kill leaves step 3 to the next.
 */
import { createHash, randomBytes } from 'node:crypto';
import { closeSync, existsSync, mkdirSync, openSync, readdirSync, rmdirSync, rmSync, statSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { codeOf, flushFolder, makeFolder, move, unless, WAIT_MS, writeFlushed } from './lasting.js';

/** Of a reader that may not write, until it gives up: 2 s. */
const READER_WAITS = 40;

/** Where a set lies between its commit and its place. */
export const COMMIT = '.ratedrun-commit';

/** What can't be put in place stays committed: it is neither lost nor half there. */
export class UnsettledError extends Error {}

/** As often others may commit before us or while we read; nobody writes that often. */
const MOST_TRIES = 1000;

/**
 * @param files bytes by name
 * @param drop names of files that go with the old set, where they are there
 * @throws errors of the file system: nothing has changed; UnsettledError
 */
export function writeSet(folder: string, files: Readonly<Record<string, Uint8Array>>, drop: readonly string[]): void {
  makeFolder(folder);
  removeAbandoned(folder);
  const id = randomBytes(8).toString('hex');
  const stage = join(folder, ownName(id));
  try {
    const [put, dropped] = [join(stage, id, 'put'), join(stage, id, 'drop')];
    for (const one of [put, dropped]) mkdirSync(one, { recursive: true });
    for (const [name, bytes] of Object.entries(files)) writeFlushed(join(put, name), bytes);
    for (const name of drop) writeFlushed(join(dropped, name), new Uint8Array());
    for (const one of [put, dropped, join(stage, id), stage]) flushFolder(one);
    const names = [...Object.keys(files), ...drop];
    for (const name of names) requireReplaceable(join(folder, name));
    if (names.length > 1 || drop.length > 0) commit(stage, folder);
    else {
      settle(folder); // or what waits there would go over it later
      for (const name of names) move(join(put, name), join(folder, name)); // one file commits itself
      flushFolder(folder);
    }
  } finally {
    remove(stage); // not there once it is committed
  }
  settle(folder);
}

function commit(stage: string, folder: string): void {
  for (let tries = 1; ; tries++) {
    settle(folder);
    try {
      move(stage, join(folder, COMMIT));
      return;
    } catch (error) {
      // Another writer was first: Linux says ENOTEMPTY, macOS EEXIST too, Windows EPERM or EACCES.
      if (tries >= MOST_TRIES || !existsSync(join(folder, COMMIT))) throw error;
    }
  }
}

/**
 * Puts the set in place that is committed, if there is one.
 *
 * @throws UnsettledError where a file can't be replaced, or the folder not be written
 */
export function settle(folder: string): void {
  const committed = join(folder, COMMIT);
  if (!existsSync(committed)) return;
  try {
    for (const id of namesIn(committed)) putInPlace(folder, id);
    unless(['ENOENT', 'ENOTEMPTY', 'EEXIST'], () => rmdirSync(committed)); // else the next one is there
  } catch (error) {
    throw new UnsettledError(
      `holds outputs that a run could not put in place (${codeOf(error)}): make it and its files writable, close them in other ` +
        `programs and run this again; they wait in ${COMMIT}.`,
      { cause: error },
    );
  }
}

/** Of each step another process may have been first: then there is nothing to move. */
function putInPlace(folder: string, id: string): void {
  const set = join(folder, COMMIT, id);
  const [put, drop] = [join(set, 'put'), join(set, 'drop')];
  flushFolder(folder); // what follows would be a mix without the commit
  for (const name of namesIn(put)) unless(['ENOENT'], () => move(join(put, name), join(folder, name)));
  for (const name of namesIn(drop)) unless(['ENOENT'], () => move(join(folder, name), join(drop, name)));
  flushFolder(folder); // before the only copy of what was to be done goes
  const done = join(folder, ownName(id));
  unless(['ENOENT'], () => move(set, done));
  remove(done);
}

/**
 * What `read` makes of the files, all of one set.
 *
 * @param names all that it reads
 * @throws what `read` throws; UnsettledError
 */
export async function readSet<T>(folder: string, names: readonly string[], read: () => Promise<T>): Promise<T> {
  for (let tries = 1; tries < MOST_TRIES; tries++) {
    await settledBySomebody(folder);
    const before = stampsOf(folder, names);
    const [result] = await Promise.allSettled([read()]);
    // In this order: what is committed after the first look has moved nothing yet, or shows in the second.
    if (existsSync(join(folder, COMMIT)) || stampsOf(folder, names) !== before) continue;
    if (result.status === 'rejected') throw result.reason;
    return result.value;
  }
  throw new UnsettledError('is written to all the time; wait until that is over.');
}

/** Who may only read waits for the writer, who needs a moment if it is alive. */
async function settledBySomebody(folder: string): Promise<void> {
  for (let waits = 0; ; waits++) {
    try {
      settle(folder);
      return;
    } catch (error) {
      if (waits >= READER_WAITS) throw error;
      await new Promise((go) => setTimeout(go, WAIT_MS));
    }
  }
}

/** The same as long as no file is another one: a set never writes into a file, it replaces it. */
const stampsOf = (folder: string, names: readonly string[]): string =>
  names
    .map((name) => {
      const at = statSync(join(folder, name), { bigint: true, throwIfNoEntry: false });
      return at ? [at.dev, at.ino, at.mtimeNs, at.size].join(':') : '';
    })
    .join(' ');

/** A day after the last change nobody is filling it any more, whoever it was. */
const ABANDONED_AFTER = 24 * 3600 * 1000;
const HOST = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
const OWN_NAME = /^\.ratedrun-(\d+)-([0-9a-f]{8})-[0-9a-f]{16}$/;

const ownName = (id: string): string => `.ratedrun-${process.pid}-${HOST}-${id}`;

/** What killed runs left before they committed, or after all was in place. Those of running ones stay. */
function removeAbandoned(folder: string): void {
  for (const name of namesIn(folder)) {
    const [, pid, host] = OWN_NAME.exec(name) ?? [];
    if (pid === undefined) continue;
    const path = join(folder, name);
    const changed = statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    if (Date.now() - changed > ABANDONED_AFTER || (host === HOST && !isRunning(Number(pid), changed))) remove(path);
  }
}

/** @param since when what it left was changed, ms: in a container the next run often has the number of the one before */
function isRunning(pid: number, since: number): boolean {
  if (pid === process.pid) return since >= Date.now() - process.uptime() * 1000;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== 'ESRCH'; // somebody else's may not be asked, but is there
  }
}

/** What stays is for a later run: others may be at it, have it open or own it, and some full disks can't even delete. */
const remove = (folder: string): void =>
  unless(['ENOTEMPTY', 'EACCES', 'EPERM', 'EBUSY', 'ENOSPC'], () => rmSync(folder, { recursive: true, force: true }));

const namesIn = (folder: string): string[] => unless(['ENOENT', 'ENOTDIR'], () => readdirSync(folder)) ?? [];

/** What can't be replaced is better known before the commit than after. */
function requireReplaceable(path: string): void {
  const is = statSync(path, { throwIfNoEntry: false });
  if (is?.isDirectory()) throw Object.assign(new Error(`${path} is a folder`), { code: 'EISDIR' });
  // On Windows a file that another program has open, or that is read-only, stays where it is.
  if (is && process.platform === 'win32') closeSync(openSync(path, 'r+'));
}
