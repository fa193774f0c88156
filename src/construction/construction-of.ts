/** What a barrier is built of, as classes of tested construction, from the names of its layers or of itself. */
import type { Construction, ConstructionWords } from '../model.js';

/**
 * One class among the layers; where layers say nothing, among the names; several or none: unknown, never a guess. A name
 * may say more than the layers do: a shaft wall has studs of steel. Of the rows of the table that speak of constructions
 * the first that fits a name counts.
 */
export function constructionOf(
  layers: readonly string[],
  names: readonly string[],
  table: readonly ConstructionWords[],
): Construction {
  const [built, named] = [layers, names].map((texts) => classOf(texts, table));
  if (!built) return named ?? 'unknown';
  return named && named !== 'unknown' && besideOf(named, table).includes(built) ? named : built;
}

/** Undefined where no text says anything. */
function classOf(texts: readonly string[], table: readonly ConstructionWords[]): Construction | undefined {
  const classes = new Set(texts.map((text) => constructionIn(text, table)).filter((one) => one !== undefined));
  return classes.size > 1 ? (leading(classes, table) ?? 'unknown') : [...classes][0];
}

export const constructionIn = (name: string, table: readonly ConstructionWords[]): Construction | undefined =>
  rowFor(name, table, ({ construction }) => construction !== undefined)?.construction;

/** Classes of other layers that leave one what it is. */
export const besideOf = (construction: Construction, table: readonly ConstructionWords[]): readonly Construction[] =>
  table.filter((row) => row.construction === construction).flatMap((row) => row.beside ?? []);

/** @param speaksOf which rows are asked */
export function rowFor(
  name: string,
  table: readonly ConstructionWords[],
  speaksOf: (row: ConstructionWords) => boolean = () => true,
): ConstructionWords | undefined {
  const plain = plainWords(name);
  return plainTable(table).find(
    ({ row, words, wholeWords }) =>
      speaksOf(row) &&
      (words.some((word) => hasPart(plain, word)) || wholeWords.some((word) => ` ${plain} `.includes(` ${word} `))),
  )?.row;
}

interface PlainRow {
  readonly row: ConstructionWords;
  readonly words: readonly string[];
  readonly wholeWords: readonly string[];
}

/** One table is asked for every barrier of a file. */
const PLAIN_TABLES = new WeakMap<readonly ConstructionWords[], readonly PlainRow[]>();

function plainTable(table: readonly ConstructionWords[]): readonly PlainRow[] {
  const known = PLAIN_TABLES.get(table);
  if (known) return known;
  const rows = table.map((row) => ({
    row,
    words: row.words.map(plainWords),
    wholeWords: (row.wholeWords ?? []).map(plainWords),
  }));
  PLAIN_TABLES.set(table, rows);
  return rows;
}

/** The class beside which all others may stand, such as the concrete on a deck. */
function leading(classes: ReadonlySet<Construction>, table: readonly ConstructionWords[]): Construction | undefined {
  const leaders = [...classes].filter((one) =>
    [...classes].every((other) => other === one || besideOf(one, table).includes(other)),
  );
  return leaders.length === 1 ? leaders[0] : undefined;
}

/** "Hollow-core" and "hollowcore" are "hollow core". */
const hasPart = (name: string, word: string): boolean =>
  name.includes(word) || (word.includes(' ') && name.replaceAll(' ', '').includes(word.replaceAll(' ', '')));

/** Small letters without accents, one blank between words. */
export const plainWords = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replaceAll('ł', 'l')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
