/** Two ducts through one wall: how near they are to each other, and what is drawn of each; from the drawing. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { bounds } from '../../src/geometry/polygon.js';
import { readFederation } from '../../src/read/read-federation.js';

/** Of 400 × 300 each, the second so much further right and up. */
async function twoDucts(right: number, up: number, opening = { x: 2010, width: 500 }) {
  const b = new ModelBuilder({ fileName: 'two.ifc' });
  const wall = b.wall({ name: 'W', from: [0, 0], to: [6000, 0], thickness: 200, height: 4000, rating: '-/60/60' });
  b.opening(wall, { centre: [opening.x, 0, 1500], width: opening.width, height: 380 });
  const duct = { width: 400, height: 300 };
  b.duct({ ...duct, name: 'A', from: [2000, -1000, 1500], to: [2000, 1000, 1500] });
  b.duct({ ...duct, name: 'B', from: [2000 + right, -1000, 1500 + up], to: [2000 + right, 1000, 1500 + up] });
  const federation = await readFederation([{ name: 'two.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  return findPenetrations(federation).penetrations;
}

it.each([
  ['side by side', 400 + 450, 0, 450],
  ['up a slope', 400 + 300, 300 + 390, Math.hypot(300, 390)],
  ['near on both axes, and yet further off than 500 mm', 400 + 450, 300 + 450, undefined],
])('neighbours are told by the clear distance: %s', async (_, right, up, expected) => {
  const found = (await twoDucts(right, up)).map(({ neighbours }) => neighbours.map(({ distance }) => distance));
  const each = expected === undefined ? [] : [expect.closeTo(expected, 1)];
  expect(found).toEqual([each, each]);
});

it('outlines of duct and opening lie in the frame of the drawing, about the middle of the duct', async () => {
  const [{ outlines, position }] = (await twoDucts(2000, 0)) as [Awaited<ReturnType<typeof twoDucts>>[number]];
  expect(position).toEqual([2000, 0, 1500]);
  expect(bounds(outlines.duct)).toEqual({ min: [-200, -150], max: [200, 150] });
  expect(bounds(outlines.opening)).toEqual({ min: [10 - 250, -190], max: [10 + 250, 190] });
});

it('in one opening each faces the other, and each has its own tag', async () => {
  const found = await twoDucts(480, 0, { x: 2240, width: 1000 });
  const idOf = (name: string) => found.find(({ duct }) => duct.name === name)!.id;
  expect(Object.fromEntries(found.map(({ duct, gaps }) => [duct.name, [gaps.left, gaps.right, gaps.facing]]))).toEqual({
    A: [60, 80, { right: idOf('B') }],
    B: [80, 60, { left: idOf('A') }],
  });
  for (const { key, tag } of found) expect(tag).toBe(`${key.slice(0, 4)}-${key.slice(4, 5)}`);
});
