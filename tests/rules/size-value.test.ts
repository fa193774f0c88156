import { describe, expect, it } from 'vitest';
import { type DuctSize, type SizeValue, valueAt } from '../../src/rules/size-value.js';

const rectangular = (width: number, height: number): DuctSize => ({ shape: 'rectangular', width, height });
const circular = (diameter: number): DuctSize => ({ shape: 'circular', diameter });

const BY_SIDE: SizeValue = {
  bySize: [
    { upTo: { longestSide: 600 }, value: 200 },
    { above: { longestSide: 600 }, upTo: { longestSide: 1200 }, value: 300 },
    { upTo: { diameter: 400 }, value: 150 },
    { upTo: { diameter: 800 }, value: 250 },
  ],
};
const BY_BOX: SizeValue = {
  bySize: [
    { upTo: { width: 600, height: 600 }, value: 1 },
    { upTo: { width: 1200, height: 600 }, value: 2 },
    { upTo: { width: 1200, height: 1200 }, value: 3 },
  ],
};
const BY_BOTH_SIDES: SizeValue = {
  bySize: [
    { upTo: { longestSide: 600, shortestSide: 300 }, value: 1 },
    { upTo: { longestSide: 1200, shortestSide: 600 }, value: 2 },
  ],
};

describe('a value by size', () => {
  it.each<[string, SizeValue, DuctSize, number | undefined]>([
    ['a plain number holds for all', 7, {}, 7],
    ['and so does a value with its source', { value: 7, source: 's' }, circular(9000), 7],
    ['the first row', BY_SIDE, rectangular(300, 200), 200],
    ['the end of a row belongs to it', BY_SIDE, rectangular(600, 600), 200],
    ['a tenth more is the next row', BY_SIDE, rectangular(400, 600.1), 300],
    ['the end of the table', BY_SIDE, rectangular(1200, 1), 300],
    ['beyond the table nothing is known', BY_SIDE, rectangular(1200.1, 1), undefined],
    ['round ducts have rows of their own', BY_SIDE, circular(401), 250],
    ['beyond which nothing is known', BY_SIDE, circular(801), undefined],
    ['flat oval ducts go by their sides', BY_SIDE, { ...rectangular(700, 200), shape: 'oval' }, 300],
    ['a round duct where there is no row for one', BY_BOX, circular(100), undefined],
    ['the shape is not known', BY_SIDE, { width: 100, height: 100, diameter: 100 }, undefined],
    ['a side is not known', BY_SIDE, { shape: 'rectangular', width: 100 }, undefined],
    ['the diameter is not known', BY_SIDE, { shape: 'circular' }, undefined],
    ['width and height as they lie', BY_BOX, rectangular(700, 500), 2],
    ['which is not the same the other way', BY_BOX, rectangular(500, 700), 3],
    ['longest and shortest side, whichever they are', BY_BOTH_SIDES, rectangular(250, 550), 1],
    ['the shorter too large', BY_BOTH_SIDES, rectangular(350, 550), 2],
    ['both too large', BY_BOTH_SIDES, rectangular(700, 700), undefined],
  ])('%s', (_, value, duct, expected) => {
    expect(valueAt(value, duct)).toBe(expected);
  });

  it('never falls with a growing duct where the values ascend', () => {
    let before = 0;
    for (let side = 1; side <= 1200; side++) {
      const value = valueAt(BY_SIDE, rectangular(side, 1))!;
      expect(value).toBeGreaterThanOrEqual(before);
      before = value;
    }
    expect(before).toBe(300);
  });
});
