/** Choices of a brief changed to try them out. Nobody wrote the brief that comes of it, so nothing is reviewed under it. */
import { AssumptionError } from './assumption-error.js';
import { perhaps } from './closest.js';
import { BRIEF_FACTS, CHOICES, type ProjectBrief, ProjectBriefSchema } from './project-brief.js';
import { requireBriefSense, requireKnownSystems } from './project-brief-sense.js';
import { RuleDocumentError } from './rule-document-error.js';
import type { RuleSet } from './rule-set.js';
import { parseBySchema } from './schema-issues.js';
import { readYaml, type YamlSource } from './yaml-source.js';

export interface Assumption {
  /** As the brief's own keys lead there, without `choices`: `room.working`, `systems.KX.fixing`. */
  readonly name: string;
  /** Plain data; null takes the choice out of the brief. */
  readonly value: unknown;
}

/** @param text `NAME=VALUE`; the value is YAML, and nothing at all stands for "left out" */
export function parseAssumption(text: string): Assumption {
  const at = text.indexOf('=');
  const name = text.slice(0, Math.max(at, 0)).trim();
  if (name === '') throw new AssumptionError(`"${text}" is no assumption; write NAME=VALUE, e.g. siteTolerance=5`);
  try {
    return { name, value: readYaml(name, text.slice(at + 1)).value ?? null };
  } catch (cause) {
    throw asAssumptionError([name], cause);
  }
}

/**
 * The brief with all the changes made; every other choice and all facts are as they were.
 *
 * @param brief left out: the default brief
 * @throws AssumptionError where a name leads to no choice, or the changed brief would be refused as a brief
 */
export function assumeChoices(
  brief: ProjectBrief | undefined,
  assumptions: readonly Assumption[],
  rules?: Pick<RuleSet, 'systems' | 'dampers'>,
): ProjectBrief {
  const given: ProjectBrief = brief ?? defaultBrief();
  const names = assumptions.map(({ name }) => name);
  const { choices } = madeOneByOne(given, assumptions);
  const source = plainSource({ ...given, choices });
  try {
    const parsed = parseBySchema(source, ProjectBriefSchema);
    requireBriefSense(source, parsed);
    if (rules) requireKnownSystems(source, parsed, rules);
    return parsed;
  } catch (cause) {
    throw asAssumptionError(names, cause);
  }
}

/** Where in the brief's `choices` an assumption leads: keys, and places in lists from 0. */
export interface ChangedChoice extends Assumption {
  readonly path: readonly (string | number)[];
}

/**
 * The changes one after the other: each path is one into what those before it made of the choices.
 *
 * @throws AssumptionError where a name leads to no choice
 */
export const changedChoices = (brief: ProjectBrief, assumptions: readonly Assumption[]): readonly ChangedChoice[] =>
  madeOneByOne(brief, assumptions).changes;

function madeOneByOne(given: ProjectBrief, assumptions: readonly Assumption[]) {
  let choices: unknown = given.choices;
  const changes = assumptions.map(({ name, value }): ChangedChoice => {
    const steps = pathOf(name);
    const path = placesOn(choices, steps, name);
    choices = changed(choices, steps, value, name);
    return { name, value, path };
  });
  return { choices, changes };
}

function placesOn(choices: unknown, steps: readonly string[], name: string): (string | number)[] {
  let node = choices;
  return steps.map((step) => {
    const place = Array.isArray(node) ? placeIn(node, step, name) : step;
    node = Array.isArray(node) ? node[place as number] : isObject(node) ? node[step] : undefined;
    return place;
  });
}

/** What the brief says there now; undefined: nothing. */
export function choiceAt(brief: ProjectBrief | undefined, name: string): unknown {
  return pathOf(name).reduce<unknown>(
    (node, step) => (Array.isArray(node) ? node[placeIn(node, step, name)] : isObject(node) ? node[step] : undefined),
    (brief ?? defaultBrief()).choices,
  );
}

const defaultBrief = (): ProjectBrief =>
  ProjectBriefSchema.parse({ kind: 'project-brief', id: 'default', version: '1' });

