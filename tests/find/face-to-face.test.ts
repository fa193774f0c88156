/** Walls that stand face to face, and ducts that end, meet or pass in them; what is expected follows from the drawing. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

async function review(build: (b: ModelBuilder) => void) {
  const b = new ModelBuilder({ fileName: 'faces.ifc' });
  build(b);
  const bytes = new TextEncoder().encode(b.toString());
  return findPenetrations(await readFederation([{ name: 'faces.ifc', bytes }]));
}

const DUCT = { name: 'D', from: [3000, -2000, 1500], to: [3000, 2000, 1500], width: 400, height: 300 } as const;
const WALL = { name: 'W', from: [0, 0], to: [6000, 0], thickness: 200, height: 3000, rating: '-/60/60' } as const;

it.each([
  ['in neither', [], [250]],
  ['in one', [0], [100, 100]],
  ['in both', [0, 150], [250]],
] as const)('two walls 50 mm apart, with an opening %s', async (_, opened, thicknesses) => {
  const { penetrations } = await review((b) => {
    for (const y of [0, 150]) {
      const wall = b.wall({ name: `W ${y}`, from: [0, y], to: [6000, y], thickness: 100, height: 3000 });
      if (opened.some((at) => at === y)) b.opening(wall, { centre: [3000, y, 1500], width: 500, height: 400 });
    }
    b.duct(DUCT);
  });
  expect(penetrations.map(({ barrier }) => barrier.thickness)).toEqual(thicknesses);
});

it.each([
  ['-/60/60', '-/120/120', 'W 0'],
  ['-/120/120', '-/60/60', 'W 150'],
  ['-/120/120', '-/120/60', 'W 150'],
  ['-/60/60', undefined, 'W 0'],
  [undefined, '-/-/-', 'W 150'],
] as const)(
  'two walls face to face of %s and %s are rated as the lower, whichever is thicker',
  async (a, b, expected) => {
    const thicknesses = [
      [100, 100],
      [200, 100],
      [100, 200],
    ] as const;
    for (const [first, second] of thicknesses) {
      const { penetrations } = await review((model) => {
        const wall = { from: [0, 0], to: [6000, 0], height: 3000 } as const;
        model.wall({ ...wall, name: 'W 0', thickness: first, ...(a && { rating: a }) });
        const y = (first + second) / 2 + 50;
        const other = { ...wall, name: 'W 150', from: [0, y], to: [6000, y], thickness: second } as const;
        model.wall({ ...other, ...(b && { rating: b }) });
        model.duct(DUCT);
      });
      expect(penetrations.map(({ barrier }) => [barrier.name, barrier.thickness])).toEqual([
        [expected, first + second + 50],
      ]);
    }
  },
);

it.each([
  [-2000, 0, 2000],
  [2000, 0, -2000],
  [-2000, 95, 2000],
])('ducts from %d to %d and on to %d, one after the other, pass a wall in which they meet', async (from, at, to) => {
  const { penetrations } = await review((b) => {
    b.wall(WALL);
    b.duct({ ...DUCT, name: 'A', from: [3000, from, 1500], to: [3000, at, 1500] });
    b.duct({ ...DUCT, name: 'B', from: [3000, at, 1500], to: [3000, to, 1500] });
  });
  expect(penetrations.map(({ crossing }) => crossing)).toEqual(['through']);
});

it('what ends in a wall has no faces; another duct before the face of one that passes it is said to be a duct', async () => {
  const { penetrations } = await review((b) => {
    b.wall(WALL);
    b.duct({ ...DUCT, name: 'ends', from: [1000, -2000, 1500], to: [1000, 0, 1500] });
    b.duct(DUCT);
    b.duct({ ...DUCT, name: 'beside', from: [2000, 400, 1900], to: [4500, 400, 1900] });
  });
  const faces = Object.fromEntries(penetrations.map(({ duct, faces: both }) => [duct.name, both]));
  expect(faces.ends).toEqual([null, null]);
  expect(faces.D!.map((face) => face!.obstacles.map(({ name, kind, side }) => [name, kind, side]))).toEqual([
    [],
    [['beside', 'duct', 'top']],
  ]);
});
