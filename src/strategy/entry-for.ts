/** Which entry of the brief's list of systems holds for a duct. */
import type { Code, SystemEntry, SystemOfDuct } from './types.js';

/** `none`: nothing listed picks it. `unknown`: an entry that comes first may pick it, and that can't be told. */
export type EntryFound<Entry> =
  | { readonly is: 'entry'; readonly entry: Entry; readonly number: number }
  | { readonly is: 'none' }
  | { readonly is: 'unknown'; readonly number: number; readonly missing: string };

/**
 * The first that picks the duct. Entries are asked in the order of the brief; one of which it can't be told whether it
 * picks the duct ends the search, or a model that says less would get the weaker entry.
 */
export function entryFor<Entry extends SystemEntry>(duct: SystemOfDuct, entries: readonly Entry[]): EntryFound<Entry> {
  for (const [i, entry] of entries.entries()) {
    const picked = picks(entry, duct);
    if (picked === true) return { is: 'entry', entry, number: i + 1 };
    if (picked !== false) return { is: 'unknown', number: i + 1, missing: picked };
  }
  return { is: 'none' };
}

/** What is missing, in words, where it can't be told. */
function picks({ system, systemType, property, compartment }: SystemEntry, duct: SystemOfDuct): boolean | string {
  if (system !== undefined) return duct.system === null ? 'its system' : isSame(system, duct.system);
  if (systemType !== undefined)
    return duct.systemType === null ? 'the type of its system' : isSame(systemType, duct.systemType);
  if (property !== undefined) {
    const stated = duct.properties.filter((one) => one.set === property.set && one.property === property.property);
    if (stated.length === 0) return `its property ${property.set}.${property.property}`;
    return stated.some((one) => isSame(one.value, property.value));
  }
  if (duct.serves === null) return 'the compartment that it serves';
  return duct.serves.some((name) => isSame(name, compartment ?? ''));
}

/** `system KX`, `property Project_Fire.Strategy "smoke"`. */
export function selectorWords({ system, systemType, property, compartment }: SystemEntry): string {
  if (system !== undefined) return `system ${system}`;
  if (systemType !== undefined) return `type ${systemType}`;
  if (property !== undefined) return `${property.set}.${property.property} "${property.value}"`;
  return `compartment ${compartment}`;
}

/** Names are compared without regard to case and to blanks at their ends. */
export const isSame = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Whether what the brief names is this code; undefined: the brief does not say. Never another edition of it. */
export function isCode(
  code: Code,
  named: { readonly jurisdiction?: string | undefined; readonly edition: readonly string[] },
): boolean | undefined {
  if (named.jurisdiction === undefined) return undefined;
  if (!isSame(named.jurisdiction, code.jurisdiction)) return false;
  return named.edition.length === 0 ? undefined : named.edition.some((edition) => isSame(edition, code.edition));
}
