import { describe, expect, it } from 'vitest';
import { countAlong, countAround, countGrid } from '../../src/quantify/formulas/counting.js';

describe('counting along a line', () => {
  // Reference values of the trade, computed from the definition (reference sheet, 6.3).
  it.each([
    [1250, 200, 50, 7],
    [1200, 200, 0, 7],
    [2.1, 0.3, 0, 8], // 2.1 / 0.3 = 7.000000000000001 in floating point
    [0, 200, 0, 0],
    [-5, 200, 0, 0],
    [80, 200, 50, 1],
    [100, 200, 50, 1],
    [101, 200, 50, 2],
  ])('counts L %f, s %f, e %f as %i', (length, spacing, fromEnd, count) => {
    expect(countAlong(length, spacing, fromEnd)).toBe(count);
  });

  it('never leaves more than the spacing between neighbours', () => {
    for (let length = 1; length < 3000; length += 7)
      expect((length - 2) / Math.max(1, countAlong(length, 200, 1) - 1)).toBeLessThanOrEqual(200 + 1e-6);
  });

  it('refuses a spacing that would never end', () => {
    expect(() => countAlong(100, 0)).toThrow(RangeError);
    expect(() => countAround(100, Number.NaN)).toThrow(RangeError);
  });

  it('counts a grid by rows and columns, and a ring without an end', () => {
    expect(countGrid(1000, 1200, 300, 75)).toBe(20);
    expect(countAround(1000, 200)).toBe(5);
    expect(countAround(100, 200)).toBe(3);
  });
});
