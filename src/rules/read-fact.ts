import type { FactObject, FactValue } from './fact-schema.js';
import type { DuctSize } from './size-value.js';

/** The fact or group that a dotted path leads to; undefined where there is none. */
export const factOf = (facts: FactObject, path: string): FactValue | FactObject | undefined =>
  path
    .split('.')
    .reduce<FactValue | FactObject | undefined>(
      (inner, name) => (isObject(inner) && Object.hasOwn(inner, name) ? inner[name] : undefined),
      facts,
    );

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
