/** Limits of checks that go by the size of the duct. */
import { describe, expect, it } from 'vitest';
import { judge } from '../../src/rules/index.js';
import { checkFields, crossings, document, duct, penetration, rulesOf } from './factories.js';
import { refusal } from './refusal.js';

/** Up to 10° for ducts up to 600 mm, up to 5° for larger ones up to 1,200 mm; round ones up to 3°. */
const BY_SIZE = {
  bySize: [
    { upTo: { longestSide: 600 }, value: 10 },
    { above: { longestSide: 600 }, upTo: { longestSide: 1200 }, value: 5 },
    { upTo: { diameter: 500 }, value: 3 },
  ],
};

const finding = (size: Parameters<typeof duct>[0], skew = 6) =>
  judge(
    crossings({ penetrations: [penetration({ duct: duct(size), skew })] }),
    rulesOf({ atMost: BY_SIZE, unit: 'deg' }),
    {
      allFindings: true,
    },
  ).findings[0]!;

describe('a table of limits', () => {
  it.each([
    [
      'the first row',
      { width: 600, height: 400 },
      { outcome: 'cantTell', wouldBe: 'passed', limit: { atMost: 10 }, margin: 4 },
    ],
    ['the second row', { width: 600.1, height: 400 }, { outcome: 'failed', limit: { atMost: 5 }, margin: -1 }],
    ['whichever side is the longer', { width: 400, height: 1200 }, { outcome: 'failed', limit: { atMost: 5 } }],
    [
      'round ducts have rows of their own',
      { shape: 'circular', diameter: 500 } as const,
      { outcome: 'failed', limit: { atMost: 3 } },
    ],
    [
      'a shape that is not known',
      { shape: 'unknown' } as const,
      { outcome: 'cantTell', wouldBe: null, missing: ['duct.shape'] },
    ],
    ['a side that is not known', { height: null }, { outcome: 'cantTell', wouldBe: null, missing: ['duct.height'] }],
  ])('%s', (_, size, expected) => {
    expect(finding(size)).toMatchObject(expected);
  });

  it('says of what lies beyond it that there is no row', () => {
    expect(finding({ width: 1200.1, height: 400 })).toMatchObject({
      ...{ outcome: 'cantTell', wouldBe: null, missing: [] },
      message: expect.stringContaining('the table of limits has no row for a duct of this size'),
    });
  });
});

describe('tables that are refused', () => {
  const table = (...rows: object[]) => ({ atMost: { bySize: rows } });
  it.each([
    [
      'a hole',
      table(
        { upTo: { longestSide: 600 }, value: 1 },
        { above: { longestSide: 700 }, upTo: { longestSide: 900 }, value: 2 },
      ),
      /leaves a hole between longestSide 600 and longestSide 700/,
    ],
    [
      'not ascending',
      table({ upTo: { diameter: 600 }, value: 1 }, { upTo: { diameter: 600 }, value: 2 }),
      /must ascend/,
    ],
    ['no rows', table(), /bySize/],
    [
      'a least above the most, for one size',
      { ...table({ upTo: { diameter: 600 }, value: 20 }, { upTo: { diameter: 900 }, value: 5 }), atLeast: 10 },
      /nothing can be at least 10 and at most 5 \(diameter 900\)/,
    ],
    [
      'no duct to go by',
      {
        ...table({ upTo: { diameter: 600 }, value: 20 }),
        each: 'barrier',
        measure: 'barrier.thickness',
        about: 'model',
      },
      /a table goes by the size of the duct, and there is none for each: barrier/,
    ],
    [
      'a separation that is worked out from facts',
      { each: 'neighbour', measure: 'neighbour.distance', atMost: undefined, atLeast: { cel: 'duct.width' } },
      /how far to look for neighbours must be known beforehand/,
    ],
  ])('%s', (_, changes, message) => {
    expect(refusal(document([checkFields(changes)])).message).toMatch(message);
  });
});
