/** Files that a server gives out of one folder, and nothing that lies elsewhere. */
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import { join, sep } from 'node:path';

/**
 * The bytes of a file that lies in the folder itself; undefined where there is none, where a link leads out of the folder,
 * and where it is no file (a pipe would keep whoever reads it waiting).
 *
 * @param name of the file, or a path below the folder, as the program itself names it
 */
export async function fileIn(folder: string, name: string): Promise<Uint8Array | undefined> {
  try {
    const path = await realpath(join(folder, name));
    if (path !== join(await realpath(folder), name) || !(await stat(path)).isFile()) return undefined;
    return await readFile(path);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw error;
  }
}

/** Paths of all files below a folder, from it, each with a slash in front; links are none of them. */
export async function filesUnder(folder: string): Promise<ReadonlySet<string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return new Set(
    entries
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name).slice(folder.length).split(sep).join('/')),
  );
}
