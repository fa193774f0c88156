export { hasWord } from '../collect.js';

/**
 * Attribute values as web-ifc gives them: references `{type: 5, value}`, enumerations, measures with `.value`, plain
 * numbers in IFC2X3, lists, null. These readers take any of them and answer undefined for everything else.
 */

const REFERENCE = 5;

function unwrap(x: unknown): unknown {
  if (typeof x !== 'object' || x === null || Array.isArray(x) || !('value' in x)) return x;
  return 'type' in x && x.type === REFERENCE ? undefined : x.value; // an express id is no number of the model
}

export function num(x: unknown): number | undefined {
  const v = unwrap(x);
  return typeof v === 'number' && Number.isFinite(v) ? v : undefined;
}

export function text(x: unknown): string | undefined {
  const v = unwrap(x);
  return typeof v === 'string' ? v : undefined;
}

/** A value meant to be read by people: text as it is, a number as its digits. */
export const label = (x: unknown): string | undefined => text(x) ?? num(x)?.toString();

/** Measure in which a value of a select is given, e.g. `IFCLENGTHMEASURE`. */
export const measureName = (x: unknown): string | undefined =>
  typeof x === 'object' && x !== null && 'name' in x && typeof x.name === 'string' ? x.name : undefined;

export function bool(x: unknown): boolean | undefined {
  const v = unwrap(x);
  if (typeof v === 'boolean') return v;
  return v === 'T' || v === '.T.' ? true : v === 'F' || v === '.F.' ? false : undefined;
}

/** Express id that a reference points to. */
export function ref(x: unknown): number | undefined {
  if (typeof x !== 'object' || x === null || !('type' in x) || x.type !== REFERENCE || !('value' in x))
    return undefined;
  return typeof x.value === 'number' ? x.value : undefined;
}

export const list = (x: unknown): readonly unknown[] => (Array.isArray(x) ? x : []);

/** A single reference or a list of them. */
export const refs = (x: unknown): number[] =>
  (Array.isArray(x) ? x : [x]).map(ref).filter((id): id is number => id !== undefined);

export const nums = (x: unknown): number[] =>
  list(x)
    .map(num)
    .filter((n): n is number => n !== undefined);
