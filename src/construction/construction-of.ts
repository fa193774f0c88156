/** What a barrier is built of, as classes of tested construction, from the names of its layers or of itself. */
import type { Construction, ConstructionWords } from '../model.js';

/**
 * One class among the layers; where layers say nothing, among the names; several or none: unknown, never a guess. Of the
 * rows of the table the first that fits a name counts.
 */
export function constructionOf(
  layers: readonly string[],
  names: readonly string[],
  table: readonly ConstructionWords[],
): Construction {
  for (const texts of [layers, names]) {
    const rows = new Set(texts.map((name) => rowFor(name, table)).filter((row) => row !== undefined));
    const classes = new Set([...rows].map(({ construction }) => construction));
    if (classes.size === 1) return [...classes][0]!;
    if (classes.size > 1) return leading([...rows], classes) ?? 'unknown';
  }
  return 'unknown';
}

function rowFor(name: string, table: readonly ConstructionWords[]): ConstructionWords | undefined {
  const plain = plainWords(name);
  return plainTable(table).find(
    ({ words, wholeWords }) =>
      words.some((word) => hasPart(plain, word)) || wholeWords.some((word) => ` ${plain} `.includes(` ${word} `)),
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
function leading(rows: readonly ConstructionWords[], classes: ReadonlySet<Construction>): Construction | undefined {
  const beside = (construction: Construction) =>
    rows.filter((row) => row.construction === construction).flatMap((row) => row.beside ?? []);
  const leaders = [...classes].filter((one) =>
    [...classes].every((other) => other === one || beside(one).includes(other)),
  );
  return leaders.length === 1 ? leaders[0] : undefined;
}

/** "Hollow-core" and "hollowcore" are "hollow core". */
const hasPart = (name: string, word: string): boolean =>
  name.includes(word) || (word.includes(' ') && name.replaceAll(' ', '').includes(word.replaceAll(' ', '')));

/** Small letters without accents, one blank between words. */
const plainWords = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replaceAll('ł', 'l')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
