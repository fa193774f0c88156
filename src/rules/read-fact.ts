import type { FactObject, FactValue } from './fact-schema.js';
import type { DuctSize } from './size-value.js';

/** Paths are few and asked for at every place. */
const STEPS = new Map<string, readonly string[]>();

function stepsOf(path: string): readonly string[] {
  const known = STEPS.get(path) ?? path.split('.');
  STEPS.set(path, known);
  return known;
}

/** The fact or group that a dotted path leads to; undefined where there is none. */
export const factOf = (facts: FactObject, path: string): FactValue | FactObject | undefined =>
  follow(facts, stepsOf(path));

function follow(facts: FactObject, steps: readonly string[]): FactValue | FactObject | undefined {
  let inner: FactValue | FactObject | undefined = facts;
  for (const name of steps) {
    if (!isObject(inner) || !Object.hasOwn(inner, name)) return undefined;
    inner = inner[name];
  }
  return inner;
}

export const isObject = (value: FactValue | FactObject | undefined): value is FactObject =>
  typeof value === 'object' && !Array.isArray(value);

type Read = FactValue | FactObject | undefined;
const asNumber = (value: Read): number | undefined => (typeof value === 'number' ? value : undefined);
const asText = (value: Read): string | undefined => (typeof value === 'string' ? value : undefined);

export const numberOf = (facts: FactObject, path: string): number | undefined => asNumber(factOf(facts, path));
export const textOf = (facts: FactObject, path: string): string | undefined => asText(factOf(facts, path));

/** The same for paths of our own, which are read at every place: what leads along one is made ready once. */
export function factReader(path: string): (facts: FactObject) => Read {
  const steps = path.split('.');
  return (facts) => follow(facts, steps);
}

export function numberReader(path: string): (facts: FactObject) => number | undefined {
  const read = factReader(path);
  return (facts) => asNumber(read(facts));
}

export function textReader(path: string): (facts: FactObject) => string | undefined {
  const read = factReader(path);
  return (facts) => asText(read(facts));
}

export const ductShape = textReader('duct.shape');
const ductWidth = numberReader('duct.width');
const ductHeight = numberReader('duct.height');
const ductDiameter = numberReader('duct.diameter');

/** What the facts say of the duct's section. */
export const ductSizeOf = (facts: FactObject): DuctSize => ({
  shape: ductShape(facts),
  width: ductWidth(facts),
  height: ductHeight(facts),
  diameter: ductDiameter(facts),
});
