/** Finding words in the names that people give to things, whatever their case, accents and hyphens. */

export interface Words {
  /** Parts of names. */
  readonly words: readonly string[];
  /** Words that must stand alone, such as abbreviations. */
  readonly wholeWords?: readonly string[] | undefined;
}

interface PlainRow<Row extends Words> {
  readonly row: Row;
  readonly words: readonly string[];
  readonly wholeWords: readonly string[];
}

/** One table is asked for every element of a file. */
const PLAIN_TABLES = new WeakMap<readonly Words[], readonly PlainRow<Words>[]>();

function plainTable<Row extends Words>(table: readonly Row[]): readonly PlainRow<Row>[] {
  const known = PLAIN_TABLES.get(table);
  if (known) return known as readonly PlainRow<Row>[];
  const rows = table.map((row) => ({
    row,
    words: row.words.map(plainWords),
    wholeWords: (row.wholeWords ?? []).map(plainWords),
  }));
  PLAIN_TABLES.set(table, rows);
  return rows;
}

/** All rows of the table that fit a name, in the order of the table. */
export function rowsFor<Row extends Words>(name: string, table: readonly Row[]): Row[] {
  const plain = plainWords(name);
  return plainTable(table)
    .filter(
      ({ words, wholeWords }) =>
        words.some((word) => hasPart(plain, word)) || wholeWords.some((word) => ` ${plain} `.includes(` ${word} `)),
    )
    .map(({ row }) => row);
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
