import { describe, expect, it } from 'vitest';
import { beadVolume, filletVolume, fillVolume, packingDepth } from '../../src/quantify/formulas/fill.js';
import { angleCentroid, angleOf, bentLength, framePieces } from '../../src/quantify/formulas/frame.js';

describe('what fills a gap', () => {
  // Published values of the trade, computed from the definitions (reference sheet, 6.2).
  it('fills a rectangular gap by areas: 500 x 300 in 520 x 320, 25 deep, 410 ml', () => {
    expect(fillVolume(520 * 320 - 500 * 300, 25)).toBeCloseTo(0.41, 9);
  });
  it('fills a round gap: 200 in 230, 15 deep, 152.0 ml', () => {
    expect(fillVolume((Math.PI / 4) * (230 ** 2 - 200 ** 2), 15)).toBeCloseTo(0.152, 4);
  });
  it('gets 2.40 m of a bead 10 x 25, and 8.33 m of a fillet of 12, from 600 ml', () => {
    expect(0.6 / beadVolume(1000, 10, 25)).toBeCloseTo(2.4, 9);
    expect(0.6 / filletVolume(1000, 12)).toBeCloseTo(8.33, 2);
  });
  it('has nothing to fill where services take more than the opening, nor depth where seals take all of it', () => {
    expect(fillVolume(-5, 25)).toBe(0);
    expect(packingDepth(20, 2, 15)).toBe(0);
    // 128 thick, sealed 15 deep on both faces: 128 − 30 = 98.
    expect(packingDepth(128, 2, 15)).toBe(98);
  });
});

describe('frames round a duct', () => {
  // Worked by hand: 600 x 400, angles of 40. Mitred 600 + 80 = 680 and 400 + 80 = 480; butted 680 and 400.
  it.each([
    ['mitred', 480],
    ['butted', 400],
  ] as const)('goes round %s', (corners, upright) => {
    expect(framePieces({ width: 600, height: 400 }, 40, 'all', corners)).toEqual([
      { sides: 'top and bottom', pieces: 2, length: 680, alongDuct: 600 },
      { sides: 'left and right', pieces: 2, length: upright, alongDuct: 400 },
    ]);
  });

  it('ends with the duct where the other sides have none', () => {
    expect(framePieces({ width: 600, height: 400 }, 40, 'left and right', 'mitred')).toEqual([
      { sides: 'left and right', pieces: 2, length: 400, alongDuct: 400 },
    ]);
    expect(framePieces({ width: 600, height: 400 }, 40, 'top and bottom', 'butted')).toEqual([
      { sides: 'top and bottom', pieces: 2, length: 600, alongDuct: 600 },
    ]);
  });

  it('closes the outer edge: pieces of a mitred frame lie edge to edge', () => {
    for (const [width, height, b] of [
      [100, 100, 20],
      [1250, 600, 50],
      [3600, 200, 100],
    ] as const) {
      const all = framePieces({ width, height }, b, 'all', 'mitred');
      const edge = all.reduce((sum, { pieces, length }) => sum + pieces * length, 0);
      expect(edge).toBe(2 * (width + 2 * b) + 2 * (height + 2 * b));
      // Of strips as areas: each corner counts once where they butt.
      const butted = framePieces({ width, height }, b, 'all', 'butted');
      const area = butted.reduce((sum, { pieces, length }) => sum + pieces * length * b, 0);
      expect(area).toBe((width + 2 * b) * (height + 2 * b) - width * height);
    }
  });

  it('bends a bar along its centroid', () => {
    // 40 x 40 x 3 by hand: (1600 + 120 − 9) / (2·77) = 11.110; round 400: π·400 + 2π·11.110 = 1326.4.
    expect(angleCentroid(40, 3)).toBeCloseTo(11.11, 3);
    expect(bentLength({ shape: 'circular', diameter: 400 }, angleCentroid(40, 3))).toBeCloseTo(1326.44, 1);
    // A bar of which nothing stands out: the duct's own perimeter. A thin one: a quarter of the leg.
    expect(bentLength({ shape: 'circular', diameter: 400 }, 0)).toBeCloseTo(Math.PI * 400, 9);
    expect(angleCentroid(100, 1e-9)).toBeCloseTo(25, 6);
  });

  it('weighs angles as EN 10056-1 lists them, and others without radii', () => {
    // EN 10056-1: 40 x 4 2.42, 50 x 5 3.77 kg/m (reference sheet, 6.4).
    expect(angleOf(40, 4)).toEqual({ name: 'L 40x40x4', perMetre: 2.42 });
    expect(angleOf(50, 5).perMetre).toBe(3.77);
    // Not listed: 3·77 mm² = 231 mm², times 7850 kg/m³ = 1.813 kg/m.
    expect(angleOf(40, 3)).toEqual({ name: 'L 40x40x3', perMetre: 1.813 });
  });
});
