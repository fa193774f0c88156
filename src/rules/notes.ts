/**
 * What a specialist should look at in documents that are valid: overlaps, holes and what nothing goes by. None of it is
 * an error, since each has a safe reading: what a hole leaves open can't be told, of what overlaps the documented one
 * counts, and what nothing goes by passes nothing. Errors are what has no safe reading, and are found when loading.
 */
import { compareTexts } from '../collect.js';
import { type RuleDocumentText, sourceOf } from './load.js';
import type { Noted } from './noted.js';
import { damperHoles, systemHoles } from './notes-holes.js';
import { checkOverlaps, systemOverlaps } from './notes-overlaps.js';
import { rowsNeverTaken, unusedLimits, unusedParts, unusedValues, wordsNeverTaken } from './notes-unused.js';
import type { PublishedValuesDocument } from './published-values.js';
import { factsReadBy } from './reads.js';
import type { RuleSet } from './rule-set.js';

export interface RuleNote extends Omit<Noted, 'path'> {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** Id of the document. */
  readonly document: string;
}

/**
 * @param texts of the documents that the notes are about, and which `rules` were loaded from
 * @param beside the shipped rules: their checks count where `texts` hold none, and what they cite is in use
 */
export function notesOn(
  texts: readonly RuleDocumentText[],
  rules: RuleSet,
  beside: { readonly rules: RuleSet; readonly texts: readonly RuleDocumentText[] },
): RuleNote[] {
  const checks = rules.checks.length > 0 ? rules.checks : beside.rules.checks;
  const read = new Set(checks.flatMap(factsReadBy));
  const found = new Map<string, Noted[]>();
  for (const system of rules.systems)
    found.set(system.file, [
      ...systemOverlaps(system),
      ...systemHoles(system),
      ...unusedParts(system),
      ...unusedLimits(system, read),
    ]);
  for (const damper of rules.dampers)
    found.set(damper.file, [...damperHoles(damper), ...rowsNeverTaken(damper), ...unusedLimits(damper, read)]);
  for (const { file, rows } of [...rules.tables, ...rules.services]) found.set(file, wordsNeverTaken(rows));
  for (const text of texts) {
    const { kind, values } = sourceOf(text).value as PublishedValuesDocument;
    if (kind === 'published-values') found.set(text.file, unusedValues(values, [...texts, ...beside.texts]));
  }
  return texts.flatMap((text) => {
    const { id } = rules.documents.find(({ file }) => file === text.file) ?? {};
    if (id === undefined) return [];
    const own = [
      ...(found.get(text.file) ?? []),
      ...checkOverlaps(rules.checks.filter(({ file }) => file === text.file).map(({ definition }) => definition)),
    ];
    const source = sourceOf(text);
    return own
      .map(({ path, ...note }): RuleNote => ({ file: text.file, ...source.placeOf(path), document: id, ...note }))
      .sort((a, b) => a.line - b.line || a.column - b.column || compareTexts(a.message, b.message));
  });
}
