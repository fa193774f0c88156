/** What stands round openings and over walls, and openings with all that passes them; from the drawing in each case. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

async function crossings(build: (b: ModelBuilder) => void, change = (text: string) => text): Promise<Crossings> {
  const b = new ModelBuilder({ fileName: 'around.ifc' });
  build(b);
  const bytes = new TextEncoder().encode(change(b.toString()));
  return findPenetrations(await readFederation([{ name: 'around.ifc', bytes }]));
}

const WALL = { name: 'W', from: [0, 0], to: [6000, 0], thickness: 200, height: 3000, rating: '-/60/60' } as const;
const DUCT = { name: 'D', from: [3000, -1000, 2000], to: [3000, 1000, 2000], width: 400, height: 300 } as const;
/** 2,750 to 3,250 and 1,800 to 2,200. */
const OPENING = { centre: [3000, 0, 2000], width: 500, height: 400 } as const;
const SLAB = { name: 'S', outline: rectangle([-1000, -3000], [7000, 3000]), thickness: 200 } as const;

describe('round an opening stand', () => {
  const sides = ({ penetrations }: Crossings) =>
    Object.fromEntries(penetrations[0]!.around.map(({ side, kind, distance }) => [`${side} ${kind}`, distance]));

  it('the ends of the wall, the slabs, the next opening, a corner, a door', async () => {
    const found = await crossings(
      (b) => {
        const wall = b.wall({ ...WALL, to: [5000, 0] });
        b.opening(wall, OPENING);
        b.opening(wall, { centre: [4000, 0, 2000], width: 300, height: 300 });
        const door = b.opening(wall, { centre: [1500, 0, 1050], width: 900, height: 2100 });
        b.fill(
          door,
          b.terminal({ name: 'Leaf', from: [1500, -20, 1050], to: [1500, 20, 1050], width: 900, height: 2100 }),
        );
        // Meets the far face 400 mm right of the opening.
        b.wall({ name: 'Across', from: [3700, 100], to: [3700, 2000], thickness: 100, height: 3000 });
        b.slab({ ...SLAB, top: 3200 });
        b.duct(DUCT);
      },
      // The builder has no doors: what fills the opening becomes one.
      (text) =>
        text.replace(
          /IFCAIRTERMINAL\(('[^']*',#\d+,'Leaf',\$,\$,#\d+,#\d+,\$),\.\w+\.\)/,
          'IFCDOOR($1,$$,$$,$$,$$,$$)',
        ),
    );
    expect(sides(found)).toEqual({
      'top end': 800,
      'top slab': 800,
      'bottom end': 1800,
      'right end': 1750,
      'right opening': 600,
      'right corner': 400,
      'left door': 800,
    });
  });

  it('nothing that is far away, nor what passes above or below its side', async () => {
    const found = await crossings((b) => {
      const wall = b.wall({ ...WALL, height: 6000, from: [-3000, 0], to: [9000, 0], base: -3000 });
      b.opening(wall, OPENING);
      b.opening(wall, { centre: [3800, 0, 1500], width: 300, height: 300 }); // lower than the opening's sides
      b.duct(DUCT);
    });
    expect(sides(found)).toEqual({ 'top end': 800 });
  });

  it('columns, in the wall or before it', async () => {
    const found = await crossings(
      (b) => {
        b.opening(b.wall(WALL), OPENING);
        b.slab({ name: 'Column', outline: rectangle([2300, -150], [2600, 150]), thickness: 3000, top: 3000 });
        b.duct(DUCT);
      },
      (text) => text.replace(/IFCSLAB\(('[^']*',#\d+,'Column')/, 'IFCCOLUMN($1'),
    );
    expect(sides(found)['left column']).toBe(150);
  });

  it('in a floor, on plan', async () => {
    const found = await crossings((b) => {
      b.opening(b.slab({ ...SLAB, top: 0 }), { centre: [2000, 1000, -100], width: 500, height: 400 });
      b.wall({ ...WALL, base: 0 });
      b.duct({ name: 'D', from: [2000, 1000, -1000], to: [2000, 1000, 1000], width: 400, height: 300 });
    });
    // From y = 800 down to the face of the wall at 100; up from 1,200 to the slab's edge at 3,000.
    expect(sides(found)).toEqual({ 'bottom corner': 700, 'top end': 1800 });
  });

  it('or the duct, where there is none', async () => {
    const found = await crossings((b) => {
      b.wall(WALL);
      b.duct(DUCT);
    });
    expect(sides(found)).toEqual({ 'top end': 850, 'bottom end': 1850 });
  });
});

describe('the head of a rated wall', () => {
  const heads = ({ barriers }: Crossings) => barriers.filter(({ head }) => head).map(({ name, head }) => [name, head]);
  const slabAt = (bottom: number) => ({ ...SLAB, top: bottom + 200 });

  it('that reaches the slab has no gap', async () => {
    const found = await crossings((b) => {
      b.wall(WALL);
      b.slab(slabAt(3000));
    });
    // In the middle of the step of 200 mm that begins half-way along the wall.
    expect(heads(found)).toEqual([
      ['W', { gap: 0, length: 0, at: [3100, 0, 3000], passing: [], extendToStructure: null }],
    ]);
  });

  it('that stops short shows the gap, its length, its place and what passes there', async () => {
    const found = await crossings((b) => {
      b.wall(WALL);
      b.slab(slabAt(3500));
      b.duct({ name: 'Over', from: [1000, -1000, 3250], to: [1000, 1000, 3250], width: 400, height: 300 });
      b.pipe({ name: 'Pipe', from: [2000, -1000, 3250], to: [2000, 1000, 3250], diameter: 50 });
      b.duct(DUCT);
    });
    const [[, head]] = heads(found) as [[string, NonNullable<Crossings['barriers'][number]['head']>]];
    expect(head).toMatchObject({ gap: 500, length: 6000, passing: [{}, {}] });
    expect(head.at![2]).toBe(3250);
    expect(found.penetrations.map((p) => [p.duct.name, p.headGap])).toEqual([['D', 500]]);
  });

  it('is compared along the whole wall: a step in the soffit', async () => {
    const found = await crossings((b) => {
      b.wall(WALL);
      b.slab({ ...slabAt(3000), outline: rectangle([-1000, -3000], [4500, 3000]) });
      b.duct(DUCT);
      b.duct({ ...DUCT, name: 'E', from: [5500, -1000, 2000], to: [5500, 1000, 2000] });
      b.slab({ ...slabAt(3300), name: 'S2', outline: rectangle([4500, -3000], [7000, 3000]) });
    });
    expect(heads(found)).toMatchObject([['W', { gap: 300, length: 1500 }]]);
    // One duct under the part that reaches, one under the part that stops short.
    expect(found.penetrations.map((p) => p.headGap)).toEqual([0, 300]);
  });

  it('under a sloping top is widest at its lower end', async () => {
    const found = await crossings((b) => {
      b.wall({ ...WALL, body: 'clipped', heightAtEnd: 2400 });
      b.slab(slabAt(3000));
    });
    const { gap, length } = heads(found)[0]![1] as { gap: number; length: number };
    // The places looked at are in the middle of steps of 200 mm: 0.1 mm per mm of length.
    expect(gap).toBeGreaterThan(580);
    expect(gap).toBeLessThanOrEqual(600);
    expect(length).toBeGreaterThan(5900);
  });

  it('of a curved wall is followed round the curve', async () => {
    const found = await crossings((b) => {
      b.curvedWall({ ...WALL, centre: [3000, -2000], radius: 2000, from: 0, to: 180 });
      b.slab({ ...slabAt(3200), outline: rectangle([-1000, -3000], [7000, 3000]) });
    });
    const { gap, length } = heads(found)[0]![1] as { gap: number; length: number };
    expect(gap).toBe(200);
    expect(Math.abs(length - 2000 * Math.PI)).toBeLessThan(200); // one step
  });

  it('without structure above is not known; of unrated walls and floors it is not asked', async () => {
    const { rating: _, ...unrated } = WALL;
    const found = await crossings((b) => {
      b.wall(WALL);
      b.wall({ ...unrated, name: 'U', from: [0, 2000], to: [6000, 2000] });
      b.slab({ ...SLAB, top: 0, rating: '60/60/60' });
    });
    expect(heads(found)).toMatchObject([['W', { gap: null }]]);
  });
});

describe('openings as subjects', () => {
  it('hold all services that pass them, with what is left to seal', async () => {
    const { openings, penetrations } = await crossings((b) => {
      const wall = b.wall(WALL);
      b.opening(wall, { name: 'Shared', centre: [3000, 0, 2000], width: 1200, height: 500 });
      b.opening(wall, { name: 'Own', centre: [1000, 0, 2000], width: 500, height: 400 });
      b.opening(wall, { name: 'Pipes', centre: [5000, 0, 2000], diameter: 200 });
      b.opening(wall, { name: 'Empty', centre: [5000, 0, 1000], diameter: 200 });
      b.duct({ ...DUCT, from: [2700, -1000, 2000], to: [2700, 1000, 2000] });
      b.pipe({ name: 'P', from: [3300, -1000, 2000], to: [3300, 1000, 2000], diameter: 100 });
      b.duct({ ...DUCT, name: 'E', from: [1000, -1000, 2000], to: [1000, 1000, 2000] });
      b.pipe({ name: 'Q', from: [5000, -1000, 2000], to: [5000, 1000, 2000], diameter: 110 });
    });
    expect(penetrations.length).toBe(2);
    const disc = (d: number) => Math.round((Math.PI * d * d) / 400) / 1e4;
    expect(openings).toMatchObject([
      { id: 'O-0001', width: 500, penetrations: ['P-0001'], areaM2: 0.2, freeAreaM2: 0.08, combined: false },
      {
        ...{
          id: 'O-0002',
          width: 1200,
          penetrations: ['P-0002'],
          areaM2: 0.6,
          combined: true,
          position: [3000, 0, 2000],
        },
        services: [{ kind: 'duct' }, { kind: 'pipe' }],
        freeAreaM2: Number((0.6 - 0.12 - disc(100)).toFixed(4)),
      },
      {
        ...{ id: 'O-0003', shape: 'circular', width: 200, penetrations: [], combined: false },
        services: [{ kind: 'pipe' }],
        areaM2: disc(200),
        freeAreaM2: Number(((Math.PI * (200 ** 2 - 110 ** 2)) / 4e6).toFixed(4)),
      },
    ]);
  });

  it('count a damper and the ducts in it once', async () => {
    const { openings } = await crossings((b) => {
      b.opening(b.wall(WALL), OPENING);
      b.duct({ ...DUCT, to: [3000, -20, 2000] });
      b.damper({ name: 'FD', from: [3000, -150, 2000], to: [3000, 150, 2000], width: 440, height: 340 });
    });
    expect(openings).toMatchObject([
      { areaM2: 0.2, freeAreaM2: Number((0.2 - 0.44 * 0.34).toFixed(4)), combined: false },
    ]);
  });
});

it('the rated leaf is told from its lining and the cavity between them', async () => {
  const { penetrations } = await crossings((b) => {
    const { rating: _, ...lining } = { ...WALL, name: 'L', from: [0, 160], to: [6000, 160], thickness: 60 } as const;
    b.opening(b.wall(WALL), OPENING);
    b.opening(b.wall(lining), { ...OPENING, centre: [3000, 160, 2000] });
    b.duct(DUCT);
  });
  expect(penetrations).toMatchObject([
    {
      barrier: {
        ...{ name: 'W', thickness: 290, leafThickness: 200 },
        buildUp: [
          { kind: 'leaf', thickness: 200 },
          { kind: 'cavity', element: null, thickness: 30 },
          { kind: 'lining', thickness: 60 },
        ],
      },
    },
  ]);
});
