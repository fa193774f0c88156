/** The formulas of what goes round a duct, worked by hand and against the reference sheet (6.1, 6.3). */
import { describe, expect, it } from 'vitest';
import { casingPanels, panelsFromSheet } from '../../src/quantify/formulas/casing.js';
import {
  pinsOnFace,
  pinsOnRound,
  pinsOnSurface,
  strapLength,
  strapsAlong,
  tapeLength,
} from '../../src/quantify/formulas/fixings.js';
import {
  bestRoll,
  cutLength,
  developedLayer,
  lengthsOfArea,
  piecesOfStrip,
  roundLayer,
  roundThreeSides,
  stripsAlong,
  stripsCut,
} from '../../src/quantify/formulas/wrap.js';

const DUCT = { shape: 'rectangular', width: 600, height: 400 } as const;
const widthOf = (strips: readonly { pieces: number; width: number }[]) =>
  strips.reduce((sum, { pieces, width }) => sum + pieces * width, 0);
const countOf = (strips: readonly { pieces: number }[]) => strips.reduce((sum, { pieces }) => sum + pieces, 0);

describe('the reference sheet, 6.1', () => {
  it('600 x 400 with 40 mm: 2320 round the outside, cut 2420, 6 strips of 1200 on 6 m, 17.424 m² bought, 13.92 m² net', () => {
    const outside = roundLayer(DUCT, 1, 40);
    const cut = cutLength(outside, { pieceAllowance: 100 });
    expect([outside, cut, stripsAlong(6000, 1200, 100)]).toEqual([2320, 2420, 6]);
    expect(6 * 1.2 * (cut / 1000)).toBeCloseTo(17.424, 9);
    expect((outside * 6000) / 1e6).toBeCloseTo(13.92, 9);
  });

  it('round 400 with 40 mm: 1508.0; flat oval 600 x 300: 1542.5, with 40 mm 1793.8; against a slab 600 + 2 · 400', () => {
    expect(roundLayer({ shape: 'circular', diameter: 400 }, 1, 40)).toBeCloseTo(1508, 1);
    const oval = { shape: 'oval', width: 600, height: 300 } as const;
    expect(roundLayer(oval, 0, 40)).toBeCloseTo(1542.5, 1);
    expect(roundLayer(oval, 1, 40)).toBeCloseTo(1793.8, 1);
    expect(roundThreeSides({ a: 600, b: 400 }, 0, 40)).toBe(1400);
    // By hand, 40 mm: 680 under it, 440 beside it twice.
    expect(roundThreeSides({ a: 600, b: 400 }, 1, 40)).toBe(680 + 2 * 440);
  });

  it('each layer lies on the one below: a + 2(k − 1)·t goes under layer k', () => {
    for (const k of [1, 2, 3]) {
      const under = { ...DUCT, width: 600 + 2 * (k - 1) * 40, height: 400 + 2 * (k - 1) * 40 };
      expect(roundLayer(DUCT, k, 40)).toBe(roundLayer(under, 1, 40));
    }
  });
});

