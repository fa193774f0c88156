import type { FactObject, FactValue } from './fact-schema.js';

type Entry = FactValue | FactObject | null | undefined;

/** Leaves out null, undefined, numbers that are none and groups that hold nothing. */
export function known(...parts: readonly { readonly [name: string]: Entry }[]): FactObject {
  const facts: { [name: string]: FactValue | FactObject } = {};
  for (const entries of parts)
    for (const name of Object.keys(entries)) {
      const value = entries[name];
      if (isKnown(value)) facts[name] = value;
    }
  return facts;
}

function isKnown(value: Entry): value is FactValue | FactObject {
  if (value === null || value === undefined) return false;
  if (typeof value === 'number') return Number.isFinite(value);
  return typeof value !== 'object' || Array.isArray(value) || Object.keys(value).length > 0;
}
