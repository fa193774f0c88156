/**
 * The facts that rules may speak of, in one place: CEL expressions are type-checked against this table when a document
 * is loaded, messages take their placeholders from it, and the JSON Schema of examples is made from it.
 *
 * A fact that is not known is left out of the object, so that CEL answers "No such key", which becomes `cantTell`.
 */
import type { Fact, FactGroup } from './fact-kinds.js';
import {
  accessGap,
  accessPanel,
  barrier,
  bend,
  compartment,
  door,
  duct,
  ends,
  face,
  gap,
  leak,
  neighbour,
  penetration,
  room,
} from './found-facts.js';
import { access, brief, code, lapse, model, run, span, support, supports, system } from './judged-facts.js';

export type { Fact, FactGroup, FactObject, FactValue } from './fact-kinds.js';

/** What a check looks at, one subject after the other. */
export const EACH = [
  'barrier',
  'penetration',
  'gap',
  'face',
  'neighbour',
  'facingEnds',
  'leak',
  'run',
  'lapse',
  'support',
  'supportSpan',
  'door',
  'compartment',
  'room',
  'accessGap',
  'bend',
  'accessPanel',
  'model',
] as const;
export type Each = (typeof EACH)[number];

export const FACTS = {
  barrier,
  penetration,
  duct,
  gap,
  face,
  neighbour,
  ends,
  leak,
  run,
  lapse,
  support,
  span,
  door,
  compartment,
  room,
  accessGap,
  bend,
  accessPanel,
  access,
  brief,
  system,
  model,
  code,
  supports,
};
export type Variable = keyof typeof FACTS;

/** The facts about each kind of subject. */
export const VARIABLES: { readonly [E in Each]: readonly Variable[] } = {
  barrier: ['barrier', 'model'],
  penetration: ['barrier', 'penetration', 'duct', 'brief', 'system', 'model'],
  gap: ['barrier', 'penetration', 'duct', 'gap', 'brief', 'system', 'model'],
  face: ['barrier', 'penetration', 'duct', 'face', 'brief', 'system', 'model'],
  neighbour: ['barrier', 'penetration', 'duct', 'neighbour', 'brief', 'system', 'model'],
  facingEnds: ['barrier', 'ends', 'model'],
  leak: ['barrier', 'leak', 'model'],
  run: ['run', 'model'],
  lapse: ['run', 'lapse', 'model'],
  support: ['support', 'run', 'system', 'model'],
  supportSpan: ['span', 'run', 'system', 'model'],
  door: ['barrier', 'door', 'model'],
  compartment: ['compartment', 'model'],
  room: ['room', 'penetration', 'duct', 'brief', 'system', 'model'],
  accessGap: ['accessGap', 'run', 'duct', 'access', 'model'],
  bend: ['bend', 'run', 'duct', 'access', 'model'],
  accessPanel: ['accessPanel', 'run', 'barrier', 'penetration', 'duct', 'brief', 'system', 'access', 'model'],
  model: ['model', 'code', 'supports'],
};

export const isGroup = (entry: Fact | FactGroup): entry is FactGroup => 'fields' in entry;

/** The entry a dotted path names, whatever the subject. */
export function factAt(path: string): Fact | FactGroup | undefined {
  let entry: Fact | FactGroup = { says: 'everything', fields: FACTS };
  for (const name of path.split('.')) {
    const next: Fact | FactGroup | undefined =
      isGroup(entry) && Object.hasOwn(entry.fields, name) ? entry.fields[name] : undefined;
    if (!next) return undefined;
    entry = next;
  }
  return entry;
}

const pathsBelow = (path: string, entry: Fact | FactGroup): string[] =>
  isGroup(entry)
    ? Object.entries(entry.fields).flatMap(([name, inner]) => pathsBelow(`${path}.${name}`, inner))
    : [path];

/** Every template of every check is held to them. */
const FACT_PATHS = new Map<Each, readonly string[]>(
  EACH.map((each) => [each, VARIABLES[each].flatMap((variable) => pathsBelow(variable, FACTS[variable]))]),
);

/** All paths that lead to a single fact for this kind of subject. */
export const factPaths = (each: Each): readonly string[] => FACT_PATHS.get(each)!;

/** What is reported as missing when the fact at `path` is not there. */
export function missingName(path: string): string {
  return factAt(path)?.from ?? path;
}
