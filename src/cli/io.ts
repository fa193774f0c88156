/** Files of the person who runs the program: read with one clear line on every fault, written all or nothing. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open, readdir, readFile, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { readSet, UnsettledError, writeSet } from '../platform/file-set.js';
import { codeOf } from '../platform/lasting.js';
import { packageRoot } from '../platform/package-root.js';
import { uninterrupted } from '../platform/signals.js';
import type { ModelInput } from '../read/file-reader.js';

/** The review can not be made: one line that says which file, what is wrong and what to do. Exit code 2. */
export class UsageError extends Error {}

/** The folder the person stands in; `npm run` moves the program to the package's own folder and says where they were. */
export function standingIn(env: NodeJS.ProcessEnv = process.env, cwd: string = process.cwd()): string {
  const moved = env.npm_lifecycle_event === 'ratedrun' && env.INIT_CWD !== undefined && resolve(cwd) === packageRoot;
  return moved ? env.INIT_CWD! : cwd;
}

/** @throws UsageError */
export const readInput = (path: string): Promise<Uint8Array> => readBy((at) => readFile(at), path);

async function readBy<T>(read: (path: string) => Promise<T>, path: string): Promise<T> {
  try {
    return await read(resolve(standingIn(), path));
  } catch (error) {
    throw new UsageError(`${path} ${faultOf(error)}`);
  }
}

/**
 * Whoever mistyped a path should not wait until rules are loaded.
 *
 * @throws UsageError as `readModels`
 */
export async function requireModels(paths: readonly string[]): Promise<void> {
  for (const path of paths) await readBy(async (at) => (await open(at)).close(), path);
}

/** Into memory that threads share, so that a large model is not copied for its reader. What is no plain file has no size. */
async function readShared(path: string): Promise<Uint8Array> {
  const file = await open(path);
  try {
    const found = await file.stat();
    if (!found.isFile()) return await file.readFile();
    const bytes = new Uint8Array(new SharedArrayBuffer(found.size));
    let length = 0;
    for (let more = 1; more > 0 && length < bytes.length; length += more)
      more = (await file.read(bytes, length, bytes.length - length)).bytesRead;
    return bytes.subarray(0, length);
  } finally {
    await file.close();
  }
}

/** Four bytes for each of the characters that a document may have; what is longer, or never ends, is none. */
const LARGEST_DOCUMENT = 1_200_000;

/**
 * A rule document, a brief or a list of jobs.
 * @throws UsageError
 */
export async function readDocument(path: string, largest: number = LARGEST_DOCUMENT): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  try {
    for await (const chunk of createReadStream(resolve(standingIn(), path), { end: largest })) chunks.push(chunk);
  } catch (error) {
    const isFolder = codeOf(error) === 'EISDIR';
    throw new UsageError(`${path} ${isFolder ? 'is a folder; name a file in it.' : faultOf(error)}`);
  }
  const bytes = Buffer.concat(chunks);
  if (bytes.length > largest)
    throw new UsageError(`${path} has more than ${largest} bytes, which no such document has; name another file.`);
  return bytes;
}

export async function readModels(paths: readonly string[]): Promise<ModelInput[]> {
  const distinct = [...new Set(paths.map((path) => resolve(standingIn(), path)))];
  const shown = new Map(paths.map((path) => [resolve(standingIn(), path), path]));
  return Promise.all(
    distinct.map(async (path) => {
      const bytes = await readBy(readShared, shown.get(path)!);
      // Node's own hash takes a fourteenth of the time of the one that also runs in browsers.
      return { name: basename(path), bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
    }),
  );
}

/** The rule documents that are named: files, or folders with .yaml files in them. */
export async function readRuleTexts(paths: readonly string[]): Promise<{ file: string; text: string }[]> {
  const files = await Promise.all(paths.map(yamlFiles));
  const decoder = new TextDecoder();
  return Promise.all(files.flat().map(async (file) => ({ file, text: decoder.decode(await readDocument(file)) })));
}

async function yamlFiles(path: string): Promise<string[]> {
  const full = resolve(standingIn(), path);
  const isFolder = await stat(full).then(
    (s) => s.isDirectory(),
    (error) => {
      throw new UsageError(`${path} ${faultOf(error)}`);
    },
  );
  if (!isFolder) return [path];
  const names = (await readdir(full)).filter(isYaml).sort();
  if (names.length === 0) throw new UsageError(`${path} holds no .yaml rule document; name a file or another folder.`);
  return names.map((name) => join(path, name));
}

export async function shippedRuleTexts(): Promise<{ file: string; text: string }[]> {
  const folder = join(packageRoot, 'rules');
  const names = (await readdir(folder)).filter((name) => name.endsWith('.yaml')).sort();
  return Promise.all(names.map(async (file) => ({ file, text: await readFile(join(folder, file), 'utf8') })));
}

/**
 * Writes all files as one set: a run that stops leaves what was there before, or all of these.
 *
 * @param option the option that names the folder, for the error line
 * @param outdated files of an earlier run that have no successor: they would say what holds no longer
 * @throws UsageError when the folder can't be written
 */
export async function writeOutputs(
  folder: string,
  files: Readonly<Record<string, Uint8Array>>,
  { option = '--out', outdated = [] }: { readonly option?: string; readonly outdated?: readonly string[] } = {},
): Promise<string[]> {
  try {
    await uninterrupted(() => writeSet(resolve(standingIn(), folder), files, outdated));
    return Object.keys(files).map((name) => join(folder, name));
  } catch (error) {
    if (error instanceof UnsettledError) throw new UsageError(`${folder} ${error.message}`);
    throw new UsageError(`${folder} can not be written (${codeOf(error)}); choose another folder with ${option}.`);
  }
}

/**
 * What `read` makes of files that `writeOutputs` wrote, all from one run.
 *
 * @param names all that it reads
 * @throws UsageError, what `read` throws
 */
export async function readOutputs<T>(folder: string, names: readonly string[], read: () => Promise<T>): Promise<T> {
  try {
    return await readSet(resolve(standingIn(), folder), names, read);
  } catch (error) {
    if (error instanceof UnsettledError) throw new UsageError(`${folder} ${error.message}`);
    throw error;
  }
}

const FAULTS: Readonly<Record<string, string>> = {
  ENOENT: 'does not exist; check the path.',
  EISDIR: 'is a folder; name the .ifc files in it.',
  EACCES: 'may not be read by you; change its permissions.',
  ENOTDIR: 'does not exist; check the path.',
};

/** Of the files of a folder, those that are rule documents. */
export const isYaml = (name: string): boolean => /\.ya?ml$/i.test(name);

const faultOf = (error: unknown): string => FAULTS[codeOf(error)] ?? `can not be read (${codeOf(error)}).`;
