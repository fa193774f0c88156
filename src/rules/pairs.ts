import type { Penetration } from '../model.js';

export interface Pair {
  readonly first: Penetration;
  readonly second: Penetration;
  readonly distance: number;
}

/** Each pair once, whichever of the two names the other; the smaller distance where they differ. */
export function pairs(penetrations: readonly Penetration[], byId: ReadonlyMap<string, Penetration>): Pair[] {
  const found = new Map<string, Pair>();
  for (const penetration of penetrations) {
    for (const { penetration: id, distance } of penetration.neighbours) {
      const other = byId.get(id);
      if (!other) throw new Error(`Penetration ${penetration.id} names ${id} as its neighbour, which does not exist.`);
      const [first, second] = penetration.id < id ? [penetration, other] : [other, penetration];
      const name = `${first.id} ${second.id}`;
      const known = found.get(name);
      if (!known || distance < known.distance) found.set(name, { first, second, distance });
    }
  }
  return [...found.values()];
}
