/** Sets of files that say of each file which set it is of, and whether it is whole. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readOutputs } from '../../src/cli/io.js';

const NAMES = ['facts.json', 'geometry.glb', 'register.xlsx', 'report.json'];
/** Only sets with an odd number have it; the others take it away. */
const SOMETIMES = 'opening-requests.ifc';

export const setOf = (tag: number): { files: Record<string, Uint8Array>; outdated: string[] } => ({
  files: Object.fromEntries(namesIn(tag).map((name) => [name, contentOf(tag, name)])),
  outdated: tag % 2 === 1 ? [] : [SOMETIMES],
});

/**
 * The set that a reader of the program finds in the folder; null: none.
 * @throws where it is no whole set
 */
export const setIn = (folder: string): Promise<number | null> =>
  readOutputs(folder, [...NAMES, SOMETIMES], async () => plainSetIn(folder));

/** The same as any other program finds it. */
export function plainSetIn(folder: string): number | null {
  const found = [...NAMES, SOMETIMES].flatMap((name) => {
    try {
      return [{ name, bytes: readFileSync(join(folder, name)) }];
    } catch (error) {
      if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
      throw error;
    }
  });
  if (found.length === 0) return null;
  const tag = Number.parseInt(found[0]!.bytes.toString('latin1'), 10);
  const wanted = namesIn(tag);
  const isWhole =
    found.length === wanted.length &&
    found.every(({ name, bytes }) => wanted.includes(name) && bytes.equals(contentOf(tag, name)));
  if (!isWhole)
    throw new Error(`a mix: ${found.map(({ name, bytes }) => `${name} ${bytes.subarray(0, 8)}`).join(', ')}`);
  return tag;
}

const namesIn = (tag: number): string[] => (tag % 2 === 1 ? [...NAMES, SOMETIMES] : NAMES);

const contentOf = (tag: number, name: string): Buffer =>
  Buffer.from(`${tag} ${name}\n`.repeat(100 + ((tag * 37 + name.length * 11) % 400)));
