/** What real models hold beside the plain cases; what is expected follows from the drawing in each case. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const WALL = { name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/60/60' } as const;

async function penetrations(build: (b: ModelBuilder) => void): Promise<readonly Penetration[]> {
  const b = new ModelBuilder({ fileName: 'odd.ifc' });
  build(b);
  const federation = await readFederation([{ name: 'odd.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  return findPenetrations(federation).penetrations;
}
const brief = (list: readonly Penetration[]) => list.map((p) => [p.duct.name, p.crossing, Math.round(p.skew)]);

describe('which way a plain box goes', () => {
  it('is through the wall for a piece that joins nothing and is shorter than it is wide', async () => {
    const [p] = await penetrations((b) => {
      b.wall(WALL);
      b.duct({ name: 'D', from: [3000, -100, 2000], to: [3000, 100, 2000], width: 600, height: 400 });
    });
    expect(p).toMatchObject({ crossing: 'through', skew: 0, duct: { width: 600, height: 400 } });
  });

  it('is not along a row of boxes that end 50 mm before each other: they join nothing', async () => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      for (const x of [2000, 2650])
        b.duct({ name: `D${x}`, from: [x, -100, 2000], to: [x, 100, 2000], width: 600, height: 400 });
    });
    expect(brief(found)).toEqual([
      ['D2000', 'through', 0],
      ['D2650', 'through', 0],
    ]);
  });

  it('is along the run for short boxes in a row, without any ports', async () => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      for (let i = 0; i < 4; i++)
        b.duct({
          name: `D${i}`,
          from: [2500, -2100 + i * 1200, 1500],
          to: [2500, -900 + i * 1200, 1500],
          width: 1300,
          height: 600,
        });
    });
    expect(brief(found)).toEqual([['D1', 'through', 0]]);
    expect(found[0]!.duct).toMatchObject({ width: 1300, height: 600 });
  });

  it.each([
    [
      { width: 600, height: 400 },
      { shape: 'rectangular', width: 600, height: 400 },
    ],
    [{ diameter: 315 }, { shape: 'circular', diameter: 315 }],
  ])('is through the wall for a damper alone in it: %j', async (size, section) => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      b.damper({ name: 'FD', from: [3000, -64, 2000], to: [3000, 64, 2000], ...size });
    });
    expect(brief(found)).toEqual([['FD', 'through', 0]]);
    expect(found[0]!.duct).toMatchObject(section);
    expect(found[0]!.dampers.length).toBe(1);
  });
});

describe('pieces that meet inside', () => {
  it('a damper shorter than the wall with a duct on either side is one penetration', async () => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      b.duct({ name: 'A', from: [3000, -2000, 2000], to: [3000, -30, 2000], width: 600, height: 400 });
      b.damper({ name: 'FD', from: [3000, -30, 2000], to: [3000, 30, 2000], width: 600, height: 400 });
      b.duct({ name: 'B', from: [3000, 30, 2000], to: [3000, 2000, 2000], width: 600, height: 400 });
    });
    expect(brief(found)).toEqual([['FD', 'through', 0]]);
    expect(found[0]!.elements.length).toBe(3);
  });

  it('a bend inside the wall that goes up and out at the top is partial, once', async () => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      b.duct({ name: 'A', from: [3000, -2000, 2000], to: [3000, -100, 2000], width: 100, height: 100 });
      b.bend({
        name: 'B',
        corner: [3000, 0, 2000],
        incoming: [0, 1, 0],
        outgoing: [0, 0, 1],
        radius: 100,
        width: 100,
        height: 100,
      });
      b.duct({ name: 'C', from: [3000, 0, 2100], to: [3000, 0, 4000], width: 100, height: 100 });
    });
    expect(found.map((p) => p.crossing)).toEqual(['partial']);
  });
});

describe('walls of odd shape', () => {
  const corner = {
    name: 'L',
    outline: [
      [0, 0],
      [5000, 0],
      [5000, 4000],
      [4800, 4000],
      [4800, 200],
      [0, 200],
    ],
    thickness: 200,
    height: 3000,
  } as const;

  it('an L is passed by each of its legs', async () => {
    const found = await penetrations((b) => {
      b.wall(corner);
      b.duct({ name: 'A', from: [2000, -1000, 1500], to: [2000, 1000, 1500], width: 400, height: 300 });
      b.duct({ name: 'B', from: [4000, 2000, 1500], to: [6000, 2000, 1500], width: 400, height: 300 });
    });
    expect(brief(found).sort()).toEqual([
      ['A', 'through', 0],
      ['B', 'through', 0],
    ]);
    expect(found.map((p) => p.barrier.thickness)).toEqual([200, 200]);
    expect(found.map((p) => p.position)).toEqual(
      expect.arrayContaining([
        [2000, 100, 1500],
        [4900, 2000, 1500],
      ]),
    );
  });

  it('along the leg, in at its end, is no way through', async () => {
    const found = await penetrations((b) => {
      b.wall(corner);
      b.duct({ name: 'A', from: [4900, -1000, 1500], to: [4900, 1000, 1500], width: 100, height: 100 });
    });
    expect(found.map((p) => p.crossing)).toEqual(['partial']);
  });

  it('a duct inside a thick wall from end to end is partial', async () => {
    const found = await penetrations((b) => {
      b.wall({ ...WALL, thickness: 500 });
      b.duct({ name: 'A', from: [-500, 0, 2000], to: [5500, 0, 2000], width: 200, height: 200 });
    });
    expect(brief(found)).toEqual([['A', 'partial', 90]]);
  });

  it('a duct whose side is let into the face along the wall passes nothing', async () => {
    const found = await penetrations((b) => {
      b.wall(WALL);
      b.duct({ name: 'A', from: [500, -150, 2000], to: [4500, -150, 2000], width: 400, height: 200 });
    });
    expect(found).toEqual([]);
  });

  it('a curved wall of flat facets is passed once, as thick and as square as the wall that was meant', async () => {
    const [R, t, n] = [4000, 200, 24];
    const at = (r: number, a: number): [number, number] => [r * Math.cos(a), r * Math.sin(a)];
    const ring = [
      ...Array.from({ length: n + 1 }, (_, i) => at(R, (Math.PI * i) / n)),
      ...Array.from({ length: n + 1 }, (_, i) => at(R - t, (Math.PI * (n - i)) / n)),
    ];
    const a = Math.PI * 0.4;
    const found = await penetrations((b) => {
      b.wall({ name: 'C', outline: ring, thickness: t, height: 3000 });
      b.duct({ name: 'A', from: [...at(3000, a), 1500], to: [...at(5000, a), 1500], width: 600, height: 300 });
    });
    expect(found).toMatchObject([{ crossing: 'through', skew: 0, barrier: { thickness: 200 } }]);
  });

  it('a room of twelve corners is no curved wall: each side is passed as the flat wall that it is', async () => {
    const n = 12;
    const at = (r: number, i: number): [number, number] => [
      r * Math.cos((2 * Math.PI * i) / n),
      r * Math.sin((2 * Math.PI * i) / n),
    ];
    const half = [
      ...Array.from({ length: n / 2 + 1 }, (_, i) => at(3000, i)),
      ...Array.from({ length: n / 2 + 1 }, (_, i) => at(2800, n / 2 - i)),
    ];
    const middle = Math.PI / n; // of the first side
    const out = (r: number): [number, number, number] => [r * Math.cos(middle), r * Math.sin(middle), 1500];
    const found = await penetrations((b) => {
      b.wall({ name: 'C', outline: half, thickness: 200, height: 3000 });
      b.duct({ name: 'A', from: out(2000), to: out(4000), width: 600, height: 300 });
    });
    expect(found).toMatchObject([{ crossing: 'through', skew: 0, barrier: { thickness: 193.2 } }]); // 200 · cos 15°
  });

  it('above a sloping top there is no wall, across it the crossing is partial', async () => {
    const found = await penetrations((b) => {
      b.wall({ ...WALL, body: 'clipped', heightAtEnd: 2000 }); // 2,100 high at x = 4,500
      for (const [name, x, z] of [
        ['A', 1000, 1500],
        ['B', 4500, 2100],
        ['C', 4500, 2600],
      ] as const)
        b.duct({ name, from: [x, -1000, z], to: [x, 1000, z], width: 400, height: 300 });
    });
    expect(brief(found)).toEqual([
      ['A', 'through', 0],
      ['B', 'partial', 0],
    ]);
  });
});

describe('openings', () => {
  it('smaller than the duct give negative gaps', async () => {
    const [p] = await penetrations((b) => {
      b.opening(b.wall(WALL), { centre: [3000, 0, 1500], width: 380, height: 320 });
      b.duct({ name: 'A', from: [3000, -1000, 1500], to: [3000, 1000, 1500], width: 400, height: 300 });
    });
    expect(p!.gaps).toMatchObject({ left: -10, right: -10, top: 10, bottom: 10, min: -10, max: 10 });
  });

  it('are measured from the sides of a duct that is rolled about its axis', async () => {
    const [p] = await penetrations((b) => {
      b.opening(b.wall(WALL), { centre: [3000, 0, 1500], width: 900, height: 900 });
      b.duct({ name: 'A', from: [3000, -1000, 1500], to: [3000, 1000, 1500], width: 400, height: 300, roll: 30 });
    });
    expect(p!.duct).toMatchObject({ width: 400, height: 300 });
    // Highest corner of a 400 × 300 rectangle turned by 30 degrees: 200 · sin 30 + 150 · cos 30 above the middle.
    const reach = Math.max(
      200 * Math.cos(Math.PI / 6) + 150 * Math.sin(Math.PI / 6),
      200 * Math.sin(Math.PI / 6) + 150 * Math.cos(Math.PI / 6),
    );
    expect(p!.gaps.min).toBeCloseTo(450 - reach, 0);
  });
});
