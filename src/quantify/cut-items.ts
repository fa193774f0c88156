/** Plans how the pieces of a take-off are cut from what is delivered. */
import { compareNumbers, fileUnder } from '../collect.js';
import type { TestedSystem } from '../rules/index.js';
import type { QuantifyChoices } from './choices.js';
import { type CutPart, type CuttingOptions, type CuttingPlan, planCuts, type Stock } from './cutting/index.js';
import { roundedUp } from './formulas/counting.js';
import type { UnpricedItem } from './put-together.js';
import { stocksOf } from './stock.js';
import type { Material, MaterialCutting, MaterialKind } from './takeoff.js';

/** The laps of a blanket run along its roll; boards are the same both ways. */
const TURNED: readonly MaterialKind[] = ['board', 'boardCollar'];

/** Share of what must be bought; what is cut wrong on site is more. Common practice, no source. */
const ENOUGH = 0.02;

export interface CutInput {
  readonly materials: readonly Material[];
  readonly items: readonly UnpricedItem[];
  readonly systems: ReadonlyMap<string, TestedSystem>;
  readonly choices: Pick<QuantifyChoices, 'stocks' | 'kerf' | 'keepOffcutsFrom'>;
}

/** As `planCuts`; somewhere else, where this thread is wanted for other work. */
export type Planner = (
  parts: readonly CutPart[],
  stocks: readonly Stock[],
  options: Omit<CuttingOptions, 'onProgress'>,
) => Promise<CuttingPlan>;

export interface CutOptions {
  /** Is asked for all plans at once; left out: they are made here, by turns. */
  readonly planner?: Planner | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Called with the share of plans that are made, 0 to 1. */
  readonly onProgress?: ((share: number) => void) | undefined;
}

/** In the order of the materials, without what is not cut. @throws the reason of the signal when it is aborted */
export async function cutItems(
  { materials, items, systems, choices }: CutInput,
  { planner = planCuts, signal, onProgress }: CutOptions = {},
): Promise<MaterialCutting[]> {
  const ofMaterial = new Map<string, UnpricedItem[]>();
  for (const item of items) if (item.length !== null && item.pieces > 0) fileUnder(ofMaterial, item.material, item);
  const least = choices.keepOffcutsFrom;
  const keep = least === undefined ? {} : { keep: { length: least, width: least } };
  const asked = materials.flatMap((material) => {
    const stocks = stocksOf(material, systems, choices);
    const mayTurn = TURNED.includes(material.kind);
    const parts = stocks.length === 0 ? [] : partsOf(ofMaterial.get(material.id) ?? [], stocks, mayTurn);
    return parts.length === 0 ? [] : [{ material: material.id, stocks, mayTurn, parts }];
  });
  let made = 0;
  const planned = async ({ material, stocks, mayTurn, parts }: (typeof asked)[number]): Promise<MaterialCutting> => {
    const cut = parts.map(
      ({ part: id, length, width, count }): CutPart => ({
        ...{ id, length, count, mayTurn },
        ...(width !== null && { width }),
      }),
    );
    const plan = await planner(cut, stocks, { ...keep, enough: ENOUGH, ...(signal && { signal }) });
    onProgress?.(++made / asked.length);
    return { material, parts, plan };
  };
  return Promise.all(asked.map(planned));
}

type Parts = MaterialCutting['parts'];

/**
 * Items of one size together, the largest first. What no stock is long enough for is made of equal lengths; what is too wide
 * even so is in no plan, and is ordered by its quantity.
 */
function partsOf(items: readonly UnpricedItem[], stocks: readonly Stock[], mayTurn: boolean): Parts {
  const longest = Math.max(...stocks.map(({ length }) => length));
  const sizes = new Map<string, UnpricedItem[]>();
  const lengthsOf = (length: number): number => Math.max(1, roundedUp(length / longest));
  const isTaken = ({ length, width }: UnpricedItem): boolean =>
    width === null || stocks.some((stock) => fits(length! / lengthsOf(length!), width, stock, mayTurn));
  for (const item of items.filter(isTaken)) fileUnder(sizes, `${item.length} ${item.width}`, item);
  return [...sizes.values()]
    .sort(([a], [b]) => compareNumbers(b!.width ?? 0, a!.width ?? 0) || compareNumbers(b!.length!, a!.length!))
    .map((own, i): Parts[number] => {
      const { length, width } = own[0]!;
      const lengths = lengthsOf(length!);
      return {
        part: `P${i + 1}`,
        length: Number((length! / lengths).toFixed(1)),
        width,
        lengths,
        count: lengths * own.reduce((sum, { pieces }) => sum + pieces, 0),
        items: own.map(({ id }) => id),
      };
    });
}

const fits = (length: number, width: number, stock: Stock, mayTurn: boolean): boolean =>
  (length <= stock.length && width <= (stock.width ?? 0)) ||
  (mayTurn && width <= stock.length && length <= (stock.width ?? 0));
