/** What a barrier is built of, as classes of tested construction, from the names of its layers or of itself. */
import type { Construction, ConstructionWords } from '../model.js';
import { rowsFor } from '../words/names.js';

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

/** By the first row that speaks of constructions and fits the name. */
export const constructionIn = (name: string, table: readonly ConstructionWords[]): Construction | undefined =>
  rowsFor(name, table).find(({ construction }) => construction !== undefined)?.construction;

/** Classes of other layers that leave one what it is. */
export const besideOf = (construction: Construction, table: readonly ConstructionWords[]): readonly Construction[] =>
  table.filter((row) => row.construction === construction).flatMap((row) => row.beside ?? []);

/** The class beside which all others may stand, such as the concrete on a deck. */
function leading(classes: ReadonlySet<Construction>, table: readonly ConstructionWords[]): Construction | undefined {
  const leaders = [...classes].filter((one) =>
    [...classes].every((other) => other === one || besideOf(one, table).includes(other)),
  );
  return leaders.length === 1 ? leaders[0] : undefined;
}
