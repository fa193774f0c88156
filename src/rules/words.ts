import type { Limit } from '../model.js';
import { type Each, factAt, isGroup, type Unit } from './fact-schema.js';

/** All words of findings that do not come from the check documents. */

const UNIT_WORDS: { readonly [U in Unit]: string } = { mm: ' mm', deg: '°', min: ' min' };

const VALUE_WORDS: { readonly [value: string]: string } = {
  endsInside: 'ends inside',
  fireResistingDuct: 'fire-resisting duct',
  fireSmoke: 'fire and smoke',
  both: 'damper and protected duct',
  notRequired: 'not required',
  durationOnly: 'a duration only',
  steelStud: 'steel studs',
  timberStud: 'timber studs',
  shaftWall: 'shaft wall',
  aeratedConcrete: 'aerated concrete',
  hollowCore: 'hollow-core slab',
  ribbedDeck: 'ribbed deck',
  massTimber: 'mass timber',
  sandwichPanel: 'sandwich panel',
};

export const NOT_KNOWN = 'not known';

export function valueWords(value: number | string | boolean | readonly string[], unit?: Unit): string {
  if (typeof value === 'number') return `${numberWords(value)}${unit ? UNIT_WORDS[unit] : ''}`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return Object.hasOwn(VALUE_WORDS, value) ? VALUE_WORDS[value]! : value;
  return value.map((one) => valueWords(one)).join(', ');
}

export function limitWords(limit: Limit, unit?: Unit): string {
  const { atLeast, atMost, equals, among } = limit;
  if (atLeast !== undefined && atMost !== undefined) return `${numberWords(atLeast)} to ${valueWords(atMost, unit)}`;
  if (atLeast !== undefined) return `at least ${valueWords(atLeast, unit)}`;
  if (atMost !== undefined) return `at most ${valueWords(atMost, unit)}`;
  if (equals !== undefined) return valueWords(equals, unit);
  return `one of: ${(among ?? []).map((value) => valueWords(value, unit)).join(', ')}`;
}

/** What can be missing without being a fact that rules could ask for. */
const MISSING_WORDS: { readonly [path: string]: string } = {
  'brief.testedSystem': 'which tested system is chosen',
  'brief.fixing': 'which fixing is chosen',
  'brief.system': "what the project brief says of the duct's system",
  'brief.jurisdiction': 'the code that holds',
  'evidence.combined': 'evidence for several services in one opening',
  'duct.connection': 'whether the ends are connected',
  'penetration.treatment.rating': 'the fire rating of what is there',
};

/** "the fire rating of the barrier"; the bare name for what no words are declared for. */
export function missingWords(missing: readonly string[]): string {
  return listWords(
    missing.map((path) => factAt(path)?.says ?? (Object.hasOwn(MISSING_WORDS, path) ? MISSING_WORDS[path]! : path)),
  );
}

/** "a, b and c" */
const listWords = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

export const unitOf = (path: string): Unit | undefined => {
  const entry = factAt(path);
  return entry && !isGroup(entry) ? entry.unit : undefined;
};

/** Up to two decimals: lengths come with one, angles with two. */
const numberWords = (value: number): string => String(Number(value.toFixed(2)));

const SUBJECT_WORDS: { readonly [E in Each]: string } = {
  barrier: '{barrier.name}',
  penetration: 'Penetration {penetration.id}',
  gap: 'Penetration {penetration.id}, {gap.place} gap',
  neighbour: 'Penetrations {penetration.id} and {neighbour.id}',
  facingEnds: 'Duct ends at {barrier.name}',
  model: 'Models',
};

/** What ends a sentence in its own place must not end it in the middle of another. */
const withoutStop = (text: string): string => text.replace(/\.$/, '');

const notKnown = (several: boolean): string => (several ? 'are not known' : 'is not known');

/** Templates for the outcomes that check documents need not put into words. */
export const GENERIC = {
  passed: (each: Each, title: string, isNumber: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {measured}${isNumber ? ', allowed {limit}' : ''}.`,
  nothingAgainst: (each: Each, title: string) => `${SUBJECT_WORDS[each]}: ${title}: nothing stands against it.`,
  wouldPass: (each: Each, title: string, source: string, isNumber: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {measured} ${isNumber ? 'meets the limit ({limit})' : 'would do'}, but that is not proved by a test (${withoutStop(source)}).`,
  inapplicable: (each: Each, title: string) => `${SUBJECT_WORDS[each]}: ${title}: does not apply here.`,
  undecided: (each: Each, title: string, several: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: whether this is asked for cannot be told, since {missing} ${notKnown(several)}.`,
  missing: (each: Each, title: string, several: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {missing} ${notKnown(several)}.`,
  problem: (each: Each, title: string, problem: string) =>
    `${SUBJECT_WORDS[each]}: ${title}: could not be worked out: ${withoutStop(problem)}.`,
  contradiction: (atLeast: number, atMost: number) =>
    `the limits contradict: at least ${atLeast} and at most ${atMost}`,
};
