/** Cutting plans of random orders by how many kinds of parts they have: times, and what is proven. */
import { type CutPart, planCuts, type Stock } from '../../src/quantify/cutting/index.js';

const BAR: Stock = { id: 'bar', form: 'bar', length: 6000, kerf: 3 };
const BOARD: Stock = { id: 'board', form: 'sheet', length: 2500, width: 1200, kerf: 4 };

/** Parts of 200 to 3000 mm of bars; of boards 200 to 1500 by 100 to 800 mm, that may turn; 1 to 10 of each. */
const ORDERS: readonly { readonly stock: Stock; readonly kinds: number }[] = [BAR, BOARD].flatMap((stock) =>
  [10, 50, 200, 1000].map((kinds) => ({ stock, kinds })),
);

export interface CuttingTime {
  readonly name: string;
  readonly milliseconds: number;
}

/** @param now processor time in ms */
export async function cuttingTimes(now: () => number): Promise<CuttingTime[]> {
  const times: CuttingTime[] = [];
  for (const { stock, kinds } of ORDERS) {
    const parts = order(stock, kinds);
    const start = now();
    const { used, gap } = await planCuts(parts, [stock]);
    const pieces = used.reduce((sum, each) => sum + each.pieces, 0);
    const name = `cut ${kinds} kinds of parts from ${pieces} ${stock.form}s, gap ${(gap * 100).toFixed(1)} %`;
    times.push({ name, milliseconds: now() - start });
  }
  return times;
}

/** Steps of a linear congruential generator (Numerical Recipes; from memory), so that it is the same order every time. */
function order({ form }: Stock, kinds: number): CutPart[] {
  let state = kinds;
  const whole = (from: number, to: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return from + Math.floor((state / 2 ** 32) * (to - from + 1));
  };
  return Array.from({ length: kinds }, (_, i): CutPart => {
    const count = whole(1, 10);
    if (form === 'bar') return { id: `${i}`, length: whole(200, 3000), count };
    return { id: `${i}`, length: whole(200, 1500), width: whole(100, 800), count, mayTurn: true };
  });
}
