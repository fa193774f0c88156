/** What follows from all of a run, for who judges only a part of it. */

/** By the ids that the runs have where they are judged; of others all is there. */
export interface WholeRuns {
  /** Names of the compartments that the run serves; null: not known. */
  readonly serves: ReadonlyMap<string, readonly string[] | null>;
  /** Ids of the tested systems that protect the run where it passes barriers; none: whatever fits. */
  readonly systems: ReadonlyMap<string, readonly string[]>;
}

/** @param served as the part alone would have it */
export function servedBy(
  served: ReadonlyMap<string, readonly string[]>,
  whole: WholeRuns | undefined,
): ReadonlyMap<string, readonly string[]> {
  if (!whole) return served;
  const known = new Map([...served, ...whole.serves]);
  return new Map([...known].flatMap(([run, names]) => (names === null ? [] : [[run, names] as const])));
}

/** Of tested systems those that the rest of the run leaves to choose from. */
export function besideRest<T extends { readonly id: string }>(
  systems: readonly T[],
  run: string | null,
  whole: WholeRuns | undefined,
): readonly T[] {
  const used = run === null ? undefined : whole?.systems.get(run);
  return used && used.length > 0 ? systems.filter(({ id }) => used.includes(id)) : systems;
}
