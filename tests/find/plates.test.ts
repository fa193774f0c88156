/** Where plates have solid, and where lines meet round ones; from the drawing in each case. */
import { expect, it } from 'vitest';
import { inSolid, plate } from '../../src/find/plates.js';
import { meetings } from '../../src/find/round-plates.js';
import { X, Y, Z } from '../../src/geometry/vector.js';
import { FACE_INSET } from '../../src/tolerances.js';

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
