/** What ducts and their systems state where the project's brief says that they do: properties and fire ratings. */
import type { AirElement, DuctRatings, Rating } from '../model.js';
import type { Property } from './properties.js';
import type { Source } from './source.js';
import { label } from './value.js';

/** @param system of the duct: where neither the duct nor its type states a property, its system may. */
export function readDuctFacts(
  source: Source,
  duct: number,
  system: number | undefined,
): Pick<AirElement, 'properties' | 'ratings'> | undefined {
  const { ductProperties = [], ductRatingProperties = [] } = source.facts ?? {};
  if (ductProperties.length + ductRatingProperties.length === 0) return undefined;
  const all = [...source.properties.all(duct), ...(system === undefined ? [] : source.properties.all(system))];
  const stated = ({ set, property }: { readonly set: string; readonly property: string }): Property | undefined =>
    all.find((p) => p.set === set && p.name === property && (label(p.value) ?? '').trim() !== '');
  const ratingOf = (means: keyof DuctRatings): Rating | null => {
    const found = ductRatingProperties.filter((one) => one.means === means).flatMap((one) => stated(one) ?? [])[0];
    if (!found) return null;
    const { flags: _, ...rating } = source.rating(label(found.value), { object: 'duct' });
    return { ...rating, from: found.from };
  };
  return {
    properties: ductProperties.flatMap((asked) => {
      const value = label(stated(asked)?.value);
      return value === undefined ? [] : [{ set: asked.set, property: asked.property, value }];
    }),
    ratings: { required: ratingOf('required'), reached: ratingOf('reached') },
  };
}
