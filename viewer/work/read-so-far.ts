/** What files have given so far, added up while they are read. */
import type { Storey } from '../../src/model.js';
import type { ReadSoFar } from '../state/state.js';

type OnStorey = { readonly storey: Storey | undefined };

export const NOTHING_READ: ReadSoFar = { files: [], storeys: [] };

export function withFile(
  { files, storeys }: ReadSoFar,
  name: string,
  { airElements, barriers }: { readonly airElements: readonly OnStorey[]; readonly barriers: readonly OnStorey[] },
): ReadSoFar {
  const byPlace = new Map(storeys.map((storey) => [placeOf(storey), { ...storey }]));
  const add = (storey: Storey | undefined, what: 'ducts' | 'barriers'): void => {
    if (!storey) return;
    const { name: called, elevation } = storey;
    const counts = byPlace.get(placeOf(storey)) ?? { name: called, elevation, ducts: 0, barriers: 0 };
    counts[what] += 1;
    byPlace.set(placeOf(storey), counts);
  };
  for (const { storey } of airElements) add(storey, 'ducts');
  for (const { storey } of barriers) add(storey, 'barriers');
  return {
    files: [...files, { name, ducts: airElements.length, barriers: barriers.length }],
    storeys: [...byPlace.values()].sort((a, b) => b.elevation - a.elevation),
  };
}

/** Models of several trades have each storey once each. */
const placeOf = ({ name, elevation }: Pick<Storey, 'name' | 'elevation'>): string =>
  `${name.trim().toLowerCase()} ${Math.round(elevation)}`;
