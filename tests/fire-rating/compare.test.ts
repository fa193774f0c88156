/** Rules that the reference sheet leaves open; what it says itself stands in tests/reference/fire-rating.test.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ComparableRating,
  type ComparisonOutcome,
  compareRatings,
  compareRatingsInDetail,
} from '../../src/fire-rating/compare.js';
import { parseRating } from '../../src/fire-rating/parse.js';
import type { Criterion } from '../../src/fire-rating/types.js';
import type { Minutes } from '../../src/model.js';

const wall = (text: string | null) => parseRating(text, { object: 'barrier' });
const duct = (text: string | null) => parseRating(text, { object: 'duct' });
const damper = (text: string | null) => parseRating(text, { object: 'damper' });

describe('minutes', () => {
  it.each<[required: string | null, provided: string | null, outcome: ComparisonOutcome]>([
    ['-/60/60', '-/60/60', 'met'],
    ['-/60/60', '-/60/-', 'missed'],
    ['-/60/60', 'E 120', 'missed'],
    ['-/60/60', 'EI 45', 'missed'],
    ['-/60/60', null, 'unknown'],
    ['-/60/60', '60', 'unknown'],
    ['60/-/-', null, 'met'], // integrity and insulation are not asked for
    ['-/0/0', null, 'met'], // a stated 0 asks nothing
    ['-/60/0', '-/60/-', 'met'],
    [null, 'EI 240', 'unknown'],
    ['TBC', 'EI 240', 'unknown'],
    ['F 90', 'EI 90', 'met'],
  ])('%s by %s: %s', (required, provided, outcome) => {
    expect(compareRatings(wall(required), duct(provided))).toBe(outcome);
  });

  it('weighs what is known to be missed more than what is not known', () => {
    const half: ComparableRating = { ...duct('EI 60'), insulation: null };
    expect(compareRatings(wall('-/60/60'), half)).toBe('unknown');
    expect(compareRatings(wall('-/120/60'), half)).toBe('missed');
  });
  it('compares the criteria it is given', () => {
    expect(compareRatings(wall('120/60/60'), duct('EI 60'))).toBe('met');
    expect(compareRatings(wall('120/60/60'), duct('EI 60'), ['loadbearing', 'integrity'])).toBe('missed');
    expect(compareRatings(wall('-/60/60'), damper('1 HR'), ['integrity'])).toBe('met');
    expect(compareRatings(wall('-/60/60'), damper('1 HR'))).toBe('missed'); // a damper with one number has no insulation
    expect(compareRatings(wall('-/60/60'), duct('EI 60'), [])).toBe('unknown'); // nothing compared, nothing proven
  });
  it('is met by anything where the barrier is said to need nothing', () => {
    expect(compareRatings({ ...wall(null), state: 'notRequired' }, duct(null))).toBe('met');
  });
});

describe('one duration without criteria', () => {
  it('as a requirement is the most that can be asked', () => {
    expect(compareRatings(wall('1 HR'), duct('EI 60'))).toBe('met');
    expect(compareRatings(wall('1 HR'), duct('EI 45'))).toBe('unknown');
    expect(compareRatings(wall('1 HR'), duct('E 60'))).toBe('unknown');
    expect(compareRatings(wall('1 HR'), duct('60 min'))).toBe('unknown');
    expect(compareRatings(wall('0 HR'), duct(null))).toBe('met');
  });
  it('as what is provided is the most that can be given', () => {
    expect(compareRatings(wall('-/60/60'), duct('30 min'))).toBe('missed');
    expect(compareRatings(wall('-/60/60'), duct('240 min'))).toBe('unknown');
    expect(compareRatings(wall('60/-/-'), duct('30 min'))).toBe('met');
  });
});

describe('flags', () => {
  const need = (...flags: string[]) => ({ flags });
  it.each<[provided: string, flag: string, outcome: ComparisonOutcome]>([
    ['EI 90 (ve ho i↔o) S', 'S', 'met'],
    ['EI 90 (ve ho i↔o)', 'S', 'missed'],
    ['EI 90 (ve i↔o)', 'ho', 'missed'],
    ['EI 90 (ve i→o)', 'o>i', 'missed'],
    ['EI 90 S', 'ho', 'unknown'], // no word of orientation
    ['EI 90 (ve)', 'i>o', 'unknown'], // nor of the fire's side
    ['EI 90', 'S', 'unknown'],
    ['-/90/90', 'ho', 'unknown'], // a label that has no place for orientation
    ['TBC', 'ho', 'unknown'],
  ])('%s, needed %s: %s', (provided, flag, outcome) => {
    expect(compareRatings(wall('-/-/-'), duct(provided), undefined, need(flag))).toBe(outcome);
  });
  it('are read from the text where a rating has none', () => {
    const { flags: _, ...plain } = duct('EI 90 (ve ho i↔o) S');
    expect(compareRatings(wall('EI 90'), plain, undefined, need('ve', 'ho', 'i>o', 'o>i', 'S'))).toBe('met');
  });
  it('of another kind of fire make the minutes incomparable', () => {
    const smoke = duct('E600 120 (ho) S 500 single');
    expect(compareRatings(smoke, duct('E600 120 (ho)'), ['integrity'])).toBe('met');
    expect(compareRatings(smoke, duct('E300 120 (ho)'), ['integrity'])).toBe('unknown');
    expect(compareRatings(smoke, duct('EI 120'), ['integrity'])).toBe('unknown');
    expect(compareRatings(wall('-/-/-'), smoke)).toBe('met');
    const circuit = parseRating('E 30', { object: 'cable' });
    expect(compareRatings(circuit, duct('EI 240'))).toBe('unknown');
    expect(compareRatings(wall('EI 30'), circuit)).toBe('unknown');
  });
});

describe('any two ratings', () => {
  const minutes = fc.constantFrom<Minutes>(0, 30, 60, 90, 'none', null);
  const rating: fc.Arbitrary<ComparableRating> = fc.oneof(
    fc.record({
      state: fc.constant('stated' as const),
      text: fc.constant(null),
      loadbearing: minutes,
      integrity: minutes,
      insulation: minutes,
      duration: fc.constant(null),
    }),
    fc.constantFrom(30, 60, 90).map((duration) => wall(`${duration} min`)),
    fc.constantFrom(wall(null), wall('TBC')),
  );
  const runs = { seed: 20260825, numRuns: 5000 };

  it('are met only if the provided one has proof for every meaning of the required one', () => {
    // Second method: every criterion that may be asked (an unknown one may be as long as any) against what is certain.
    const certain = (side: ComparableRating, criterion: Criterion) => {
      const value = side[criterion];
      return typeof value === 'number' ? value : Number.NEGATIVE_INFINITY;
    };
    const most = (side: ComparableRating, criterion: Criterion) => {
      const value = side[criterion];
      if (value === 'none' || value === 0) return Number.NEGATIVE_INFINITY;
      return value ?? (side.state === 'durationOnly' ? (side.duration ?? Number.NaN) : Number.POSITIVE_INFINITY);
    };
    const seen = { met: 0, missed: 0, unknown: 0 };
    fc.assert(
      fc.property(rating, rating, (required, provided) => {
        const { outcome, criteria } = compareRatingsInDetail(required, provided);
        const proven = criteria.every(({ criterion }) => most(required, criterion) <= certain(provided, criterion));
        expect(outcome === 'met').toBe(proven);
        seen[outcome] += 1;
      }),
      runs,
    );
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(100);
  });
  it('that are not met are not met when a fact is lost either', () => {
    fc.assert(
      fc.property(rating, rating, fc.constantFrom('integrity', 'insulation'), (required, provided, lost) => {
        if (compareRatings(required, provided) === 'met') return;
        const lessRequired = { ...required, state: 'stated' as const, [lost]: null };
        const lessProvided = { ...provided, state: 'stated' as const, [lost]: null };
        expect(compareRatings(lessRequired, provided)).not.toBe('met');
        expect(compareRatings(required, lessProvided)).not.toBe('met');
        expect(compareRatings(required, wall('TBC'))).not.toBe('met');
      }),
      runs,
    );
  });
});
