import { parseRating } from '../fire-rating/index.js';
import { perhaps } from './closest.js';
import { requireOneMeaning } from './construction-table.js';
import type { ProjectBrief, SystemChoice } from './project-brief.js';
import { requireSizeValue } from './size-value.js';
import type { TestedSystem } from './tested-system.js';
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
  requireWordsOnce(source, ['facts', 'barriers'], facts.barriers);
  requireWordsOnce(source, ['facts', 'constructions'], facts.constructions);
  for (const [i, meaning] of facts.constructions.entries())
    requireOneMeaning(source, ['facts', 'constructions', i], meaning);
  requireWordsOnce(source, ['facts', 'damperPurposes'], facts.damperPurposes);
  requireWordsOnce(source, ['facts', 'ductMaterials'], facts.ductMaterials);
  requireWordsOnce(source, ['facts', 'ducts'], facts.ducts);
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
  for (const [i, choice] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    if (choice.fixing !== undefined && choice.testedSystem === undefined) {
      throw source.errorAt([...path, 'fixing'], 'a fixing belongs to a tested system; add "testedSystem"');
    }
    const { testedSystems } = choices;
    if (choice.testedSystem === undefined || testedSystems.length === 0) continue;
    if (testedSystems.includes(choice.testedSystem)) continue;
    throw source.errorAt(
      [...path, 'testedSystem'],
      `"${choice.testedSystem}" is not among the testedSystems that may be used: ${testedSystems.join(', ')}`,
    );
  }
}

/** Refuses a choice of what no loaded rule document holds. */
export function requireKnownSystems(source: YamlSource, brief: ProjectBrief, systems: readonly TestedSystem[]): void {
  const { choices } = brief;
  for (const [i, id] of choices.testedSystems.entries()) {
    requireSystem(source, ['choices', 'testedSystems', i], id, systems);
  }
  for (const [i, { testedSystem, fixing }] of choices.systems.entries()) {
    if (testedSystem === undefined) continue;
    const path = ['choices', 'systems', i];
    const chosen = requireSystem(source, [...path, 'testedSystem'], testedSystem, systems);
    const fixings = chosen.fixings.map(({ id }) => id);
    if (fixing === undefined || fixings.includes(fixing)) continue;
    throw source.errorAt(
      [...path, 'fixing'],
      `"${testedSystem}" has no fixing "${fixing}"${perhaps(fixing, fixings)}; it has ${fixings.join(', ') || 'none'}`,
    );
  }
}

function requireSystem(source: YamlSource, path: Path, id: string, systems: readonly TestedSystem[]): TestedSystem {
  const found = systems.find((system) => system.id === id);
  if (found) return found;
  const ids = systems.map((system) => system.id);
  throw source.errorAt(
    path,
    `no rule document holds a tested system "${id}"${perhaps(id, ids)}; known: ${ids.join(', ') || 'none'}`,
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

function requireWordsOnce(source: YamlSource, path: Path, items: readonly { words: readonly string[] }[]): void {
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
