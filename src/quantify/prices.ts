/** What things cost and how long they take, where the brief says it; what it does not say is null, never 0. */
import { type Price, type Rate, STOCK_UNITS, type TakeoffChoices } from '../rules/takeoff-choices.js';
import type { Stock } from './cutting/types.js';
import { roundedTo } from './draft.js';
import { DECIMALS, type Material, QUANTITY_OF, type Quantities, type Quantity } from './takeoff.js';

type Unpriced = Omit<Quantities, 'cost' | 'hours' | 'labourCost'>;
type Priced = Pick<Quantities, 'cost' | 'hours' | 'labourCost'>;

/** Of what is built in, without waste. The first price, and the first rate, that fits and goes by a quantity counts. */
export function pricesOf(quantities: Unpriced, material: Material, choices: TakeoffChoices | undefined): Priced {
  const price = choices?.prices.find((one) => fits(one, material) && quantityOf(one.per) !== undefined);
  const rate = choices?.rates.find((one) => fits(one, material));
  const hours = rate && times(quantities[quantityOf(rate.per)!], rate.hours);
  return {
    cost: rounded('cost', price && times(quantities[quantityOf(price.per)!], price.price)),
    hours: rounded('hours', hours),
    labourCost: rounded('labourCost', times(hours ?? null, rate?.pricePerHour)),
  };
}

/** What is ordered: `amount` units, or without a unit the quantity in the material's measure. */
export interface Order {
  readonly amount: number;
  readonly unit?: Unit | undefined;
}

/** One unit of stock, and what it holds of what prices may go by. */
export interface Unit {
  readonly form: (typeof STOCK_UNITS)[number];
  readonly lengthM?: number | undefined;
  readonly areaM2?: number | undefined;
  readonly volumeL?: number | undefined;
}

export const unitOf = ({ form, length, width }: Pick<Stock, 'form' | 'length' | 'width'>): Unit =>
  width === undefined ? { form, lengthM: length / 1000 } : { form, areaM2: (length * width) / 1e6 };

/**
 * Of what is ordered, whole units whatever part of them is built in. The first price that fits and goes by the unit, or by
 * what it holds, counts.
 */
export function costOfOrder(
  { amount, unit }: Order,
  material: Material,
  choices: TakeoffChoices | undefined,
): number | null {
  for (const price of choices?.prices ?? []) {
    const perUnit = fits(price, material) ? unitsPer(price.per, unit, material) : undefined;
    if (perUnit !== undefined) return rounded('cost', amount * perUnit * price.price);
  }
  return null;
}

/** How many of what a price is for are in one of what is ordered; undefined: it goes by something else. */
function unitsPer(per: Price['per'], unit: Unit | undefined, { measure }: Material): number | undefined {
  if (per === unit?.form) return 1;
  const quantity = quantityOf(per);
  if (quantity === undefined) return undefined;
  if (unit === undefined) return quantity === QUANTITY_OF[measure] ? 1 : undefined;
  return { lengthM: unit.lengthM, areaM2: unit.areaM2, volumeL: unit.volumeL, pieces: undefined, massKg: undefined }[
    quantity
  ];
}

const fits = ({ of, material, testedSystem }: Price | Rate, one: Material): boolean =>
  (of === undefined ? material === one.id : of === one.kind) &&
  (testedSystem === undefined || testedSystem === one.testedSystem);

/** undefined: a price per unit of stock goes by no quantity of what is built in. */
const quantityOf = (per: Price['per']): Exclude<Quantity, keyof Priced> | undefined => {
  if (per === 'piece') return 'pieces';
  return STOCK_UNITS.some((unit) => unit === per) ? undefined : QUANTITY_OF[per as keyof typeof QUANTITY_OF];
};

const times = (quantity: number | null, each: number | undefined): number | undefined =>
  quantity === null || each === undefined ? undefined : quantity * each;

const rounded = (quantity: Quantity, value: number | undefined): number | null => roundedTo(value, DECIMALS[quantity]);
