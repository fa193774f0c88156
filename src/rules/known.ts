import type { FactObject, FactValue } from './fact-schema.js';

type Entry = FactValue | FactObject | null | undefined;

/** Leaves out null, undefined, numbers that are none and groups that hold nothing. */
export function known(entries: { readonly [name: string]: Entry }): FactObject {
  return Object.fromEntries(
    Object.entries(entries).filter((entry): entry is [string, FactValue | FactObject] => isKnown(entry[1])),
  );
}

function isKnown(value: Entry): boolean {
  if (value === null || value === undefined) return false;
  if (typeof value === 'number') return Number.isFinite(value);
  return typeof value !== 'object' || Array.isArray(value) || Object.keys(value).length > 0;
}
