/** What is ordered: what the cutting plans use, packs of sealant, and everything else by its quantity. */
import type { TakeoffChoices } from '../rules/takeoff-choices.js';
import { roundedUp } from './formulas/counting.js';
import { costOfOrder, type Unit, unitOf } from './prices.js';
import { type Material, type MaterialCutting, type Purchase, QUANTITY_OF, type TakeoffItem } from './takeoff.js';
import { sumOf } from './totals.js';

export interface PurchaseInput {
  readonly items: readonly TakeoffItem[];
  readonly materials: readonly Material[];
  readonly cutting: readonly MaterialCutting[];
  /** What one pack of sealant holds. */
  readonly packLitres: number;
  readonly choices?: TakeoffChoices | undefined;
}

/** In the order of the materials. What no plan cuts is ordered beside it, by its quantity. */
export function purchasesOf({ items, materials, cutting, packLitres, choices }: PurchaseInput): Purchase[] {
  const planned = new Set(cutting.flatMap(({ parts }) => parts.flatMap((part) => part.items)));
  return materials.flatMap((material) => {
    const plans = cutting.filter((one) => one.material === material.id);
    const loose = items.filter((item) => item.material === material.id && !planned.has(item.id));
    return [
      ...plans
        .flatMap(({ plan }) => plan.used)
        .filter(({ stock }) => stock.onHand === undefined)
        .map(({ stock, pieces: amount }) => ({
          ...{ material: material.id, unit: stock.id, amount, unknownIn: 0 },
          cost: costOfOrder({ amount, unit: unitOf(stock) }, material, choices),
        })),
      ...(loose.length === 0 ? [] : [together(loose, material, looseUnit(material, packLitres, choices), choices)]),
    ];
  });
}

/** What is not cut but used up as it comes, so that a unit that is begun goes on at the next place. */
interface LooseUnit extends Unit {
  readonly name: string;
  readonly holds: number;
}

function looseUnit(
  { kind, measure }: Material,
  packLitres: number,
  choices: TakeoffChoices | undefined,
): LooseUnit | undefined {
  if (kind === 'sealant' && measure === 'l') {
    // 0.31 l are 310 ml, not 310.00000000000006.
    const name = `pack ${Number((packLitres * 1000).toFixed(3))} ml`;
    return { form: 'pack', name, holds: packLitres, volumeL: packLitres };
  }
  const roll = choices?.stocks.find(({ of }) => of === 'tape');
  if (kind !== 'tape' || measure !== 'm' || !roll) return undefined;
  const metres = roll.length / 1000;
  return { form: 'roll', name: `roll ${roll.length}`, holds: metres, lengthM: metres };
}

/** Of the project's sum: packs rounded up at each place would be too many. */
function together(
  items: readonly TakeoffItem[],
  material: Material,
  unit: LooseUnit | undefined,
  choices: TakeoffChoices | undefined,
): Purchase {
  const { sum, unknownIn } = sumOf(items, QUANTITY_OF[material.measure]);
  const amount = sum === null || unit === undefined ? sum : roundedUp(sum / unit.holds);
  return {
    material: material.id,
    unit: unit?.name ?? null,
    amount,
    unknownIn,
    cost: amount === null ? null : costOfOrder({ amount, unit }, material, choices),
  };
}
