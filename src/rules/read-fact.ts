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
export function factOf(facts: FactObject, path: string): FactValue | FactObject | undefined {
  let inner: FactValue | FactObject | undefined = facts;
  for (const name of stepsOf(path)) {
    if (!isObject(inner) || !Object.hasOwn(inner, name)) return undefined;
    inner = inner[name];
  }
  return inner;
}

export const isObject = (value: FactValue | FactObject | undefined): value is FactObject =>
  typeof value === 'object' && !Array.isArray(value);

export const numberOf = (facts: FactObject, path: string): number | undefined => {
  const value = factOf(facts, path);
  return typeof value === 'number' ? value : undefined;
};

export const textOf = (facts: FactObject, path: string): string | undefined => {
  const value = factOf(facts, path);
  return typeof value === 'string' ? value : undefined;
};

/** What the facts say of the duct's section. */
export const ductSizeOf = (facts: FactObject): DuctSize => ({
  shape: textOf(facts, 'duct.shape'),
  width: numberOf(facts, 'duct.width'),
  height: numberOf(facts, 'duct.height'),
  diameter: numberOf(facts, 'duct.diameter'),
});
