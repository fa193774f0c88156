/** The section of a piece that is not straight as a whole, but nearly is where it passes; sizes from the drawing. */
import { expect, it } from 'vitest';
import { cutSection, localSection } from '../../src/find/crossing-section.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { Body, Vec2 } from '../../src/model.js';

/** From so far before the middle plane of a wall to as far behind it; sizes half-way are 400 × 250 mm. */
function tapered(width: number, height: number, reach = 100): Body {
  const corners: Vec2[] = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ];
  const positions = [-1, 1].flatMap((end) =>
    corners.flatMap(([i, j]) => [(i * (400 + end * width)) / 2, end * reach, (j * (250 + end * height)) / 2]),
  );
  const sides = [0, 1, 2, 3].flatMap((i) => [i, i + 4, (i + 1) % 4, (i + 1) % 4, i + 4, ((i + 1) % 4) + 4]);
  const triangles = Uint32Array.from([...sides, 0, 1, 2, 0, 2, 3, 4, 6, 5, 4, 7, 6]);
  return { kind: 'mesh', positions: Float64Array.from(positions), triangles };
}
const frame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 0, 1], z: [0, 1, 0] } as const;

// 3 mm in 100 mm are 0.9 mm in the 30 mm on either side that are looked at, 4 mm are 1.2 mm: up to 1 mm is none.
it.each([
  [0, 0, true],
  [3, -3, true],
  [4, 0, false],
  [0, 4, false],
  [-4, 0, false],
  [0, -4, false],
])('is known or not, as its sizes change by %d and %d mm in 100 mm', (width, height, isKnown) => {
  const section = localSection([tapered(width, height)], [0, 0, 0], [0, 1, 0], { frame, thickness: 120 });
  if (!isKnown) return expect(section).toBeUndefined();
  expect(section).toMatchObject({ shape: 'rectangular', from: 'mesh', problem: null });
  expect(section!.width).toBeCloseTo(400, 6);
  expect(section!.height).toBeCloseTo(250, 6);
});

it('is known where its sizes change by just 1 mm from the middle on', () => {
  // All of these have exact binary fractions: it looks 64 / 4 = 16 mm far, where 4 mm in 64 mm are 1 mm.
  const sectionOf = (change: number) =>
    localSection([tapered(change, -change, 64)], [0, 0, 0], [0, 1, 0], { frame, thickness: 64 });
  expect(sectionOf(4)).toMatchObject({ width: 400, height: 250 });
  expect(sectionOf(4.001)).toBeUndefined();
});

const MESH = { from: 'mesh', width: undefined, height: undefined, diameter: undefined };
const OPEN = { ...MESH, residual: undefined, shape: 'unknown' };
it.each([
  ['nothing that is cut', cutSection(undefined, 0, true), { ...OPEN, problem: 'noAxis' }],
  ['a skewed cut', cutSection(rectangle(400, 250), 2.1, true), { ...OPEN, problem: 'noAxis' }],
  ['a mesh that is open there', cutSection(rectangle(400, 250), 0, false), { ...OPEN, problem: 'notClosed' }],
  ['a square cut', cutSection(rectangle(400, 250), 2, true), { shape: 'rectangular', width: 400, height: 250 }],
  ['a circle', cutSection(circle(315), 0, true), { shape: 'circular', diameter: expect.closeTo(315, 1) }],
])('what a cut says of a piece without an axis: %s', (_, section, expected) => {
  expect(section).toMatchObject({ ...MESH, ...expected });
});
