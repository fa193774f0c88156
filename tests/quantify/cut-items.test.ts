import { expect, it } from 'vitest';
import { cutItems } from '../../src/quantify/cut-items.js';
import { purchasesOf } from '../../src/quantify/purchases.js';
import { aMaterial, anItem } from './made-items.js';

const BOARD = aMaterial({ id: 'collar-25', kind: 'boardCollar', measure: 'm2' });

it('leaves what no stock is wide enough for out of plans, and orders it by its quantity', async () => {
  const items = [
    anItem({ id: 'Q-1', material: BOARD.id, pieces: 2, length: 1000, width: 200, areaM2: 0.4 }),
    // Halves of a collar round a duct of 2400: made of two lengths of 1400 they are wider than the sheet both ways.
    anItem({ id: 'Q-2', material: BOARD.id, pieces: 2, length: 2800, width: 1400, areaM2: 7.84 }),
  ];
  const stocks = [{ of: 'boardCollar' as const, length: 2500, width: 1200 }];
  const choices = { stocks, kerf: 3, keepOffcutsFrom: undefined };
  const cutting = await cutItems({ materials: [BOARD], items, systems: new Map(), choices });
  expect(cutting.flatMap(({ parts }) => parts.map((part) => part.items))).toEqual([['Q-1']]);
  const orders = purchasesOf({ items, materials: [BOARD], cutting, packLitres: 0.6 });
  expect(orders.map(({ unit, amount }) => [unit, amount])).toEqual([
    ['sheet 2500 x 1200', 1],
    [null, 7.84],
  ]);
});