describe('strips', () => {
  it('are all as wide as the roll but the last, so that nothing is bought twice', () => {
    // 2905 mm with 100 laps in rolls of 1220: ⌈2805 / 1120⌉ = 3, the last 2905 − 2 · 1120 = 665.
    expect(stripsCut(2905, 1220, 100)).toEqual([
      { pieces: 2, width: 1220 },
      { pieces: 1, width: 665 },
    ]);
    expect(stripsCut(1220, 1220, 100)).toEqual([{ pieces: 1, width: 1220 }]);
    expect(stripsCut(2340, 1220, 100)).toEqual([{ pieces: 2, width: 1220 }]);
    expect(stripsCut(80, 1220, 100)).toEqual([{ pieces: 1, width: 80 }]);
    expect(stripsCut(0, 1220, 100)).toEqual([]);
  });

  it('cover the length with one overlap between neighbours, whatever the length', () => {
    for (let length = 1; length < 9000; length += 37) {
      const strips = stripsCut(length, 1220, 100);
      expect(widthOf(strips) - (countOf(strips) - 1) * 100).toBeCloseTo(length, 6);
      for (const { width } of strips) expect(width).toBeLessThanOrEqual(1220);
    }
  });

  it('longer than a roll are of equal pieces with one more overlap each', () => {
    // 15,000 from rolls of 7320 with 100 laps: ⌈14,900 / 7220⌉ = 3 of (15,000 + 200) / 3 = 5066.7.
    const cut = piecesOfStrip(15000, 7320, 100);
    expect(cut.pieces).toBe(3);
    expect(cut.length).toBeCloseTo(5066.667, 3);
    expect(piecesOfStrip(2420, 7320, 100)).toEqual({ pieces: 1, length: 2420 });
    expect(piecesOfStrip(0, 7320, 100)).toEqual({ pieces: 0, length: 0 });
  });

  it('come from the roll of which least is taken, of equals the wider', () => {
    const narrow = { length: 7320, width: 610 };
    const wide = { length: 7320, width: 1220 };
    // 600 mm: one strip of either, so 610 against 1220. 1400: 3 · 610 = 1830 against 2 · 1220. 1200: 3 · 610 against 1220.
    expect(bestRoll([narrow, wide], 600, 2420, 100)).toBe(narrow);
    expect(bestRoll([narrow, wide], 1400, 2420, 100)).toBe(narrow);
    expect(bestRoll([narrow, wide], 1200, 2420, 100)).toBe(wide);
    // 2 · 600 and 1 · 1200 are equal.
    expect(
      bestRoll(
        [
          { length: 5000, width: 600 },
          { length: 5000, width: 1200 },
        ],
        1100,
        2420,
        100,
      )!.width,
    ).toBe(1200);
    // What is no wider than the overlap covers nothing.
    expect(bestRoll([{ length: 5000, width: 100 }], 1100, 2420, 100)).toBeUndefined();
  });

  it('are as long as the longer of both allowances asks', () => {
    // 2320 + max(100, 4 · 40) = 2480; against a slab two corners: 1560 + max(100, 80).
    expect(cutLength(2320, { pieceAllowance: 100, cornerAllowance: 40 })).toBe(2480);
    expect(cutLength(1560, { pieceAllowance: 100, cornerAllowance: 40 }, 2)).toBe(1660);
    expect(cutLength(1508, { pieceAllowance: 100, cornerAllowance: 40 }, 0)).toBe(1608);
  });
});

describe('what is not straight', () => {
  it('grows as what goes round it: of a bend exactly', () => {
    // 600 x 400 along R = 450 through 90°: A = 2000 · 706.858; layer 2 of 40 mm is 2640 round: 2640 · 706.858 = 1.866 m².
    const along = (450 * Math.PI) / 2;
    expect(developedLayer(2000 * along, 2000, roundLayer(DUCT, 2, 40), 0)).toBeCloseTo(2640 * along, 6);
    expect(developedLayer(2000 * along, 2000, 2320, 0.15)).toBeCloseTo(1.15 * 2320 * along, 6);
  });

  it('is cut as equal lengths of the whole width', () => {
    // 10 m² from rolls of 7320 x 610 = 4.4652 m²: 3 lengths of 10e6 / (3 · 610) = 5464.5.
    const { pieces, length } = lengthsOfArea(10e6, { length: 7320, width: 610 });
    expect(pieces).toBe(3);
    expect(length).toBeCloseTo(5464.481, 3);
    expect(lengthsOfArea(0, { length: 7320, width: 610 })).toEqual({ pieces: 0, length: 0 });
  });
});

