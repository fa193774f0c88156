import { expect, it } from 'vitest';
import type { DuctFacts } from '../../src/model.js';
import { statedSize } from '../../src/rules/stated-size.js';
import { duct } from './factories.js';

const NOTHING = { width: null, height: null, diameter: null };
/** A duct of 600 × 400 that says so much of its size. */
const said = (stated: Partial<DuctFacts['stated']>, changes: Partial<DuctFacts> = {}) =>
  statedSize(duct({ width: 600, height: 400, ...changes, stated: { ...NOTHING, ...stated } }));

it('takes one stated side for a stated size, which can be compared where both sides are alike', () => {
  expect(said({})).toMatchObject({ given: false, difference: null });
  expect(said({ width: 600 })).toMatchObject({ given: true, difference: null });
  expect(said({ height: 595 }, { width: 600, height: 600 })).toMatchObject({ given: true, difference: 5 });
});

it('compares both ways round, and takes the nearer', () => {
  expect(said({ width: 600, height: 390 }).difference).toBe(10);
  expect(said({ width: 400, height: 590 }).difference).toBe(10);
});

it('compares a diameter with a diameter only', () => {
  const round: Partial<DuctFacts> = { shape: 'circular', width: null, height: null, diameter: 300 };
  expect(said({ diameter: 315 }, round)).toMatchObject({ given: true, difference: 15 });
  expect(said({ width: 300, height: 300 }, round)).toMatchObject({ given: true, difference: null });
});

it('compares nothing with what it was itself taken from', () => {
  const both = { width: 600, height: 390 };
  expect(said(both, { sectionFrom: 'property' }).difference).toBeNull();
  const { wall } = duct();
  expect(said(both, { wall: { ...wall, insulation: { thickness: 25, from: 'size' } } }).difference).toBeNull();
});
