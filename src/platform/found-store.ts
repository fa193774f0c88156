/**
 * What reading and finding came to, kept in a folder beside the report, so that another rule or choice is judged without
 * reading again. A file's name is a hash of all that its content follows from; what is damaged, cut off or from another
 * program is as good as not there. The folder may be deleted at any time.
 *
 * Frames of `v8.serialize`: JSON reads a little faster, but loses -0 and what is undefined, so reports would differ. Each
 * frame holds some of a list, so that no whole building is in memory twice, and carries a hash that goes on from the one
 * before.
 */
import { createHash, randomUUID } from 'node:crypto';
import { type FileHandle, mkdir, open, readdir, rename, rm, stat, utimes } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { compareNumbers } from '../collect.js';
import type { FoundStore, Kept } from '../review/found.js';
import { programVersions } from './program-versions.js';

export const STORE_FOLDER = '.ratedrun-cache';

/** Of each kind: what is checked now and what was before, e.g. under other facts of the brief. */
const KEPT_KEYS = 2;
/** Items of a list in one frame: some MB of the largest. */
const FRAME_ITEMS = 500;
const MAGIC = Buffer.from('ratedrun-cache 1\n');
const HASH = 32;
const HEAD = 4 + HASH;
/** No frame is longer; a longer one is a damaged one. */
const LONGEST = 2 ** 30;
/** Longer ago than any review takes to write: whoever began it was stopped. */
const ABANDONED = 3_600_000;

export interface StoreOptions {
  /** Told once in words that follow the folder's name, where something can't be kept; the review goes on. */
  readonly onProblem: (problem: string) => void;
  /** Left out: of this program. */
  readonly versions?: string;
}

export function foundStore(folder: string, { onProblem, versions = programVersions() }: StoreOptions): FoundStore {
  const pathOf = (kind: keyof Kept, key: string): string => {
    const name = createHash('sha256').update(`${MAGIC}${versions}\n${kind}\n${key}`).digest('hex').slice(0, 32);
    return join(folder, `${kind}-${name}.bin`);
  };
  return {
    async get<K extends keyof Kept>(kind: K, key: string) {
      const path = pathOf(kind, key);
      const value = await readKept(path);
      const now = new Date();
      // The one used last is the last to go. Where it can't be touched it goes earlier, no more.
      if (value !== undefined) await utimes(path, now, now).catch(() => {});
      return value as Kept[K] | undefined;
    },
    async put(kind, key, value) {
      const aside = join(folder, `.${randomUUID()}.tmp`);
      try {
        await mkdir(folder, { recursive: true });
        await writeKept(aside, value);
        await rename(aside, pathOf(kind, key));
        await tidy(folder, kind);
      } catch (error) {
        onProblem(`can not be written (${error instanceof Error ? error.message : String(error)})`);
        await rm(aside, { force: true }).catch(() => {}); // what can't be written may not be there to be deleted
      }
    },
  };
}

// ------------------------------------------------------------------------------------------------------------ frames

/** An object, its long lists cut into several. */
type Slice = readonly [key: string, items: readonly unknown[]];

function* framesOf(value: object): Generator<unknown> {
  const lists = Object.entries(value).filter(([, list]) => Array.isArray(list) && list.length > FRAME_ITEMS);
  yield { ...value, ...Object.fromEntries(lists.map(([key]) => [key, []])) };
  for (const [key, list] of lists as [string, unknown[]][])
    for (let at = 0; at < list.length; at += FRAME_ITEMS) yield [key, list.slice(at, at + FRAME_ITEMS)] satisfies Slice;
}

async function writeKept(path: string, value: object): Promise<void> {
  const file = await open(path, 'wx');
  try {
    let last: Buffer = MAGIC;
    await file.write(MAGIC);
    const write = async (bytes: Buffer): Promise<void> => {
      last = hashAfter(last, bytes);
      const head = Buffer.alloc(HEAD);
      head.writeUInt32LE(bytes.length);
      last.copy(head, 4);
      await file.writev([head, bytes]);
    };
    for (const frame of framesOf(value)) await write(serialize(frame));
    await write(Buffer.alloc(0));
    await file.datasync();
  } finally {
    await file.close();
  }
}

const hashAfter = (last: Buffer, bytes: Buffer): Buffer => createHash('sha256').update(last).update(bytes).digest();

/** Undefined where it is not there, not ours, or not whole. */
async function readKept(path: string): Promise<object | undefined> {
  const file = await open(path).catch(() => undefined); // not there, or not ours to read
  if (!file) return undefined;
  try {
    return await framesIn(file);
  } catch {
    return undefined; // a frame that this Node can't read is damaged too
  } finally {
    await file.close();
  }
}

async function framesIn(file: FileHandle): Promise<object | undefined> {
  let last: Buffer = await nextBytes(file, MAGIC.length);
  if (!last.equals(MAGIC)) return undefined;
  let value: Record<string, unknown> | undefined;
  for (;;) {
    const head = await nextBytes(file, HEAD);
    const length = head.readUInt32LE();
    if (length > LONGEST) return undefined;
    const bytes = await nextBytes(file, length);
    last = hashAfter(last, bytes);
    if (!last.equals(head.subarray(4))) return undefined;
    if (length === 0) return value;
    const frame: unknown = deserialize(bytes);
    if (!value) value = frame as Record<string, unknown>;
    else {
      const [key, items] = frame as Slice;
      const list = value[key] as unknown[];
      for (const item of items) list.push(item);
    }
  }
}

/** @throws where the file ends before */
async function nextBytes(file: FileHandle, length: number): Promise<Buffer> {
  const bytes = Buffer.alloc(length);
  for (let at = 0; at < length; ) {
    const { bytesRead } = await file.read(bytes, at, length - at);
    if (bytesRead === 0) throw new Error('cut off');
    at += bytesRead;
  }
  return bytes;
}

/** Deletes all but those used last, and what was begun and never finished. */
async function tidy(folder: string, kind: keyof Kept): Promise<void> {
  const names = await readdir(folder);
  const files = await Promise.all(
    names.map(async (name) => {
      const path = join(folder, name);
      const { mtimeMs: used } = await stat(path).catch(() => ({ mtimeMs: Date.now() })); // another review deleted it
      return { name, path, used };
    }),
  );
  const own = files.filter(({ name }) => name.startsWith(`${kind}-`) && name.endsWith('.bin'));
  const old = own.sort((a, b) => compareNumbers(b.used, a.used)).slice(KEPT_KEYS);
  const abandoned = files.filter(({ name, used }) => name.endsWith('.tmp') && Date.now() - used > ABANDONED);
  for (const { path } of [...old, ...abandoned]) await rm(path, { force: true });
}
