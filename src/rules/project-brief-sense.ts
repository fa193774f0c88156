import { parseRating } from '../fire-rating/index.js';
import { perhaps } from './closest.js';
import type { ProjectBrief, SystemChoice } from './project-brief.js';
import type { RuleSet } from './rule-set.js';
import { requireSizeValue } from './size-value.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireBriefSense(source: YamlSource, { facts, choices }: ProjectBrief): void {
  for (const [i, { rating }] of facts.ratings.entries()) {
    const { state } = parseRating(rating, { object: 'barrier' });
    if (state === 'stated' || state === 'durationOnly') continue;
    throw source.errorAt(
      ['facts', 'ratings', i, 'rating'],
      `the rating "${rating}" cannot be read; write it like -/120/120, EI 120 or 2 HR`,
    );
  }
  requireOnce(
    source,
    ['facts', 'ratings'],
    'barrier',
    facts.ratings.map(({ barrier }) => barrier),
  );
  requireOneMeaning(source, ['facts', 'barriers'], facts.barriers);
  requireOneMeaning(source, ['facts', 'constructions'], facts.constructions);
  requireOneMeaning(source, ['facts', 'damperPurposes'], facts.damperPurposes);
  requireOneMeaning(source, ['facts', 'ductMaterials'], facts.ductMaterials);
  requireOneMeaning(source, ['facts', 'ducts'], facts.ducts);
  for (const [i, { system, duct }] of facts.protections.entries()) {
    if ((system === undefined) !== (duct === undefined)) continue;
    throw source.errorAt(
      ['facts', 'protections', i],
      'a protection is of a system or of one duct: give "system" or "duct", and not both',
    );
  }
  const protectedThings = facts.protections.map(({ system, duct }) => (duct === undefined ? `system ${system}` : duct));
  requireOnce(source, ['facts', 'protections'], 'evidence', protectedThings);
  requireOnce(
    source,
    ['choices', 'systems'],
    'system',
    choices.systems.map(({ system }) => sameName(system)),
  );
  requireSizeValue(source, ['choices', 'flangeHeight'], choices.flangeHeight);
  requireOnce(source, ['choices', 'testedSystems'], undefined, choices.testedSystems);
  requireOnce(source, ['choices', 'testedDampers'], undefined, choices.testedDampers);
  for (const [i, choice] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    if (choice.fixing !== undefined && choice.testedSystem === undefined) {
      throw source.errorAt([...path, 'fixing'], 'a fixing belongs to a tested system; add "testedSystem"');
    }
    for (const key of ['testedSystem', 'testedDamper'] as const) {
      const [id, allowed] = [choice[key], choices[`${key}s`]];
      if (id === undefined || allowed.length === 0 || allowed.includes(id)) continue;
      throw source.errorAt([...path, key], `"${id}" is not among the ${key}s that may be used: ${allowed.join(', ')}`);
    }
  }
}

/** Refuses a choice of what no loaded rule document holds. */
export function requireKnownSystems(
  source: YamlSource,
  { choices }: ProjectBrief,
  { systems, dampers }: Pick<RuleSet, 'systems' | 'dampers'>,
): void {
  for (const [i, id] of choices.testedSystems.entries()) {
    requireDocument(source, ['choices', 'testedSystems', i], id, systems, 'system');
  }
  for (const [i, id] of choices.testedDampers.entries()) {
    requireDocument(source, ['choices', 'testedDampers', i], id, dampers, 'damper');
  }
  for (const [i, { testedSystem, testedDamper, fixing }] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    if (testedDamper !== undefined) {
      requireDocument(source, [...path, 'testedDamper'], testedDamper, dampers, 'damper');
    }
    if (testedSystem === undefined) continue;
    const chosen = requireDocument(source, [...path, 'testedSystem'], testedSystem, systems, 'system');
    const fixings = chosen.fixings.map(({ id }) => id);
    if (fixing === undefined || fixings.includes(fixing)) continue;
    throw source.errorAt(
      [...path, 'fixing'],
      `"${testedSystem}" has no fixing "${fixing}"${perhaps(fixing, fixings)}; it has ${fixings.join(', ') || 'none'}`,
    );
  }
}

function requireDocument<T extends { readonly id: string }>(
  source: YamlSource,
  path: Path,
  id: string,
  documents: readonly T[],
  what: 'system' | 'damper',
): T {
  const found = documents.find((one) => one.id === id);
  if (found) return found;
  const ids = documents.map((one) => one.id);
  throw source.errorAt(
    path,
    `no rule document holds a tested ${what} "${id}"${perhaps(id, ids)}; known: ${ids.join(', ') || 'none'}`,
  );
}

/** Names of systems are compared without regard to case and to blanks at their ends. */
export const sameName = (name: string): string => name.trim().toLowerCase();

export const choiceFor = (system: string, choices: readonly SystemChoice[]): SystemChoice | undefined =>
  choices.find((choice) => sameName(choice.system) === sameName(system));

function requireOnce(source: YamlSource, path: Path, key: string | undefined, names: readonly string[]): void {
  const i = names.findIndex((name, at) => names.indexOf(name) !== at);
  if (i < 0) return;
  throw source.errorAt(
    key === undefined ? [...path, i] : [...path, i, key],
    `"${names[i]}" is listed twice in ${String(path.at(-1))}; keep one`,
  );
}

function requireOneMeaning(source: YamlSource, path: Path, items: readonly { words: readonly string[] }[]): void {
  const seen = new Set<string>();
  for (const [i, { words }] of items.entries()) {
    for (const [j, word] of words.entries()) {
      const lower = word.toLowerCase();
      if (seen.has(lower)) {
        throw source.errorAt([...path, i, 'words', j], `the word "${word}" is listed twice in ${String(path.at(-1))}`);
      }
      seen.add(lower);
    }
  }
}
