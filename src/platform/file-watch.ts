/**
 * Tells which of some files have changed. What a file system tells is taken as a hint alone, since it tells too much, too
 * often, and on network drives nothing: files count as changed when their time, size or place on the disk is another.
 */
import { type FSWatcher, statSync, watch } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';

export interface FileChange {
  /** As they were named; files in a folder by their paths in it. */
  readonly paths: readonly string[];
  /** When the first hint of it came, by `performance.now()`. */
  readonly noticed: number;
}

/** An editor writes a file in several steps, or another and renames it: ms after the last of them. */
const QUIET = 30;
/** A file that is written anew is gone for a moment: ms until it counts as gone. */
const GONE = 1000;
/** Where no hints come, ms from one look to the next. */
const EVERY = 1000;
/** Larger files are written in more than a moment, so they have to be the same for some ms. */
const LARGE = 2 ** 20;
const SETTLED = 300;

/** Of a file or folder that is there: what tells it from the same with other content. */
interface Seen {
  readonly mark: string;
  readonly size: number;
}
type Look = ReadonlyMap<string, Seen>;

export class FileWatch {
  private readonly listeners = new Map<string, { readonly ino: number; readonly watcher: FSWatcher }>();
  private known: Look = new Map();
  /** Of what is not as it is known: since when it is as it is now. */
  private readonly since = new Map<string, { readonly mark: string | undefined; readonly at: number }>();
  private timer: NodeJS.Timeout | undefined;
  private noticed: number | undefined;
  private asking: ((change: FileChange) => void) | undefined;
  private pending: FileChange | undefined;
  private isClosed = false;

  /**
   * @param paths absolute; files, or folders of which all files with such names count
   * @param isWanted of names in a folder
   */
  constructor(
    private readonly paths: readonly string[],
    private readonly isWanted: (name: string) => boolean,
  ) {}

  /** From now on. */
  async begin(): Promise<void> {
    this.known = await this.look();
    this.listen();
    this.lookAfter(EVERY);
  }

  /** The next change, or all that changed since it was last asked for. */
  next(): Promise<FileChange> {
    const { pending } = this;
    this.pending = undefined;
    if (pending) return Promise.resolve(pending);
    return new Promise((resolve) => {
      this.asking = resolve;
    });
  }

  close(): void {
    this.isClosed = true;
    clearTimeout(this.timer);
    for (const { watcher } of this.listeners.values()) watcher.close();
    this.listeners.clear();
  }

  /** To folders, since a file that is renamed over another is one that nobody listens to yet; again where one is made anew. */
  private listen(): void {
    for (const folder of new Set(this.paths.flatMap((path) => [dirname(path), path]))) {
      const found = statSync(folder, { throwIfNoEntry: false });
      const now = this.listeners.get(folder);
      if (now?.ino === found?.ino || (now === undefined && !found?.isDirectory())) continue;
      now?.watcher.close();
      this.listeners.delete(folder);
      if (!found?.isDirectory()) continue;
      const watcher = watch(folder, () => this.hint());
      // What it would have told is found by looking.
      watcher.on('error', () => watcher.close());
      this.listeners.set(folder, { ino: found.ino, watcher });
    }
  }

  private hint(): void {
    this.noticed ??= performance.now();
    this.lookAfter(QUIET);
  }

  private lookAfter(ms: number): void {
    clearTimeout(this.timer);
    if (!this.isClosed) this.timer = setTimeout(() => void this.lookAgain(), ms);
  }

  private async lookAgain(): Promise<void> {
    const now = await this.look();
    if (this.isClosed) return;
    this.listen();
    const at = performance.now();
    const all = [...new Set([...this.known.keys(), ...now.keys()])];
    const changed = all.filter((path) => now.get(path)?.mark !== this.known.get(path)?.mark).sort();
    for (const path of this.since.keys()) if (!changed.includes(path)) this.since.delete(path);
    // All of a change is told together: who renames a folder of rules changes many files in a moment.
    let isSteady = true;
    for (const path of changed) {
      const seen = now.get(path);
      const known = this.since.get(path);
      const since = known && known.mark === seen?.mark ? known : { mark: seen?.mark, at };
      this.since.set(path, since);
      if (at - since.at < (seen === undefined ? GONE : seen.size >= LARGE ? SETTLED : 0)) isSteady = false;
    }
    if (changed.length === 0) this.noticed = undefined;
    else if (isSteady) {
      this.known = now;
      this.tell({ paths: changed, noticed: this.noticed ?? at });
    }
    this.lookAfter(isSteady ? EVERY : SETTLED);
  }

  private tell(change: FileChange): void {
    this.noticed = undefined;
    const { asking, pending } = this;
    this.asking = undefined;
    if (asking) asking(change);
    else this.pending = pending ? together(pending, change) : change;
  }

  private async look(): Promise<Look> {
    const seen = new Map<string, Seen>();
    const note = async (path: string): Promise<void> => {
      const found = await stat(path).catch(() => undefined); // not there, for now
      if (!found) return;
      // The time of a folder changes with files in it that nobody asks for.
      if (found.isDirectory()) seen.set(path, { mark: 'folder', size: 0 });
      else seen.set(path, { mark: `${found.ino} ${found.size} ${found.mtimeMs}`, size: found.size });
    };
    for (const path of this.paths) {
      await note(path);
      if (seen.get(path)?.mark !== 'folder') continue;
      const names = await readdir(path).catch((): string[] => []); // deleted since
      for (const name of names.filter(this.isWanted)) await note(join(path, name));
    }
    return seen;
  }
}

const together = (a: FileChange, b: FileChange): FileChange => ({
  paths: [...new Set([...a.paths, ...b.paths])].sort(),
  noticed: a.noticed,
});
