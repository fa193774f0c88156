/** The take-off from what was counted: prices, sums, orders. */
import type { TakeoffChoices } from '../rules/takeoff-choices.js';
import { pricesOf } from './prices.js';
import { purchasesOf } from './purchases.js';
import type { Takeoff, TakeoffItem } from './takeoff.js';
import { sumOf, totalsOf } from './totals.js';

export type UnpricedItem = Omit<TakeoffItem, 'cost' | 'hours' | 'labourCost'>;

export interface CountedItems extends Pick<Takeoff, 'materials' | 'storeys' | 'uncounted' | 'cutting' | 'allowances'> {
  readonly items: readonly UnpricedItem[];
  /** What one pack of sealant holds. */
  readonly packLitres: number;
}

/** @param choices `choices.takeoff` of the brief; undefined: it says nothing, so nothing has a cost. */
export function putTogether(counted: CountedItems, choices: TakeoffChoices | undefined): Takeoff {
  const { packLitres, ...given } = counted;
  const materials = new Map(given.materials.map((material) => [material.id, material]));
  const items = given.items.map((item) => ({ ...item, ...pricesOf(item, materials.get(item.material)!, choices) }));
  const purchases = purchasesOf({ ...given, items, packLitres, choices });
  return {
    ...given,
    items,
    totals: totalsOf(items, given.materials, given.storeys),
    purchases,
    currency: choices?.currency ?? null,
    costs: {
      ordered: sumOf(purchases, 'cost'),
      builtIn: sumOf(items, 'cost'),
      hours: sumOf(items, 'hours'),
      labour: sumOf(items, 'labourCost'),
    },
  };
}
