/** A building with its remedies, as a review makes it. */
import { findInBuilding } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { withRemedies } from '../../src/remedy/remedies.js';
import { constructionRows, judgeWithResults, largestSeparation, type ProjectBrief } from '../../src/rules/index.js';
import { rules } from '../shipped-rules.js';

export type RemediedBuilding = Awaited<ReturnType<typeof remedied>>;

export async function remedied(
  files: readonly { readonly name: string; readonly text: string }[],
  brief: ProjectBrief,
) {
  const { facts } = brief;
  const models = files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  const federation = await readFederation(models, { facts, constructions: constructionRows(rules) });
  const find = { separation: largestSeparation(rules), facts };
  const { crossings, buildingWide: wide } = findInBuilding(federation, find);
  const judge = { brief, models: federation.models };
  const judged = judgeWithResults(crossings, rules, judge);
  const given = { federation, crossings, wide, rules, find, judge };
  const mended = withRemedies(judged, given);
  return { ...given, ...mended, results: mended.all() };
}
