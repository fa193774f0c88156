/** What lies in the open: places in buildings whose walls, floors and roofs are known. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findCompartments } from '../../src/find/compartments.js';
import type { Vec3 } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

async function placesIn(build: (b: ModelBuilder) => void) {
  const b = new ModelBuilder({ fileName: 'a.ifc' });
  build(b);
  const { origin, ...federation } = await readFederation([
    { name: 'a.ifc', bytes: new TextEncoder().encode(b.toString()) },
  ]);
  const { at } = findCompartments({ ...federation, origin }, new Map());
  return (x: number, y: number, z: number) => at([x, y, z].map((v, i) => v - origin[i]!) as unknown as Vec3).outside;
}

type Corner = readonly [number, number];

/** Unrated walls from corner to corner, round and closed, or with the last side left out. */
function walls(b: ModelBuilder, corners: readonly Corner[], { base = 0, height = 3000, isOpen = false } = {}) {
  const sides = isOpen ? corners.slice(0, -1) : corners;
  for (const [i, from] of sides.entries())
    b.wall({
      name: `W${i}`,
      thickness: 200,
      height,
      base,
      from: [...from],
      to: [...corners[(i + 1) % corners.length]!],
    });
}

const slab = (b: ModelBuilder, from: Corner, to: Corner, top: number) =>
  b.slab({ name: `Slab ${top}`, outline: rectangle([...from], [...to]), thickness: 200, top });

const HOUSE: readonly Corner[] = [
  [0, 0],
  [10000, 0],
  [10000, 8000],
  [0, 8000],
];

describe('a house of two storeys, the upper one over half of it', () => {
  const house = placesIn((b) => {
    slab(b, [0, 0], [10000, 8000], 0);
    walls(b, HOUSE);
    slab(b, [0, 0], [10000, 8000], 3200);
    walls(
      b,
      [
        [0, 0],
        [5000, 0],
        [5000, 8000],
        [0, 8000],
      ],
      { base: 3200 },
    );
    slab(b, [0, 0], [5000, 8000], 6400);
    // Parapet of the lower roof.
    b.wall({ name: 'Parapet', thickness: 200, height: 900, base: 3200, from: [10000, 0], to: [10000, 8000] });
    // Canopy before the door.
    slab(b, [2000, -2500], [4000, -150], 2600);
  });
  it.each([
    ['in a room', [5000, 4000, 1500], false],
    ['over its ceiling, higher than its walls', [8000, 4000, 3000 - 1], false],
    ['in the room above', [2000, 4000, 5000], false],
    ['before the wall', [10250, 4000, 2000], true],
    ['far away', [90000, 4000, 2000], true],
    ['on the lower roof', [8000, 4000, 3700], true],
    ['beside the upper storey', [5250, 4000, 5000], true],
    ['on the upper roof', [2000, 4000, 6700], true],
    ['high over it', [2000, 4000, 20000], true],
    ['within a slab, which is neither', [8000, 4000, 3100], null],
    ['under the canopy', [3000, -1000, 2000], null],
    ['on the canopy', [3000, -1000, 2700], true],
    ['in the ground under it', [3000, 4000, -1000], false],
  ] as const)('%s', async (_, [x, y, z], outside) => {
    expect((await house)(x, y, z)).toBe(outside);
  });
});

describe('what walls do not show', () => {
  it('walls without a roof: nothing tells a room from a yard, but what lies beyond them is outside', async () => {
    const outside = await placesIn((b) => walls(b, HOUSE));
    expect(outside(5000, 4000, 1500)).toBe(null);
    expect(outside(11000, 4000, 1500)).toBe(true);
  });

  it('a yard in the middle of a roofed house', async () => {
    const outside = await placesIn((b) => {
      walls(b, HOUSE);
      walls(b, [
        [3000, 3000],
        [7000, 3000],
        [7000, 5000],
        [3000, 5000],
      ]);
      for (const [from, to] of [
        [
          [0, 0],
          [10000, 3000],
        ],
        [
          [0, 5000],
          [10000, 8000],
        ],
      ] as const)
        slab(b, from, to, 3200);
    });
    expect(outside(5000, 1500, 1500)).toBe(false);
    expect(outside(5000, 4000, 1500)).toBe(null);
  });

  it('the notch of an L-shaped house: outside where the house has roofs, else not known', async () => {
    const corners: readonly Corner[] = [
      [0, 0],
      [10000, 0],
      [10000, 4000],
      [4000, 4000],
      [4000, 8000],
      [0, 8000],
    ];
    const bare = await placesIn((b) => walls(b, corners));
    expect(bare(5000, 5000, 1500)).toBe(null);
    const roofed = await placesIn((b) => {
      walls(b, corners);
      slab(b, [0, 0], [10000, 4000], 3200);
      slab(b, [0, 4000], [4000, 8000], 3200);
    });
    expect(roofed(5000, 5000, 1500)).toBe(true);
    expect(roofed(2000, 6000, 1500)).toBe(false);
  });

  it('a glazed side that is no wall: under a slab it is not known, without one neither', async () => {
    const open = (b: ModelBuilder) => walls(b, HOUSE, { isOpen: true });
    const bare = await placesIn(open);
    expect(bare(5000, 4000, 1500)).toBe(null);
    const roofed = await placesIn((b) => {
      open(b);
      slab(b, [0, 0], [10000, 8000], 3200);
    });
    expect(roofed(5000, 4000, 1500)).toBe(null);
    expect(roofed(-250, 4000, 1500)).toBe(true);
  });

  it('slabs without walls, or nothing at all', async () => {
    const slabs = await placesIn((b) => {
      slab(b, [0, 0], [10000, 8000], 0);
      slab(b, [0, 0], [10000, 8000], 3200);
    });
    expect([slabs(5000, 4000, 1500), slabs(5000, 4000, 3500), slabs(90000, 0, 0)]).toEqual([null, null, null]);
  });

  it('two storeys without floors: a place as high as the feet of the upper walls is in the upper one', async () => {
    const outside = await placesIn((b) => {
      walls(b, HOUSE);
      walls(b, rectangle([0, 0], [5000, 8000]), { base: 3200 });
    });
    expect([3100, 3200, 3300].map((height) => outside(8000, 4000, height))).toEqual([null, true, true]);
  });

  it('walls of a lower storey only: what is above its ceiling slab is not in it', async () => {
    const outside = await placesIn((b) => {
      walls(b, HOUSE);
      slab(b, [0, 0], [10000, 8000], 3200);
      slab(b, [0, 0], [10000, 8000], 6400);
    });
    expect(outside(5000, 4000, 5000)).toBe(null);
  });
});
