import { describe, expect, it } from 'vitest';
import type { Penetration } from '../../src/model.js';
import { gapFacts } from '../../src/rules/gap-facts.js';
import { judge } from '../../src/rules/index.js';
import { crossings, duct, gaps, NO_GAPS, opening, penetration } from './factories.js';
import { shippedRules } from './rule-cases.js';

const judged = (changes: Partial<Penetration>) =>
  gapFacts(penetration(changes), new Map()).map(({ place, value }) => [place, value] as const);

const SIDES = [
  ['top', 30],
  ['bottom', 30],
  ['left', 30],
  ['right', 30],
] as const;

describe('which gaps are judged', () => {
  it('the four sides of a rectangular duct in a rectangular opening', () => {
    expect(judged({})).toEqual(SIDES);
  });

  // A duct of diameter 300 in the middle of a 360 × 360 opening: 30 mm at every side; towards a corner the outline is
  // 150 from the middle and the opening's edges are 180 - 150 · cos 45° = 73.9 mm from it.
  const inCorner = gaps({ max: 73.9 });

  it.each([
    ['a round duct in a rectangular opening', { duct: duct({ shape: 'circular' }), gaps: inCorner }, 73.9],
    ['an oval duct', { duct: duct({ shape: 'oval' }), gaps: inCorner }, 73.9],
    ['a duct of unknown shape', { duct: duct({ shape: 'unknown' }), gaps: inCorner }, 73.9],
    ['a rectangular duct in a round opening', { opening: opening({ shape: 'circular' }) }, 30],
    ['a rectangular duct in an opening of another shape', { opening: opening({ shape: 'other' }) }, 30],
  ] as const)('all round for %s', (_, changes, widest) => {
    expect(judged(changes)).toEqual([
      ['narrowest', 30],
      ['widest', widest],
    ]);
  });

  it('all round, and not known, where a side was not measured', () => {
    expect(judged({ gaps: NO_GAPS })).toEqual([
      ['narrowest', null],
      ['widest', null],
    ]);
    expect(judged({ gaps: gaps({ top: null }) })).toEqual([
      ['narrowest', 30],
      ['widest', 30],
    ]);
  });

  it('the sides, and what no side shows: an oblique duct is wide at one face on either side', () => {
    expect(judged({ gaps: gaps({ max: 90 }) })).toEqual([...SIDES, ['widest', 90]]);
    expect(judged({ gaps: gaps({ min: 12 }) })).toEqual([...SIDES, ['narrowest', 12]]);
  });

  it('not twice for one step of rounding', () => {
    expect(judged({ gaps: gaps({ min: 29.9, max: 30.1 }) })).toEqual(SIDES);
    expect(judged({ gaps: gaps({ min: 29.8, max: 30.2 }) })).toEqual([...SIDES, ['narrowest', 29.8], ['widest', 30.2]]);
  });
});

describe('what is found', () => {
  const found = (changes: Partial<Penetration>) =>
    judge(crossings({ penetrations: [penetration(changes)] }), shippedRules).findings.filter(
      ({ check }) => check === 'gap-within-range',
    );

  it('the corner of the opening is too wide for a round duct', () => {
    const findings = found({ duct: duct({ shape: 'circular' }), gaps: gaps({ max: 73.9 }) });
    expect(findings).toMatchObject([
      {
        outcome: 'failed',
        side: null,
        measured: 73.9,
        margin: -23.9,
        at: [3000, 0, 2000],
        message: 'The widest gap of Duct 1 in Wall 1 is 73.9 mm, 23.9 mm outside the allowed 10 to 50 mm.',
      },
    ]);
  });

  // What issue and contract give: a gap of 70 mm below, allowed 10 to 50, has margin -20 and lies half-way down.
  it('a side names its place', () => {
    expect(found({ gaps: gaps({ bottom: 70, max: 70 }) })).toMatchObject([
      { side: 'bottom', at: [3000, 0, 1765], measured: 70, limit: { atLeast: 10, atMost: 50 }, margin: -20 },
    ]);
  });

  it('two sides of one duct have keys of their own', () => {
    const keys = found({ gaps: gaps({ top: 80, bottom: 70, max: 80 }) }).map(({ key }) => key);
    expect(new Set(keys).size).toBe(2);
  });

  it('a side that faces another service says so to the rules, and so does all round', () => {
    const facing = { right: 'P-0002' };
    const faces = (changes: Partial<Penetration>) =>
      Object.fromEntries(
        gapFacts(penetration(changes), new Map()).map(({ place, facts }) => [place, facts.facesService]),
      );
    expect(faces({ gaps: gaps({ facing }) })).toEqual({ top: false, bottom: false, left: false, right: true });
    expect(faces({ duct: duct({ shape: 'circular' }), gaps: gaps({ facing }) })).toEqual({
      narrowest: true,
      widest: true,
    });
  });
});
