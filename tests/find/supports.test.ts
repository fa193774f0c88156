/** Supports of ductwork: what they carry where, how far apart they are along it, what they hang from. */
import { describe, expect, it } from 'vitest';
import { type BuilderOptions, ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { SupportsFound } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

const LEVEL = 2400;
const SECTION = { width: 600, height: 400 } as const;
const OF = { system: 'KX', ports: true } as const;
const TIMBER = [{ construction: 'massTimber', words: ['glulam'] }] as const;

type Build = (b: ModelBuilder) => void;

async function found(build: Build, options: Partial<BuilderOptions> = {}): Promise<SupportsFound> {
  const b = new ModelBuilder({ fileName: 'supports.ifc', ...options });
  build(b);
  const federation = await readFederation([{ name: 'supports.ifc', bytes: new TextEncoder().encode(b.toString()) }], {
    constructions: TIMBER,
  });
  const facts = { ...NO_FACTS, supports: { modelled: true } };
  return findPenetrations(federation, { facts }).supports!;
}

const along = (b: ModelBuilder, from: number, to: number, name = 'A') =>
  b.duct({ name, from: [from, 0, LEVEL], to: [to, 0, LEVEL], ...SECTION, ...OF });

/** Two rods and a bearer under a duct along x. */
function hanger(b: ModelBuilder, x: number, { y = 0, top = 3400, rod = 'M10' } = {}): void {
  const under = LEVEL - SECTION.height / 2 - 50;
  b.solid({
    ...{ name: `Trapeze bearer L 40x40x4 ${x} ${y}`, entity: 'IfcMember' },
    ...{ min: [x - 20, y - 400, under - 40], max: [x + 20, y + 400, under] },
  });
  for (const side of [-380, 380])
    b.solid({
      ...{ name: `Threaded rod ${rod} ${x} ${y + side}`, entity: 'IfcDiscreteAccessory' },
      ...{ min: [x - 5, y + side - 5, under - 40], max: [x + 5, y + side + 5, top] },
    });
}

const lengths = ({ spans }: SupportsFound, kind: string): number[] =>
  spans
    .filter((span) => span.kind === kind)
    .map(({ length }) => length)
    .sort((a, b) => a - b);

describe('supports on a straight duct', () => {
  const build: Build = (b) => {
    along(b, 0, 6000);
    for (const x of [700, 1900, 3400, 5500]) hanger(b, x);
  };

  it('are two rods and a bearer each, with what their names say', async () => {
    const { supports } = await found(build);
    expect(supports.map(({ elements }) => elements.length)).toEqual([3, 3, 3, 3]);
    for (const { rod, bearer, rodLength, hangsFrom } of supports)
      expect({ rod, bearer, rodLength, hangsFrom }).toEqual({
        ...{ rod: 'M10', bearer: 'L 40x40x4', hangsFrom: null },
        rodLength: 3400 - (LEVEL - 200 - 50 - 40),
      });
  });

  it('are as far apart as they were drawn, and carry half of it', async () => {
    const result = await found(build);
    expect(lengths(result, 'supports')).toEqual([1200, 1500, 2100]);
    expect(lengths(result, 'end')).toEqual([500, 700]);
    const carried = result.supports.map(({ carried: mm }) => mm!);
    expect([...carried].sort((a, b) => a - b)).toEqual(
      [600 + 700, 1200 / 2 + 1500 / 2, 1500 / 2 + 2100 / 2, 1050 + 500].sort((a, b) => a - b),
    );
    // Nothing is carried twice, and nothing is left out.
    expect(carried.reduce((sum, mm) => sum + mm, 0)).toBeCloseTo(6000, 6);
  });

  it.each<[string, Partial<BuilderOptions>]>([
    ['in IFC2X3 and feet', { schema: 'IFC2X3', unit: 'foot' }],
    ['turned and far off', { rotation: 30, offset: [5_000_000, -3_000_000, 0] }],
  ])('are the same %s', async (_name, options) => {
    const [here, there] = [await found(build), await found(build, options)];
    for (const kind of ['supports', 'end']) {
      const [a, b] = [lengths(here, kind), lengths(there, kind)];
      expect(b).toHaveLength(a.length);
      for (const [i, length] of a.entries()) expect(Math.abs(b[i]! - length)).toBeLessThan(0.11);
    }
  });

  it('are as far apart on two pieces as on one', async () => {
    const parted = await found((b) => {
      b.connect(along(b, 0, 2500, 'A'), along(b, 2500, 6000, 'B'));
      for (const x of [700, 1900, 3400, 5500]) hanger(b, x);
    });
    expect(lengths(parted, 'supports')).toEqual([1200, 1500, 2100]);
  });

  it('are found wherever they stand: twelve random rows against their own differences', async () => {
    let state = 20261126;
    const random = (): number => {
      state = (state * 1664525 + 1013904223) % 2 ** 32;
      return state / 2 ** 32;
    };
    const rows = Array.from({ length: 12 }, (_, row) => {
      const places = [200 + Math.round(random() * 300)];
      while (places.at(-1)! < 7000) places.push(places.at(-1)! + 200 + Math.round(random() * 1500));
      return { y: row * 2000, places: places.filter((x) => x < 7800) };
    });
    const { spans } = await found((b) => {
      for (const [i, { y, places }] of rows.entries()) {
        b.duct({ name: `Row ${i}`, from: [0, y, LEVEL], to: [8000, y, LEVEL], ...SECTION, ...OF });
        for (const x of places) hanger(b, x, { y });
      }
    });
    const expected = rows.flatMap(({ places }) => places.slice(1).map((x, i) => x - places[i]!));
    expect(lengths({ spans } as SupportsFound, 'supports')).toEqual(expected.sort((a, b) => a - b));
  });
});

describe('at a wall', () => {
  it('the first support is measured from each face, and the next one across the wall', async () => {
    const result = await found((b) => {
      b.wall({ name: 'W', from: [3000, -2000], to: [3000, 2000], height: 3400, thickness: 200, rating: '-/120/120' });
      along(b, 0, 6000);
      for (const x of [2500, 3700]) hanger(b, x);
    });
    expect(lengths(result, 'barrier')).toEqual([400, 600]);
    expect(lengths(result, 'supports')).toEqual([1200]);
  });

  it('without any support the way to the end is told', async () => {
    const result = await found((b) => {
      b.wall({ name: 'W', from: [3000, -2000], to: [3000, 2000], height: 3400, thickness: 200, rating: '-/120/120' });
      along(b, 0, 6000);
    });
    expect(result.spans.map(({ kind, length, supports }) => [kind, length, supports.length])).toEqual([
      ['barrier', 2900, 0],
      ['barrier', 2900, 0],
    ]);
  });
});

describe('what a support hangs from', () => {
  it.each([
    [
      'a slab',
      (b: ModelBuilder) =>
        b.slab({
          name: 'Slab',
          outline: [
            [-1000, -1000],
            [3000, -1000],
            [3000, 1000],
            [-1000, 1000],
          ],
          thickness: 200,
          top: 3600,
          rating: '120/120/120',
        }),
      ['Slab', 'floor', 'unknown'],
    ],
    [
      'a timber beam',
      (b: ModelBuilder) =>
        b.solid({
          name: 'Beam',
          entity: 'IfcBeam',
          material: 'Glulam',
          min: [0, -1000, 3410],
          max: [2000, 1000, 3600],
        }),
      ['Beam', 'beam', 'massTimber'],
    ],
    [
      'a ceiling',
      (b: ModelBuilder) =>
        b.solid({
          name: 'Ceiling',
          entity: 'IfcCovering',
          predefined: 'CEILING',
          min: [0, -1000, 3400],
          max: [2000, 1000, 3420],
        }),
      ['Ceiling', 'ceiling', 'unknown'],
    ],
  ] as const)('is %s', async (_name, over, expected) => {
    const { supports } = await found((b) => {
      over(b);
      along(b, 0, 2000);
      hanger(b, 1000);
    });
    expect(supports.map(({ hangsFrom: from }) => from && [from.name, from.kind, from.construction])).toEqual([
      expected,
    ]);
  });
});

describe('of several things that a support may hang from or stand on', () => {
  const slab = (b: ModelBuilder, name: string, top: number, thickness: number) =>
    b.slab({
      name,
      outline: [
        [-1000, -1000],
        [3000, -1000],
        [3000, 1000],
        [-1000, 1000],
      ],
      ...{ thickness, top },
    });
  const carriers = async (build: Build) => (await found(build)).supports.map(({ hangsFrom }) => hangsFrom?.name);

  it.each([
    [3610, 3650, 'A'],
    [3650, 3610, 'B'],
  ])('the nearest counts: A from %d, B from %d', async (a, b, expected) => {
    const hung: Build = (model) => {
      slab(model, 'A', a, 200);
      slab(model, 'B', b, 200);
      along(model, 0, 2000);
      hanger(model, 1000);
    };
    expect(await carriers(hung)).toEqual([expected]);
  });

  it('it is what the rods end at, not what they pass on their way', async () => {
    const hung: Build = (b) => {
      slab(b, 'Passed', 3405, 65);
      slab(b, 'Over', 3610, 200);
      along(b, 0, 2000);
      hanger(b, 1000);
    };
    expect(await carriers(hung)).toEqual(['Over']);
  });

  it.each([
    [90, 40, 'A'],
    [40, 90, 'B'],
  ])('under an upright duct the nearest that it stands on: A up to %d, B up to %d', async (a, b, expected) => {
    const standing: Build = (model) => {
      slab(model, 'A', a, 200);
      slab(model, 'B', b, 200);
      model.duct({ name: 'R', from: [0, 0, -2000], to: [0, 0, 2000], width: 500, height: 300, ...OF });
      model.solid({
        ...{ name: 'Riser bracket', entity: 'IfcBuildingElementProxy' },
        ...{ min: [-300, -200, 100], max: [300, -150, 160] },
      });
    };
    expect(await carriers(standing)).toEqual([expected]);
  });
});

describe('upright ducts', () => {
  const riser: Build = (b) => {
    b.duct({ name: 'R', from: [0, 0, 0], to: [0, 0, 9000], width: 500, height: 300, ...OF });
  };
  it('without supports are told as high as they are', async () => {
    expect(lengths(await found(riser), 'riser')).toEqual([9000]);
  });
  it('are told from bracket to bracket', async () => {
    const result = await found((b) => {
      riser(b);
      for (const z of [100, 3700, 7300])
        b.solid({
          name: `Riser bracket ${z}`,
          entity: 'IfcBuildingElementProxy',
          min: [-300, -200, z],
          max: [300, -150, z + 60],
        });
    });
    expect(lengths(result, 'riser')).toEqual([3600, 3600]);
    expect(result.ducts.map(({ way, width, height }) => [way, width, height])).toEqual([['upright', 500, 300]]);
  });
});

it('nothing else is taken for a support, and a support is no ductwork', async () => {
  const { supports, ducts } = await found((b) => {
    along(b, 0, 2000);
    b.solid({
      name: 'Column casing',
      entity: 'IfcBuildingElementProxy',
      min: [900, 300, 2000],
      max: [1100, 400, 2900],
    });
    b.solid({
      name: 'Pipe bracket far away',
      entity: 'IfcDiscreteAccessory',
      min: [900, 900, 2000],
      max: [1100, 1000, 2100],
    });
  });
  expect(supports).toEqual([]);
  expect(ducts).toHaveLength(1);
});
