/** What names say of spaces and zones: whether they are shafts. */
import type { Source } from './source.js';
import { hasWord, text } from './value.js';

/** Parts of names in English, German, French, Italian, Spanish, Dutch and the Nordic languages. Common practice, no source. */
const WORDS = ['shaft', 'riser', 'schacht', 'gaine', 'cavedio', 'patinillo', 'koker', 'sjakt', 'schakt', 'skakt'];
/** A name of figures and single letters, such as a room's number, says nothing. */
const NAME = /\p{L}{3}/u;

/** Undefined where the names say nothing of what it is. */
export function saysShaft({ facts }: Source, names: readonly unknown[]): boolean | undefined {
  const stated = names.map(text).filter((name) => name !== undefined && NAME.test(name));
  if (stated.length === 0) return undefined;
  return stated.some((name) => hasWord(name!, [...WORDS, ...(facts?.shafts ?? [])]));
}
