/** The zip archive of a BCF file: what lies in it, by path; checked before it is unpacked. */
import { unzipSync, type Zippable, zipSync } from 'fflate';
import { zipTime } from '../zip-time.js';
import { attribute, parse, readMarkup } from './read-markup.js';
import { BCF_VERSIONS, BcfError, type BcfVersion, type Topic } from './topic.js';

/** Entries by path with forward slashes; no folders. */
export type Entries = ReadonlyMap<string, Uint8Array>;

export interface StoredTopic {
  /** Name of its folder, as it is written. */
  readonly folder: string;
  /** Of its markup. */
  readonly path: string;
  readonly topic: Topic;
}

export interface BcfFile {
  readonly version: BcfVersion;
  readonly entries: Entries;
  readonly topics: readonly StoredTopic[];
}

/** A file that unpacks to more is refused before it is unpacked. */
const LARGEST_UNPACKED = 2 ** 30;
/** Markup is text that people wrote; more than this is no such thing. */
const LARGEST_MARKUP = 32 * 2 ** 20;

/** @throws BcfError */
export function readBcf(bytes: Uint8Array): BcfFile {
  const entries = unpack(bytes);
  const version = versionOf(entries);
  const guids = new Set<string>();
  const topics: StoredTopic[] = [];
  for (const [path, content] of entries) {
    const folder = /^([^/]+)\/markup\.bcf$/i.exec(path)?.[1];
    if (folder === undefined) continue;
    if (content.length > LARGEST_MARKUP) throw new BcfError(`is damaged: ${path} is larger than 32 MiB`);
    const topic = readMarkup(content, path);
    if (guids.has(topic.guid)) throw new BcfError(`holds two topics of the GUID ${topic.guid}; remove one`);
    guids.add(topic.guid);
    topics.push({ folder, path, topic });
  }
  return { version, entries, topics };
}

function unpack(bytes: Uint8Array): Entries {
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new BcfError('is no zip archive, so no BCF file; choose another');
  let total = 0;
  let found: Record<string, Uint8Array>;
  try {
    found = unzipSync(bytes, {
      filter: (file) => {
        total += file.originalSize;
        return total <= LARGEST_UNPACKED && !/[\\/]$/.test(file.name) && !file.name.startsWith('__MACOSX/');
      },
    });
  } catch (error) {
    throw new BcfError(`is a damaged zip archive (${error instanceof Error ? error.message : error}); export it again`);
  }
  if (total > LARGEST_UNPACKED) throw new BcfError('unpacks to more than 1 GiB, which no BCF file needs');
  return new Map(Object.entries(found).map(([path, content]) => [path.replaceAll('\\', '/'), content]));
}

function versionOf(entries: Entries): BcfVersion {
  const content = entries.get('bcf.version');
  if (!content) throw new BcfError('is no BCF file: it holds no bcf.version; choose another');
  const id = attribute(parse(content, 'bcf.version', 'Version'), 'VersionId') ?? '(none)';
  const known = BCF_VERSIONS.find((version) => version === id);
  if (!known) throw new BcfError(`is BCF ${id}, which is not read; export it as BCF 3.0 or 2.1`);
  return known;
}

/** Folders have entries of their own, as the standard asks; pictures are not packed again. */
export function writeArchive(entries: Entries, createdAt: string): Uint8Array {
  const files: Zippable = {};
  for (const [path, content] of entries) {
    const parts = path.split('/');
    for (let depth = 1; depth < parts.length; depth++) files[`${parts.slice(0, depth).join('/')}/`] = new Uint8Array();
    files[path] = [content, { level: /\.(png|jpe?g)$/i.test(path) ? 0 : 6 }];
  }
  return zipSync(files, { mtime: zipTime(createdAt) });
}
