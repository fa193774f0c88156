/** Storeys of one building in several models, each with a GlobalId of its own. */
import { compareNumbers, compareTexts } from '../collect.js';
import type { Storey } from '../model.js';
import { SAME_STOREY } from '../tolerances.js';
import { plainWords } from '../words/names.js';
import type { TakeoffPlace } from './takeoff.js';

type Lying = readonly { readonly storey: Storey | undefined }[];

/** Those that barriers lie on, then those of ductwork, each once. */
export function storeysIn({
  airElements,
  barriers,
}: {
  readonly airElements: Lying;
  readonly barriers: Lying;
}): Storey[] {
  const storeys = new Map<string, Storey>();
  for (const { storey } of [...barriers, ...airElements])
    if (storey && !storeys.has(storey.globalId)) storeys.set(storey.globalId, storey);
  return [...storeys.values()];
}

/**
 * By GlobalId the storey that stands for it, in the order of height: the first given of the same name at the same height. Those
 * of one name at other heights are several: of several buildings, or of models that count heights from elsewhere.
 */
export function sameStoreys(storeys: readonly Storey[]): ReadonlyMap<string, Storey> {
  const standing: Storey[] = [];
  const same = storeys.map((storey) => {
    const name = plainWords(storey.name);
    const first = standing.find(
      (one) => plainWords(one.name) === name && Math.abs(storey.elevation - one.elevation) < SAME_STOREY,
    );
    if (!first) standing.push(storey);
    return [storey.globalId, first ?? storey] as const;
  });
  return new Map(
    same.sort(([, a], [, b]) => compareNumbers(a.elevation, b.elevation) || compareTexts(a.globalId, b.globalId)),
  );
}

/** The place, on the storey that stands for its own. */
export const onStorey = <P extends TakeoffPlace>(place: P, same: ReadonlyMap<string, Storey>): P => ({
  ...place,
  storey: place.storey === null ? null : (same.get(place.storey)?.globalId ?? place.storey),
});
