/** Where plates have solid, and where lines meet round ones; from the drawing in each case. */
import { expect, it } from 'vitest';
import { elevationFrame, inSolid, plate } from '../../src/find/plates.js';
import { cutRound, meetings } from '../../src/find/round-plates.js';
import { bounds } from '../../src/geometry/polygon.js';
import { X, Y, Z } from '../../src/geometry/vector.js';
import { FACE_INSET } from '../../src/tolerances.js';
import { between, upright } from './elements.js';

it.each([
  ['nearer to the first leaf', -30, -40 - FACE_INSET],
  ['nearer to the second', 0, 10 + FACE_INSET],
  ['in a leaf already', 60, 60],
])('a height within a cavity is moved to the nearest solid: %s', (_, height, expected) => {
  // Solid from -100 to -40 and from 10 to 100.
  const hollow = plate(
    Y,
    [
      [-100, -40],
      [10, 100],
    ],
    'wall',
  );
  expect(inSolid(hollow, height)).toBeCloseTo(expected, 9);
});

it('a line meets a cylinder at two places, or at none', () => {
  const round = { centre: [1000, 0], radii: [], chordError: 0, faces: [] } as const;
  expect(meetings(round, 500, [0, 0, 70], X)).toEqual([
    [500, 0, 70],
    [1500, 0, 70],
  ]);
  expect(meetings(round, 500, [0, 600, 70], X)).toEqual([undefined, undefined]);
  expect(meetings(round, 500, [1500, 0, 70], Z)).toEqual([undefined, undefined]);
});

it('a cut on a cylinder ends where that cylinder leaves the wall, at each depth of one wall', () => {
  // A block of 600 mm across, cut by circles about the origin: seen along X each ends at its sides.
  const block = upright(between([900, -300], [1100, 300]), 0, 3000);
  const curve = { centre: [0, 0], radius: 1000, outward: 1, chordError: 0 } as const;
  const middle = { frame: elevationFrame([1000, 0, 0], X, true), thickness: 200, curve };
  for (const depth of [-50, 50]) {
    const { min, max } = bounds(cutRound([block], middle, curve, depth).outers);
    expect([min[0], max[0]]).toEqual([expect.closeTo(-300, 6), expect.closeTo(300, 6)]);
  }
});
