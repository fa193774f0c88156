/** Sums of items by place. */
import { compareTexts, fileUnder } from '../collect.js';
import {
  DECIMALS,
  type Material,
  QUANTITIES,
  QUANTITY_OF,
  type Quantities,
  type Quantity,
  type Sum,
  type Takeoff,
  type TakeoffItem,
  type TakeoffTotal,
  TOTALS_BY,
} from './takeoff.js';

/** Which of the totals an item belongs to; undefined: to none of them. */
const PLACE_OF: {
  readonly [B in TakeoffTotal['by']]: (item: TakeoffItem) => string | null | undefined;
} = {
  penetration: ({ penetration }) => penetration ?? undefined,
  run: ({ run }) => run ?? undefined,
  storey: ({ storey }) => storey,
  system: ({ system }) => system,
  project: () => null,
};

/**
 * Items of each material by penetration, run, storey, system and in the project. Totals of penetrations and runs together, of
 * storeys, and of systems are each the project's. In the order of {@link TOTALS_BY}, then penetrations and runs as the items
 * are, storeys from the lowest, systems by name, what is not known last; then in the order of the materials.
 */
export function totalsOf(
  items: readonly TakeoffItem[],
  materials: readonly Material[],
  storeys: Takeoff['storeys'],
): TakeoffTotal[] {
  const ranks = new Map(storeys.map(({ globalId }, i) => [globalId, i]));
  const rankOf = (id: string): number => ranks.get(id) ?? storeys.length;
  const compare: { readonly [B in TakeoffTotal['by']]?: (a: string, b: string) => number } = {
    storey: (a, b) => rankOf(a) - rankOf(b),
    system: compareTexts,
  };
  const applies = quantitiesThatApply(items, materials);
  return TOTALS_BY.flatMap((by) => {
    const places = new Map<string | null, Map<string, TakeoffItem[]>>();
    for (const item of items) {
      const place = PLACE_OF[by](item);
      if (place === undefined) continue;
      const ofPlace = places.get(place) ?? new Map<string, TakeoffItem[]>();
      places.set(place, ofPlace);
      fileUnder(ofPlace, item.material, item);
    }
    const inOrder = [...places].sort(([a], [b]) =>
      a === null || b === null ? Number(a === null) - Number(b === null) : (compare[by]?.(a, b) ?? 0),
    );
    return inOrder.flatMap(([id, ofPlace]) =>
      materials.flatMap((material) => {
        const own = ofPlace.get(material.id);
        return own ? [{ by, id, material: material.id, ...summed(own, applies.get(material.id)!) }] : [];
      }),
    );
  });
}

/** A quantity that is known of one item of a material, or that it is bought by, applies to all of them. */
function quantitiesThatApply(
  items: readonly TakeoffItem[],
  materials: readonly Material[],
): ReadonlyMap<string, ReadonlySet<Quantity>> {
  const applies = new Map(materials.map(({ id, measure }) => [id, new Set<Quantity>([QUANTITY_OF[measure]])]));
  for (const item of items)
    for (const quantity of QUANTITIES) if (item[quantity] !== null) applies.get(item.material)!.add(quantity);
  return applies;
}

function summed(
  items: readonly TakeoffItem[],
  applies: ReadonlySet<Quantity>,
): Quantities & Pick<TakeoffTotal, 'unknownIn'> {
  const sums = QUANTITIES.map((quantity) => ({ quantity, ...sumOf(items, quantity) }));
  return {
    ...(Object.fromEntries(sums.map(({ quantity, sum }) => [quantity, sum])) as unknown as Quantities),
    unknownIn: sums.flatMap(({ quantity, unknownIn }) =>
      unknownIn > 0 && applies.has(quantity) ? [{ quantity, items: unknownIn }] : [],
    ),
  };
}

/** In whole units of the last decimal, so that the order of the items makes no difference. */
export function sumOf<Q extends Quantity>(items: readonly { readonly [K in Q]: number | null }[], quantity: Q): Sum {
  const unit = 10 ** DECIMALS[quantity];
  let [units, unknownIn] = [0, 0];
  for (const item of items) {
    const value: number | null = item[quantity];
    if (value === null) unknownIn += 1;
    else units += Math.round(value * unit);
  }
  return { sum: unknownIn === items.length ? null : units / unit, unknownIn };
}
