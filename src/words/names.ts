/** Finding words in the names that people give to things, whatever their case, accents and hyphens. */

export interface Words {
  /** Parts of names. */
  readonly words: readonly string[];
  /** Words that must stand alone, such as abbreviations. */
  readonly wholeWords?: readonly string[] | undefined;
}

interface PlainRow<Row extends Words> {
  readonly row: Row;
  readonly words: readonly PlainWord[];
  /** With a blank on either side. */
  readonly wholeWords: readonly string[];
}

interface PlainWord {
  readonly word: string;
  /** "hollowcore" of "hollow core"; null where there is no blank. */
  readonly joined: string | null;
}

/** One table is asked for every element of a file. */
const PLAIN_TABLES = new WeakMap<readonly Words[], readonly PlainRow<Words>[]>();

function plainTable<Row extends Words>(table: readonly Row[]): readonly PlainRow<Row>[] {
  const known = PLAIN_TABLES.get(table);
  if (known) return known as readonly PlainRow<Row>[];
  const rows = table.map((row) => ({
    row,
    words: row.words.map(plainWords).map((word) => ({ word, joined: word.includes(' ') ? withoutBlanks(word) : null })),
    wholeWords: (row.wholeWords ?? []).map((word) => ` ${plainWords(word)} `),
  }));
  PLAIN_TABLES.set(table, rows);
  return rows;
}

/** All rows of the table that fit a name, in the order of the table. */
export function rowsFor<Row extends Words>(name: string, table: readonly Row[]): Row[] {
  const plain = plainWords(name);
  const [joinedName, apart] = [withoutBlanks(plain), ` ${plain} `];
  // "Hollow-core" and "hollowcore" are "hollow core".
  const hasPart = ({ word, joined }: PlainWord): boolean =>
    plain.includes(word) || (joined !== null && joinedName.includes(joined));
  return plainTable(table)
    .filter(({ words, wholeWords }) => words.some(hasPart) || wholeWords.some((word) => apart.includes(word)))
    .map(({ row }) => row);
}

const withoutBlanks = (text: string): string => text.replaceAll(' ', '');

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
