export { hasWord } from '../collect.js';

import { Reference, Typed } from './part21-values.js';

/**
 * Attribute values as a file has them: references, enumerations as texts, plain numbers, values written with their type,
 * lists, null. These readers take any of them and answer undefined for everything else.
 */

const bare = (x: unknown): unknown => (x instanceof Typed ? x.value : x);

export function num(x: unknown): number | undefined {
  const v = bare(x);
  return typeof v === 'number' && Number.isFinite(v) ? v : undefined;
}

export function text(x: unknown): string | undefined {
  const v = bare(x);
  return typeof v === 'string' ? v : undefined;
}

/** A value meant to be read by people: text as it is, a number as its digits. */
export const label = (x: unknown): string | undefined => text(x) ?? num(x)?.toString();

/** Measure in which a value of a select is given, e.g. `IFCLENGTHMEASURE`. */
export const measureName = (x: unknown): string | undefined => (x instanceof Typed ? x.name : undefined);

export function bool(x: unknown): boolean | undefined {
  const v = bare(x);
  if (typeof v === 'boolean') return v;
  return v === 'T' || v === '.T.' ? true : v === 'F' || v === '.F.' ? false : undefined;
}

/** Express id that a reference points to. */
export const ref = (x: unknown): number | undefined => (x instanceof Reference ? x.id : undefined);

/** Values, also where they are written with the type of their list. */
export const list = (x: unknown): readonly unknown[] => {
  const v = bare(x);
  return Array.isArray(v) ? v : [];
};

/** A single reference or a list of them. */
export function refs(x: unknown): number[] {
  if (x instanceof Reference) return [x.id];
  const found: number[] = [];
  for (const one of list(x)) if (one instanceof Reference) found.push(one.id);
  return found;
}

export function nums(x: unknown): number[] {
  const found: number[] = [];
  for (const one of list(x)) {
    const n = num(one);
    if (n !== undefined) found.push(n);
  }
  return found;
}