describe('pins, straps and tape', () => {
  it('pins stand in a grid half a spacing from the edges', () => {
    // 1000 x 1200 at 300: 4 · 4, the first 150 from each edge or nearer; the same as e = 150 in the row of the sheet, 6.3.
    expect(pinsOnFace(1000, 1200, 300)).toBe(4 * 4);
    expect(pinsOnFace(601, 400, 200)).toBe(4 * 2);
    expect(pinsOnFace(100, 50, 200)).toBe(1);
    expect(pinsOnFace(0, 400, 200)).toBe(0);
    // Round 400, 3 m at 200: 15 rings of ⌈1256.6 / 200⌉ = 7.
    expect(pinsOnRound(3000, Math.PI * 400, 200)).toBe(15 * 7);
    expect(pinsOnRound(0, Math.PI * 400, 200)).toBe(0);
    expect(pinsOnSurface(1.4137e6, 200)).toBe(36);
    expect(pinsOnSurface(0, 200)).toBe(0);
  });

  it('from one face and from one piece to the next no two rows of pins are further apart than stated', () => {
    for (let breadth = 10; breadth < 2000; breadth += 13) {
      const rows = pinsOnFace(100, breadth, 200);
      // The outermost stand 100 from the edge, or nearer to the middle of what one row holds.
      const between = rows === 1 ? 0 : (breadth - 200) / (rows - 1);
      expect(between).toBeLessThanOrEqual(200 + 1e-9);
      if (rows === 1) expect(breadth).toBeLessThanOrEqual(200);
    }
  });

  it('straps keep clear of barriers, and go on at other ends', () => {
    // 3000, 265 apart. No barrier: ⌈3000 / 265⌉ = 12. One: ⌈(3000 − 40 − 132.5) / 265⌉ + 1 = 11 + 1. Two: ⌈2920 / 265⌉ + 1 = 13.
    expect([0, 1, 2].map((ends) => strapsAlong(3000, 265, 40, ends))).toEqual([12, 12, 13]);
    expect(strapsAlong(60, 265, 40, 2)).toBe(1);
    expect(strapsAlong(0, 265, 40, 2)).toBe(0);
    expect(strapLength(2320, 100)).toBe(2420);
  });

  it('tape runs over the joints round a layer and along its seam', () => {
    expect(tapeLength(5, 2320, 6000)).toBe(5 * 2320 + 6000);
    expect(tapeLength(0, 2320, 6000)).toBe(6000);
  });
});

describe('a casing', () => {
  it('has panels over and under that lie on those beside it', () => {
    expect(casingPanels({ width: 600, height: 400 }, 1, 40)).toEqual([
      { side: 'over and under', pieces: 2, width: 680 },
      { side: 'beside', pieces: 2, width: 400 },
    ]);
    // The boards fill the ring between outside and duct: 2 · (680 + 400) · 40 = 680 · 480 − 600 · 400.
    for (const layer of [1, 2, 3]) {
      const boards = casingPanels({ width: 600, height: 400 }, layer, 40).reduce(
        (sum, p) => sum + p.pieces * p.width * 40,
        0,
      );
      const ring = (k: number) => (600 + 80 * k) * (400 + 80 * k);
      expect(boards).toBe(ring(layer) - ring(layer - 1));
    }
  });

  it('is cut from sheets the way that takes fewer pieces, the last as long as is left', () => {
    const sheet = { length: 2500, width: 1200 };
    expect(panelsFromSheet(6000, 680, sheet)).toEqual([
      { pieces: 2, length: 2500, width: 680 },
      { pieces: 1, length: 1000, width: 680 },
    ]);
    expect(panelsFromSheet(2000, 680, sheet)).toEqual([{ pieces: 1, length: 2000, width: 680 }]);
    // 1330 across is wider than the sheet: across it, 1200 of the length each.
    expect(panelsFromSheet(2400, 1330, sheet)).toEqual([{ pieces: 2, length: 1200, width: 1330 }]);
    // 3000 across: two beside each other.
    expect(panelsFromSheet(1200, 3000, sheet)).toEqual([{ pieces: 2, length: 1200, width: 1500 }]);
    expect(panelsFromSheet(0, 680, sheet)).toEqual([]);
    for (let length = 50; length < 9000; length += 173) {
      const area = panelsFromSheet(length, 900, sheet).reduce((sum, p) => sum + p.pieces * p.length * p.width, 0);
      expect(area).toBeCloseTo(length * 900, 3);
    }
  });
});
