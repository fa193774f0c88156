/** What a barrier is built of, as classes of tested construction, from the names of its layers or of itself. */
import type { Construction, ConstructionWords } from '../model.js';
import { rowsFor } from '../words/names.js';

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

const rowFor = (name: string, table: readonly ConstructionWords[]): ConstructionWords | undefined =>
  rowsFor(name, table)[0];

/** The class beside which all others may stand, such as the concrete on a deck. */
function leading(rows: readonly ConstructionWords[], classes: ReadonlySet<Construction>): Construction | undefined {
  const beside = (construction: Construction) =>
    rows.filter((row) => row.construction === construction).flatMap((row) => row.beside ?? []);
  const leaders = [...classes].filter((one) =>
    [...classes].every((other) => other === one || beside(one).includes(other)),
  );
  return leaders.length === 1 ? leaders[0] : undefined;
}
