import { describe, expect, it } from 'vitest';
import type { CuttingPlan, Stock } from '../../src/quantify/cutting/types.js';
import { costOfOrder, pricesOf, unitOf } from '../../src/quantify/prices.js';
import { purchasesOf } from '../../src/quantify/purchases.js';
import type { MaterialCutting } from '../../src/quantify/takeoff.js';
import { takeoffChoices } from '../../src/rules/takeoff-choices.js';
import { ANGLE, anItem, BLANKET, PIN, SEALANT, TAPE } from './made-items.js';

const choicesOf = (given: object) => takeoffChoices.parse({ currency: 'EUR', ...given });

const ROLL = unitOf({ form: 'roll', length: 7320, width: 610 });

describe('what is built in', () => {
  const blanket = { pieces: 3, lengthM: 6.6, areaM2: 4.026, volumeL: null, massKg: 19.582 };

  it('costs and takes nothing that the brief does not say', () => {
    for (const choices of [undefined, choicesOf({})])
      expect(pricesOf(blanket, BLANKET, choices)).toEqual({ cost: null, hours: null, labourCost: null });
  });

  it('costs by its own quantity, and its hours cost by theirs', () => {
    const choices = choicesOf({
      prices: [{ of: 'blanket', per: 'm2', price: 38.5 }],
      rates: [{ of: 'blanket', per: 'm2', hours: 0.4, pricePerHour: 65 }],
    });
    // 4.026 m² · 38.50 = 155.001; 4.026 · 0.4 = 1.6104 h; 1.6104 h · 65 = 104.676
    expect(pricesOf(blanket, BLANKET, choices)).toEqual({ cost: 155, hours: 1.61, labourCost: 104.68 });
  });

  it.each([
    ['piece', 6],
    ['m', 13.2],
    ['m2', 8.05],
    ['kg', 39.16],
  ])('costs by %s', (per, cost) => {
    expect(pricesOf(blanket, BLANKET, choicesOf({ prices: [{ of: 'blanket', per, price: 2 }] })).cost).toBe(cost);
  });

  it('takes the first entry that fits: by kind, by id, of its tested system', () => {
    const prices = [
      { of: 'pin', per: 'm2', price: 1 },
      { of: 'blanket', testedSystem: 'another', per: 'm2', price: 2 },
      { of: 'blanket', per: 'roll', price: 180 },
      { material: BLANKET.id, testedSystem: 'demonstration-blanket', per: 'm2', price: 10 },
      { of: 'blanket', per: 'm2', price: 4 },
    ];
    expect(pricesOf(blanket, BLANKET, choicesOf({ prices })).cost).toBe(40.26);
    expect(pricesOf(blanket, { ...BLANKET, testedSystem: null }, choicesOf({ prices })).cost).toBe(16.1);
  });

  it('has no cost where a price is by stock alone, or by what is not known', () => {
    const byStock = choicesOf({ prices: [{ of: 'blanket', per: 'roll', price: 180 }] });
    expect(pricesOf(blanket, BLANKET, byStock).cost).toBeNull();
    const byMass = choicesOf({
      prices: [
        { of: 'blanket', per: 'kg', price: 2 },
        { of: 'blanket', per: 'm2', price: 9 },
      ],
    });
    expect(pricesOf({ ...blanket, massKg: null }, BLANKET, byMass).cost).toBeNull();
  });
});