/** Keys, and names of entries, joined by points; in quotes where they hold points themselves. */
function pathOf(name: string): string[] {
  const steps = [...name.matchAll(/"([^"]*)"|'([^']*)'|([^."']+)|(\.\.|["'])/g)];
  if (name.startsWith('.') || name.endsWith('.') || steps.some(([, , , , wrong]) => wrong !== undefined))
    throw new AssumptionError(`"${name}" is no name of a choice; join keys by points, e.g. room.working`);
  const path = steps.map(([, a, b, c]) => (a ?? b ?? c ?? '').trim());
  const [first = '', ...rest] = path[0] === 'choices' && path.length > 1 ? path.slice(1) : path;
  if (CHOICES.includes(first)) return [first, ...rest];
  if (first === 'facts' || BRIEF_FACTS.includes(first))
    throw new AssumptionError(
      `"${name}" is a fact: the models would have to be read again; change the project brief and check under it`,
    );
  if (Object.hasOwn(ProjectBriefSchema.shape, first))
    throw new AssumptionError(`"${name}" is no choice of a project brief, and only choices can be assumed`);
  throw new AssumptionError(`there is no choice "${first}"${perhaps(first, CHOICES)}; known: ${CHOICES.join(', ')}`);
}

type PlainObject = { readonly [key: string]: unknown };
const isObject = (value: unknown): value is PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function changed(node: unknown, [step, ...rest]: readonly string[], value: unknown, name: string): unknown {
  if (step === undefined) return value;
  if (Array.isArray(node)) {
    const at = placeIn(node, step, name);
    const after = changed(node[at], rest, value, name);
    return after === null ? node.toSpliced(at, 1) : node.with(at, after);
  }
  if (node !== undefined && !isObject(node))
    throw new AssumptionError(`there is no "${name}": what stands before "${step}" is one value`);
  const { [step]: before, ...others } = node ?? {};
  const after = changed(before, rest, value, name);
  return after === null ? others : { ...others, [step]: after };
}

/** What picks an entry of a list is its name, whatever list it is; only `service` picks in one and is chosen in another. */
const NAMING = ['system', 'systemType', 'compartment', 'key'];

function namesOf(entry: unknown): string[] {
  if (!isObject(entry)) return [String(entry)];
  const { property, service } = entry;
  const picks = NAMING.flatMap((key) => (typeof entry[key] === 'string' ? [entry[key]] : []));
  if (isObject(property)) picks.push(String(property.value));
  return picks.length === 0 && typeof service === 'string' ? [service] : picks;
}

/** By name; where no entry is called so, by its place from 1. */
function placeIn(list: readonly unknown[], step: string, name: string): number {
  const all = list.map(namesOf);
  const called = all.flatMap((names, i) => (names.some((one) => one.toLowerCase() === step.toLowerCase()) ? [i] : []));
  if (called.length > 1)
    throw new AssumptionError(
      `"${step}" in "${name}" names ${called.length} entries; say which by its place: ${called.map((i) => i + 1).join(' or ')}`,
    );
  const place = called[0] ?? (/^\d+$/.test(step) ? Number(step) - 1 : -1);
  if (place >= 0 && place < list.length) return place;
  const known = [...new Set(all.flat())];
  throw new AssumptionError(
    `"${name}": the brief has no entry "${step}" there${perhaps(step, known)}; known: ${known.join(', ') || 'none; assume the whole list'}`,
  );
}

/** There is no text to point into: what is wrong is named by its place in the brief. */
function plainSource(value: unknown): YamlSource {
  const error = (_path: unknown, message: string) => new RuleDocumentError('', 1, 1, message);
  return {
    file: '',
    value,
    errorAt: error,
    errorAtKey: error,
    errorInText: (path, _offset, message) => error(path, message),
    lineOf: () => 1,
    placeOf: () => ({ line: 1, column: 1 }),
  };
}

function asAssumptionError(names: readonly string[], cause: unknown): unknown {
  return cause instanceof RuleDocumentError
    ? new AssumptionError(`assuming ${names.join(' and ')}: ${cause.message}`)
    : cause;
}
