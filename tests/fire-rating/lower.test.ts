/** The contract says "the lower rating counts"; how unknown and unasked criteria combine is the project's own rule. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRatings } from '../../src/fire-rating/compare.js';
import { lowerRating } from '../../src/fire-rating/lower.js';
import { parseRating } from '../../src/fire-rating/parse.js';
import type { Rating } from '../../src/model.js';

const leaf = (text: string | null): Rating => {
  const { flags: _, ...rating } = parseRating(text, { object: 'barrier' });
  return { ...rating, from: text === null ? null : 'occurrence' };
};
const notRequired: Rating = { ...leaf(null), state: 'notRequired' };

describe('two leaves of one barrier', () => {
  it.each<[a: string, b: string, lower: string]>([
    ['120/120/120', '-/60/60', '120/60/60'],
    ['-/120/60', '-/60/120', '-/60/60'],
    ['EI 60', 'E 120', '-/60/60'], // the leaf that is not asked for insulation says nothing against the other
    ['R 90', 'EI 60', '90/60/60'],
    ['60/60/60', '-/0/0', '60/0/0'],
  ])('%s and %s: %s', (a, b, lower) => {
    const { loadbearing, integrity, insulation } = leaf(lower);
    expect(lowerRating(leaf(a), leaf(b))).toMatchObject({ state: 'stated', loadbearing, integrity, insulation });
  });
  it('is the leaf itself where one is lower in everything', () => {
    const [high, low] = [leaf('REI 120'), leaf('REI 60')];
    expect(lowerRating(high, low)).toBe(low);
    expect(lowerRating(leaf('2 HR'), leaf('1 HR'))).toEqual(leaf('1 HR'));
  });
  it('names both texts where it is made of both', () => {
    expect(lowerRating(leaf('EI 60 / E 120'), leaf('EI 90'))).toMatchObject({
      text: 'EI 60 / E 120 | EI 90',
      from: 'occurrence',
    });
    expect(lowerRating({ ...leaf('EI 60 / E 120'), from: 'type' }, leaf('EI 90')).from).toBe(null);
  });
  it('does not count a leaf that states nothing', () => {
    expect(lowerRating(leaf(null), leaf('EI 60'))).toEqual(leaf('EI 60'));
    expect(lowerRating(leaf(null), leaf('TBC'))).toEqual(leaf('TBC'));
    expect(lowerRating(leaf(null), leaf(null))).toEqual(leaf(null));
    expect(lowerRating(notRequired, leaf('EI 60'))).toEqual(leaf('EI 60'));
    expect(lowerRating(notRequired, leaf(null))).toEqual(leaf(null));
    expect(lowerRating(notRequired, notRequired)).toEqual(notRequired);
  });
  it('is unreadable where one leaf is', () => {
    expect(lowerRating(leaf('TBC'), leaf('EI 60'))).toEqual(leaf('TBC'));
    expect(lowerRating(notRequired, leaf('TBC'))).toEqual(leaf('TBC'));
  });
  it('keeps unknown what a duration leaves unknown', () => {
    const values = (a: string, b: string) => {
      const { state, loadbearing, integrity, insulation, duration } = lowerRating(leaf(a), leaf(b));
      return [state, loadbearing, integrity, insulation, duration];
    };
    expect(values('1 HR', '60/60/60')).toEqual(['stated', 60, 60, 60, null]); // 60, or not asked: 60 both ways
    expect(values('2 HR', '-/60/60')).toEqual(['stated', null, 60, 60, null]);
    expect(values('1 HR', '-/120/120')).toEqual(['stated', null, null, null, null]);
    expect(values('F 90', '90/60/60')).toEqual(['stated', null, 60, 60, null]);
  });
});

describe('any two leaves', () => {
  const texts = [null, 'TBC', '-/-/-', 'R 90', 'EI 60', 'E 120', 'REI 90', '90/60/30', '-/0/0', 'F 90', '1 HR', '2 HR'];
  const any = fc.oneof(fc.constantFrom(...texts).map(leaf), fc.constant(notRequired));
  const runs = { seed: 20260825, numRuns: 3000 };

  it('give the same whichever comes first', () => {
    fc.assert(
      fc.property(any, any, (a, b) => {
        expect(lowerRating(a, b)).toEqual(lowerRating(b, a));
      }),
      runs,
    );
  });
  it('never ask less than the less demanding of the two', () => {
    const provided = fc.constantFrom(...texts).map(leaf);
    fc.assert(
      fc.property(any, any, provided, (a, b, have) => {
        if (compareRatings(lowerRating(a, b), have) !== 'met') return;
        expect([compareRatings(a, have), compareRatings(b, have)]).toContain('met');
      }),
      runs,
    );
  });
});