describe('what is ordered', () => {
  it('costs by the unit, or by all that whole units hold', () => {
    const cost = (...prices: object[]) => costOfOrder({ amount: 3, unit: ROLL }, BLANKET, choicesOf({ prices }));
    expect(cost({ of: 'blanket', per: 'roll', price: 180 }, { of: 'blanket', per: 'm2', price: 1 })).toBe(540);
    // 3 · 7.32 m · 0.61 m = 13.3956 m²
    expect(cost({ of: 'blanket', per: 'm2', price: 10 })).toBe(133.96);
    expect(cost({ of: 'blanket', per: 'sheet', price: 10 })).toBeNull();
    expect(cost({ of: 'blanket', per: 'kg', price: 10 })).toBeNull();
    expect(cost({ of: 'blanket', per: 'piece', price: 10 })).toBeNull();
    expect(cost()).toBeNull();
  });

  const roll: Stock = { id: 'roll 7320 x 610', form: 'roll', length: 7320, width: 610, kerf: 0 };
  const used = [
    { stock: roll, pieces: 2 },
    // What is there already is not bought.
    { stock: { ...roll, id: 'offcut', length: 900, onHand: 1 }, pieces: 1 },
  ];
  const plan: CuttingPlan = {
    ...{ patterns: [], used, bought: 14_640, lowerBound: 14_640, gap: 0, waste: 0.1 },
    ...{ boundHoldsFor: 'every plan', method: 'by hand' },
  };
  const cutting: MaterialCutting[] = [
    {
      ...{ material: BLANKET.id, plan },
      parts: [{ part: '1', length: 2200, width: 610, count: 3, lengths: 1, items: ['Q-1'] }],
    },
  ];
  const items = [
    anItem({ id: 'Q-1', material: BLANKET.id, pieces: 3, areaM2: 8 }),
    anItem({ id: 'Q-2', material: BLANKET.id, pieces: 1, areaM2: 1.5 }),
    anItem({ id: 'Q-3', material: SEALANT.id, volumeL: 0.7 }),
    anItem({ id: 'Q-4', material: SEALANT.id, run: 'R-1', volumeL: 0.5 }),
    anItem({ id: 'Q-5', material: SEALANT.id, volumeL: null }),
    anItem({ id: 'Q-6', material: PIN.id, pieces: 60 }),
    anItem({ id: 'Q-7', material: TAPE.id, lengthM: 120.5 }),
    anItem({ id: 'Q-8', material: ANGLE.id, lengthM: null }),
  ];
  const materials = [BLANKET, SEALANT, PIN, TAPE, ANGLE];
  const bought = (choices?: object, packLitres = 0.6) =>
    purchasesOf({ items, materials, cutting, packLitres, choices: choices && choicesOf(choices) });

  it('is what plans use, packs of the whole project, and all else by its quantity', () => {
    expect(bought()).toEqual([
      { material: BLANKET.id, unit: 'roll 7320 x 610', amount: 2, unknownIn: 0, cost: null },
      // What no plan cuts is not left out.
      { material: BLANKET.id, unit: null, amount: 1.5, unknownIn: 0, cost: null },
      // 0.7 l + 0.5 l are two packs of 0.6 l; rounded up at each place there would be three.
      { material: SEALANT.id, unit: 'pack 600 ml', amount: 2, unknownIn: 1, cost: null },
      { material: PIN.id, unit: null, amount: 60, unknownIn: 0, cost: null },
      { material: TAPE.id, unit: null, amount: 120.5, unknownIn: 0, cost: null },
      { material: ANGLE.id, unit: null, amount: null, unknownIn: 1, cost: null },
    ]);
  });

  it('is paid by what is ordered', () => {
    const choices = {
      stocks: [{ of: 'tape', length: 50_000 }],
      prices: [
        { of: 'blanket', per: 'roll', price: 180 },
        { of: 'sealant', per: 'l', price: 20 },
        { of: 'pin', per: 'piece', price: 0.12 },
        { of: 'tape', per: 'roll', price: 8 },
        { of: 'angle', per: 'm', price: 3 },
      ],
    };
    expect(bought(choices).map(({ unit, amount, cost }) => [unit, amount, cost])).toEqual([
      ['roll 7320 x 610', 2, 360],
      [null, 1.5, null],
      ['pack 600 ml', 2, 24],
      [null, 60, 7.2],
      // 120.5 m of rolls of 50 m
      ['roll 50000', 3, 24],
      [null, null, null],
    ]);
    expect(bought({}, 0.31)[2]).toMatchObject({ unit: 'pack 310 ml', amount: 4 });
  });
});
