import { parseRating } from '../fire-rating/index.js';
import { perhaps } from './closest.js';
import { requireOneMeaning } from './construction-table.js';
import type { BriefChoices, BriefComment, ProjectBrief } from './project-brief.js';
import type { RuleSet } from './rule-set.js';
import { requireSizeValue } from './size-value.js';
import { requireTakeoffSense, systemsPriced } from './takeoff-choices.js';
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
  for (const [i, protection] of facts.protections.entries()) requireOneThing(source, i, protection);
  requireOnce(source, ['facts', 'protections'], 'evidence', facts.protections.map(protectedThing));
  requireSelectors(source, facts, choices);
  requireOnce(
    source,
    ['choices', 'services'],
    'service',
    choices.services.map(({ service }) => service),
  );
  requireDuctRatings(source, facts.ductRatingProperties);
  if (choices.edition.length > 0 && choices.jurisdiction === undefined)
    throw source.errorAtKey(['choices', 'edition'], 'an edition belongs to a jurisdiction; add "jurisdiction"');
  requireOnce(
    source,
    ['choices', 'concessions'],
    'key',
    choices.concessions.map(({ key }) => key),
  );
  for (const [i, { date, expires }] of choices.concessions.entries()) {
    if (expires === undefined || expires >= date) continue;
    throw source.errorAt(
      ['choices', 'concessions', i, 'expires'],
      `it expires on ${expires}, before it was granted on ${date}`,
    );
  }
  requireCommentsOnce(source, choices.comments);
  requireSizeValue(source, ['choices', 'flangeHeight'], choices.flangeHeight);
  requireTakeoffSense(source, ['choices', 'takeoff'], choices.takeoff);
  requireOnce(source, ['choices', 'testedSystems'], undefined, choices.testedSystems);
  requireOnce(source, ['choices', 'testedDampers'], undefined, choices.testedDampers);
  for (const [i, choice] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    for (const key of ['fixing', 'detail'] as const) {
      if (choice[key] !== undefined && choice.testedSystem === undefined)
        throw source.errorAt([...path, key], `a ${key} belongs to a tested system; add "testedSystem"`);
    }
    for (const key of ['testedSystem', 'testedDamper'] as const) {
      const [id, allowed] = [choice[key], choices[`${key}s`]];
      if (id === undefined || allowed.length === 0 || allowed.includes(id)) continue;
      throw source.errorAt([...path, key], `"${id}" is not among the ${key}s that may be used: ${allowed.join(', ')}`);
    }
  }
  requireOnce(
    source,
    ['choices', 'pinned'],
    'penetration',
    choices.pinned.map(({ penetration }) => penetration),
  );
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
  for (const [i, choice] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    if (choice.testedDamper !== undefined) {
      requireDocument(source, [...path, 'testedDamper'], choice.testedDamper, dampers, 'damper');
    }
    requireKnownParts(source, path, choice, systems);
  }
  for (const { path, id } of systemsPriced(choices.takeoff))
    requireDocument(source, ['choices', 'takeoff', ...path], id, systems, 'system');
  for (const [i, pin] of choices.pinned.entries()) requireKnownParts(source, ['choices', 'pinned', i], pin, systems);
}

interface Named {
  readonly testedSystem?: string | undefined;
  readonly fixing?: string | undefined;
  readonly detail?: string | undefined;
}

/** What is named of a tested system is in its document. */
function requireKnownParts(source: YamlSource, path: Path, named: Named, systems: RuleSet['systems']): void {
  if (named.testedSystem === undefined) return;
  const system = requireDocument(source, [...path, 'testedSystem'], named.testedSystem, systems, 'system');
  for (const key of ['fixing', 'detail'] as const) {
    const [id, ids] = [named[key], system[`${key}s`].map((one) => one.id)];
    if (id === undefined || ids.includes(id)) continue;
    throw source.errorAt(
      [...path, key],
      `"${system.id}" has no ${key} "${id}"${perhaps(id, ids)}; it has ${ids.join(', ') || 'none'}`,
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

/** The same words of the same person at the same time are one comment. */
function requireCommentsOnce(source: YamlSource, comments: readonly BriefComment[]): void {
  const seen = new Set<string>();
  for (const [i, { key, text, author, date }] of comments.entries()) {
    const comment = JSON.stringify([key, text, author, date]);
    if (seen.has(comment)) throw source.errorAt(['choices', 'comments', i], 'this comment is listed twice; keep one');
    seen.add(comment);
  }
}

/** Each entry picks its ducts in one way, which no entry before it does already. */
function requireSelectors(source: YamlSource, facts: ProjectBrief['facts'], choices: BriefChoices): void {
  const seen = new Map<string, number>();
  for (const [i, entry] of choices.systems.entries()) {
    const path = ['choices', 'systems', i];
    const given = SELECTORS.filter((key) => entry[key] !== undefined);
    if (given.length !== 1)
      throw source.errorAt(
        path,
        `an entry picks its ducts by exactly one of ${SELECTORS.join(', ')}; here is ${given.join(' and ') || 'none'}`,
      );
    const [key] = given;
    const { property } = entry;
    if (property && !facts.ductProperties.some((one) => one.set === property.set && one.property === property.property))
      throw source.errorAt(
        [...path, 'property'],
        `"${property.set}.${property.property}" is not listed under facts.ductProperties, so it is not read; add it there`,
      );
    const value = property
      ? `${property.set} ${property.property} ${property.value}`
      : String(entry[key!]).trim().toLowerCase();
    const name = `${key} ${value}`;
    if (seen.has(name)) throw source.errorAt([...path, key!], `"${value}" is listed twice in systems; keep one`);
    seen.set(name, i);
  }
}

const SELECTORS = ['system', 'systemType', 'property', 'compartment'] as const;

function requireDuctRatings(source: YamlSource, given: ProjectBrief['facts']['ductRatingProperties']): void {
  for (const [i, { means, kind }] of given.entries()) {
    const path = ['facts', 'ductRatingProperties', i, 'kind'];
    if (means === 'required' && kind !== undefined)
      throw source.errorAtKey(path, '"kind" says what makes a duct resist fire; it belongs to means: reached');
    const first = given.find((one) => one.means === 'reached');
    if (means === 'reached' && kind !== first?.kind)
      throw source.errorAt(path, 'all properties that mean "reached" have one kind; give them the same');
  }
}

type Protection = ProjectBrief['facts']['protections'][number];

function requireOneThing(source: YamlSource, i: number, { system, duct, covering, kind }: Protection): void {
  const given = [system, duct, covering].filter((one) => one !== undefined);
  if (given.length !== 1) {
    throw source.errorAt(
      ['facts', 'protections', i],
      'a protection is of a system, of one duct, or by words of coverings: give "system", "duct" or "covering", and one only',
    );
  }
  if (kind === 'none' && duct === undefined) {
    throw source.errorAt(['facts', 'protections', i, 'kind'], '"none" leaves one duct out of its system: give "duct"');
  }
}

const protectedThing = ({ system, duct, covering }: Protection): string =>
  duct ?? (covering ? `covering ${covering.join()}` : `system ${system}`);

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
