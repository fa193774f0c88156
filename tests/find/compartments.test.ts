/** Compartments of rated walls and of zones; areas, leaks and sides from the drawing in each case. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation, ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

type Build = (b: ModelBuilder) => void;
type Options = Partial<ConstructorParameters<typeof ModelBuilder>[0]>;

interface Found {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly name: (ref: { readonly globalId: string }) => string;
}

async function found(build: Build, options: Options = {}, facts?: Partial<ProjectFacts>): Promise<Found> {
  const b = new ModelBuilder({ fileName: 'rooms.ifc', ...options });
  build(b);
  const inputs = [{ name: 'rooms.ifc', bytes: new TextEncoder().encode(b.toString()) }];
  const federation = await readFederation(inputs, { facts: { ...NO_FACTS, ...facts } });
  const names = new Map(federation.barriers.map((one) => [one.globalId, one.name]));
  return {
    federation,
    crossings: findPenetrations(federation),
    name: ({ globalId }) => names.get(globalId) ?? globalId,
  };
}

const shown = ({ crossings, name }: Found) =>
  crossings.compartments.map(({ areaM2, walled, barriers, leaks }) => ({
    areaM2,
    walled,
    barriers: barriers.map(name).sort(),
    leaks: leaks.map(({ at, width, between }) => ({ at, width, between: between.map(name).sort() })),
  }));

const TWO_STOREYS = [
  ['Ground', 0],
  ['First', 3200],
] as const;
const RATED = { thickness: 200, height: 3000, rating: '-/60/60' } as const;

/** Centre lines from corner to corner; the walls along x run through, those along y stand between them. */
function room(b: ModelBuilder, [x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number], more = {}) {
  const [half, name] = [RATED.thickness / 2, `${x0} ${y0}`];
  const wall = (side: string, from: [number, number], to: [number, number]) =>
    b.wall({ ...RATED, ...more, name: `${side} ${name}`, from, to });
  wall('south', [x0 - half, y0], [x1 + half, y0]);
  wall('north', [x0 - half, y1], [x1 + half, y1]);
  wall('west', [x0, y0 + half], [x0, y1 - half]);
  wall('east', [x1, y0 + half], [x1, y1 - half]);
}

const ROOM_WALLS = ['east 0 0', 'north 0 0', 'south 0 0', 'west 0 0'];
const areas = (f: Found) => f.crossings.compartments.map(({ areaM2 }) => areaM2);

describe('rated walls go round', () => {
  it('a rectangular room: 5.8 m by 3.8 m between the faces', async () => {
    const all = await found((b) => room(b, [0, 0], [6000, 4000]));
    expect(shown(all)).toEqual([{ areaM2: 22.04, walled: true, barriers: ROOM_WALLS, leaks: [] }]);
    expect(all.crossings.compartments[0]).toMatchObject({
      id: 'C-0001',
      from: 'loop',
      name: 'Ground floor',
      leastRating: { integrity: 60 },
      outlines: [
        [
          [100, 100],
          [5900, 100],
          [5900, 3900],
          [100, 3900],
        ],
      ],
      holes: [],
    });
  });

  it('the same room turned by 30 degrees, far from the origin, in feet', async () => {
    const options = { rotation: 30, offset: [5e8, 3e8, 1e5] as const, unit: 'foot' as const };
    const all = await found((b) => room(b, [0, 0], [6000, 4000]), options);
    expect(areas(all)[0]).toBeCloseTo(22.04, 3);
    expect(all.crossings.compartments[0]!.walled).toBe(true);
  });

  it('an L-shape: 36 m² less the missing quarter, to the faces', async () => {
    const all = await found((b) => {
      const ring: [number, number][] = [
        [0, 0],
        [6000, 0],
        [6000, 3000],
        [3000, 3000],
        [3000, 6000],
        [0, 6000],
      ];
      for (const [i, from] of ring.entries())
        b.wall({ ...RATED, name: `W${i}`, from, to: ring[(i + 1) % ring.length]! });
    });
    // Inner faces: 5.8 × 2.8 + 2.8 × 3.0; at the inner corner the walls meet by their edges, 0.1 m off the faces.
    expect(areas(all)).toEqual([24.65]);
    expect(all.crossings.compartments[0]!.barriers.length).toBe(6);
  });

  it('two rooms with a wall in common', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Middle', from: [2000, 100], to: [2000, 3900], rating: '-/30/30' });
    });
    expect(areas(all)).toEqual([6.84, 14.44]); // 1.8 × 3.8 and 3.8 × 3.8
    const ends = ['Middle', 'north 0 0', 'south 0 0'];
    expect(shown(all).map(({ barriers }) => barriers)).toEqual(
      [
        [...ends, 'west 0 0'],
        ['Middle', 'east 0 0', 'north 0 0', 'south 0 0'],
      ].map((l) => [...l].sort()),
    );
    expect(all.crossings.compartments.map((c) => c.leastRating?.integrity)).toEqual([30, 30]);
  });

  it('a room within a room, whose area is not counted twice', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [9000, 9000]);
      room(b, [3000, 3000], [6000, 6000]);
    });
    expect(areas(all)).toEqual([67.2, 7.84]); // 8.8² − 3.2² and 2.8²
    expect(all.crossings.compartments[0]!.holes.length).toBe(1);
  });

  it('a curved wall as one side: half a ring of 3 m on a room 6 m wide', async () => {
    const all = await found((b) => {
      const [from, to] = [
        [-3000, 0],
        [-3000, -4000],
      ] as const;
      b.curvedWall({ ...RATED, name: 'Arc', centre: [0, 0], radius: 3000, from: 0, to: 180 });
      b.wall({ ...RATED, name: 'West', from: [...from], to: [...to] });
      b.wall({ ...RATED, name: 'East', from: [3000, 0], to: [3000, -4000] });
      b.wall({ ...RATED, name: 'South', from: [-3100, -4100], to: [3100, -4100] });
    });
    expect(areas(all)[0]).toBeCloseTo((Math.PI * 2.9 ** 2) / 2 + 5.8 * 4, 3);
    expect(all.crossings.compartments[0]!.walled).toBe(true);
  });

  it('rooms on two storeys, each on its own', async () => {
    const all = await found((b) => {
      for (const [name, elevation] of TWO_STOREYS) {
        b.storey(name, elevation);
        room(b, [0, 0], [6000, 4000 + elevation]);
      }
    });
    const { compartments } = all.crossings;
    expect(compartments.map((c) => [c.storey?.name, c.areaM2])).toEqual([
      ['Ground', 22.04],
      ['First', 40.6],
    ]);
  });
});

describe('walls that do not meet', () => {
  /** The west wall ends so far under the north wall. */
  const short =
    (gap: number): Build =>
    (b) => {
      const half = RATED.thickness / 2;
      b.wall({ ...RATED, name: 'south', from: [-half, 0], to: [6000 + half, 0] });
      b.wall({ ...RATED, name: 'north', from: [-half, 4000], to: [6000 + half, 4000] });
      b.wall({ ...RATED, name: 'west', from: [0, half], to: [0, 4000 - half - gap] });
      b.wall({ ...RATED, name: 'east', from: [6000, half], to: [6000, 4000 - half] });
    };

  it('300 mm short: a leak with place and width; the area is that of the room', async () => {
    const [one, ...others] = shown(await found(short(300)));
    expect(others).toEqual([]);
    expect(one).toMatchObject({ areaM2: 22.04, walled: false });
    expect(one!.leaks).toEqual([{ at: [0, 3750, 1200], width: 300, between: ['north', 'west'] }]);
  });

  it.each([
    [0, true, []],
    [5, true, []],
    [19.9, true, []],
    [21, false, [21]],
    [999, false, [999]],
  ])('%d mm short', async (gap, closed, widths) => {
    const [one] = shown(await found(short(gap)));
    expect(one).toMatchObject({ areaM2: 22.04, walled: closed });
    expect(one!.leaks.map(({ width }) => width)).toEqual(widths);
  });

  it('1,010 mm short: the walls are not meant to meet', async () => {
    expect(shown(await found(short(1010)))).toEqual([]);
  });

  it('both missing at a corner: from corner to corner', async () => {
    const all = await found((b) => {
      b.wall({ ...RATED, name: 'south', from: [-100, 0], to: [6100, 0] });
      b.wall({ ...RATED, name: 'north', from: [500, 4000], to: [6100, 4000] });
      b.wall({ ...RATED, name: 'west', from: [0, 100], to: [0, 3500] });
      b.wall({ ...RATED, name: 'east', from: [6000, 100], to: [6000, 3900] });
    });
    const [one] = shown(all);
    // From (100, 3500) to (500, 3900).
    expect(one!.leaks).toEqual([{ at: [300, 3700, 1200], width: 565.7, between: ['north', 'west'] }]);
  });

  it('between two rooms: a leak of both', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Middle', from: [2000, 100], to: [2000, 3600] });
    });
    expect(shown(all).map(({ leaks }) => leaks)).toEqual(
      Array.from({ length: 2 }, () => [{ at: [2000, 3750, 1200], width: 300, between: ['Middle', 'north 0 0'] }]),
    );
  });

  it('a wall that stands free in a room parts nothing', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Free', from: [2000, 1400], to: [2000, 2600] });
    });
    expect(shown(all)).toMatchObject([{ areaM2: 21.8, walled: true, leaks: [] }]);
  });

  it('a passage of 800 mm between rooms, and a riser of 250 mm, are no leaks', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      room(b, [7000, 0], [9000, 4000]);
      room(b, [0, 6000], [450, 6450]);
    });
    expect(areas(all)).toEqual([22.04, 0.0625, 6.84]);
    expect(shown(all).flatMap(({ leaks }) => leaks)).toEqual([]);
  });

  it('a doorway within the body of a wall leaves it whole', async () => {
    const all = await found((b) => {
      const wall = { ...RATED, name: 'south', from: [-100, 0], to: [6100, 0] } as const;
      b.wall({ ...wall, body: 'holeInMesh', hole: { centre: [3000, 0, 1050], width: 900, height: 2100 } });
      b.wall({ ...RATED, name: 'north', from: [-100, 4000], to: [6100, 4000] });
      b.wall({ ...RATED, name: 'west', from: [0, 100], to: [0, 3900] });
      b.wall({ ...RATED, name: 'east', from: [6000, 100], to: [6000, 3900] });
    });
    expect(shown(all)).toMatchObject([{ areaM2: 22.04, walled: true, leaks: [] }]);
  });

  it('a doorway as wide as the cupboard behind it closes the cupboard, where a gap would be its open end', async () => {
    const cupboard = (build: Build) =>
      found((b) => {
        b.wall({ ...RATED, name: 'south', from: [-100, 0], to: [1900, 0] });
        b.wall({ ...RATED, name: 'north', from: [-100, 1100], to: [1900, 1100] });
        b.wall({ ...RATED, name: 'west', from: [0, 100], to: [0, 1000] });
        build(b);
      });
    // 960 mm wide, before a cupboard of 900 mm.
    const front = { ...RATED, from: [2000, -2000], to: [2000, 3000] } as const;
    const hole = { centre: [2000, 550, 1050], width: 960, height: 2100 } as const;
    const withDoor = await cupboard((b) => b.wall({ ...front, name: 'front', body: 'holeInMesh', hole }));
    expect(shown(withDoor)).toMatchObject([{ areaM2: 1.62, walled: true, leaks: [] }]);
    const withGap = await cupboard((b) => {
      b.wall({ ...front, name: 'front', to: [2000, 70] });
      b.wall({ ...front, name: 'front too', from: [2000, 1030] });
    });
    expect(shown(withGap)).toEqual([]);
  });
});

describe('walls that are not known to be rated', () => {
  const three =
    (rating?: string): Build =>
    (b) => {
      b.wall({ ...RATED, name: 'south', from: [-100, 0], to: [6100, 0] });
      b.wall({ ...RATED, name: 'north', from: [-100, 4000], to: [6100, 4000] });
      b.wall({ ...RATED, name: 'west', from: [0, 100], to: [0, 3900] });
      const { rating: _, ...unrated } = RATED;
      b.wall({ ...unrated, name: 'east', from: [6000, 100], to: [6000, 3900], ...(rating && { rating }) });
    };

  it.each([undefined, 'FR 1hr (TBC)'])('close a loop, but it is not known to be closed (%s)', async (rating) => {
    const [one] = shown(await found(three(rating)));
    expect(one).toMatchObject({ walled: null, leaks: [], barriers: ['north', 'south', 'west'] });
    expect(one!.areaM2).toBe(22.8); // up to the outside of the unrated wall
  });

  it('part nothing within a compartment', async () => {
    const all = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ name: 'Partition', thickness: 100, height: 3000, from: [2000, 100], to: [2000, 3900] });
    });
    expect(shown(all)).toMatchObject([{ areaM2: 22.04, walled: true, barriers: ROOM_WALLS }]);
  });

  it('alone make no compartment', async () => {
    expect(shown(await found((b) => room(b, [0, 0], [6000, 4000], { rating: undefined })))).toEqual([]);
  });
});

describe('both sides of a penetration', () => {
  const DUCT = { name: 'D', width: 300, height: 200 } as const;

  it('name the compartments, against the normal and along it', async () => {
    const { crossings } = await found((b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Middle', from: [2000, 100], to: [2000, 3900] });
      b.duct({ ...DUCT, from: [1000, 2000, 2500], to: [3000, 2000, 2500] });
      b.duct({ ...DUCT, name: 'Out', from: [5000, 1000, 2500], to: [7000, 1000, 2500] });
    });
    const sides = Object.fromEntries(crossings.penetrations.map((p) => [p.duct.name, p.compartments]));
    expect(sides).toEqual({ D: ['C-0001', 'C-0002'], Out: ['C-0002', null] });
  });

  it('of a floor those above and below', async () => {
    const { crossings } = await found((b) => {
      for (const [name, elevation] of TWO_STOREYS) {
        b.storey(name, elevation);
        room(b, [0, 0], [6000, 4000]);
        b.slab({ name: `Slab ${name}`, outline: rectangle([0, 0], [6000, 4000]), thickness: 200, top: elevation });
      }
      b.duct({ ...DUCT, from: [3000, 2000, 2000], to: [3000, 2000, 4200] });
    });
    expect(crossings.penetrations[0]).toMatchObject({
      frame: { normal: [0, 0, -1] },
      compartments: ['C-0002', 'C-0001'],
    });
  });
});

describe('stated compartments', () => {
  const stated =
    (as: 'IfcSpatialZone' | 'IfcZone' | 'property', more = {}): Build =>
    (b) => {
      room(b, [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Middle', from: [2000, 100], to: [2000, 3900] });
      const left = b.space({ name: '1', longName: 'Left', outline: rectangle([100, 100], [1900, 3900]), height: 2600 });
      const right = b.space({
        name: '2',
        longName: 'Right',
        outline: rectangle([2100, 100], [5900, 3900]),
        height: 2600,
      });
      b.zone({ name: 'Compartment A', as, spaces: [left], ...more });
      b.zone({ name: 'Compartment B', as, spaces: [right], ...more });
      b.duct({ name: 'D', width: 300, height: 200, from: [1000, 2000, 2800], to: [3000, 2000, 2800] });
    };

  it.each([
    ['IfcSpatialZone', 'IFC4', 'zone'],
    ['IfcZone', 'IFC4', 'zone'],
    ['IfcZone', 'IFC2X3', 'zone'],
    ['property', 'IFC4', 'property'],
  ] as const)('%s in %s agrees with the loops round it', async (as, schema, from) => {
    const all = await found(stated(as), { schema });
    const { compartments, penetrations } = all.crossings;
    expect(compartments.map((c) => [c.name, c.from, c.areaM2, c.walled])).toEqual([
      ['Compartment A', from, 6.84, true],
      ['Compartment B', from, 14.44, true],
    ]);
    expect(compartments.map((c) => c.spaces.length)).toEqual([1, 1]);
    expect(compartments[0]!.barriers.map(all.name).sort()).toEqual(['Middle', 'north 0 0', 'south 0 0', 'west 0 0']);
    // Over the ceilings that the rooms end at.
    expect(penetrations[0]!.compartments).toEqual(['C-0001', 'C-0002']);
  });

  it('that have a part of a room alone leave the room a compartment of its own', async () => {
    const partly = (x: number) =>
      found((b) => {
        room(b, [0, 0], [6000, 4000]);
        const outline = rectangle([100, 100], [x, 3900]);
        b.zone({
          ...{ name: 'Compartment A', as: 'IfcSpatialZone' },
          spaces: [b.space({ name: '1', longName: 'Part', outline, height: 2600 })],
        });
      });
    const origins = async (x: number) => (await partly(x)).crossings.compartments.map(({ from }) => from).sort();
    expect(await origins(2000)).toEqual(['loop', 'zone']);
    expect(await origins(5900)).toEqual(['zone']);
  });

  it.each([
    ['begin', 1200, 1400],
    ['end', 0, 1200],
  ])('that %s where a storey is cut are none of its rooms', async (_, from, height) => {
    const all = await found((b) => {
      const storey = b.storey('Platform', from);
      b.storey('Ground', 0);
      room(b, [0, 0], [6000, 4000]);
      const space = { name: '1', longName: '', outline: rectangle([100, 100], [5900, 3900]), height, storey };
      b.zone({ name: 'Compartment A', as: 'IfcSpatialZone', spaces: [b.space(space)] });
    });
    expect(all.crossings.compartments.map(({ from: origin }) => origin).sort()).toEqual(['loop', 'zone']);
  });

  it.each([
    ['Ground', ['zone', 'loop']],
    ['First', ['loop', 'zone']],
  ])('on one storey (%s) leave the same room of the other one of its own', async (of, origins) => {
    const all = await found((b) => {
      for (const [name, elevation] of TWO_STOREYS) {
        b.storey(name, elevation);
        room(b, [0, 0], [6000, 4000]);
        if (name !== of) continue;
        const space = b.space({ name: '1', longName: '', outline: rectangle([100, 100], [5900, 3900]), height: 2600 });
        b.zone({ name: 'Compartment A', as: 'IfcSpatialZone', spaces: [space] });
      }
    });
    expect(all.crossings.compartments.map(({ storey, from }) => [storey?.name, from])).toEqual([
      ['Ground', origins[0]],
      ['First', origins[1]],
    ]);
  });

  it('of other purposes are none', async () => {
    const build: Build = (b) => {
      const space = b.space({ name: '1', longName: 'Left', outline: rectangle([0, 0], [1000, 1000]), height: 2600 });
      b.zone({ name: 'Lighting', as: 'IfcSpatialZone', predefined: 'LIGHTING', spaces: [space] });
      b.zone({ name: 'Tenant', as: 'IfcZone', spaces: [space] });
    };
    expect((await found(build)).crossings.compartments).toEqual([]);
  });

  it('by the property that a brief names, and by no other then', async () => {
    const more = { set: 'Office', property: 'Section' };
    const facts = { compartmentProperty: more };
    const byBrief = await found(stated('property', more), {}, facts);
    expect(byBrief.crossings.compartments.map((c) => c.from)).toEqual(['property', 'property']);
    const without = await found(stated('property', more));
    expect(without.crossings.compartments.map((c) => c.from)).toEqual(['loop', 'loop']);
    const other = await found(stated('property'), {}, facts);
    expect(other.crossings.compartments.map((c) => c.from)).toEqual(['loop', 'loop']);
  });

  it('over several rooms with a wall between them, or of no rooms at all', async () => {
    const all = await found((b) => {
      const outline = (x: number) => rectangle([x, 0], [x + 1000, 1000]);
      const spaces = [0, 1100].map((x) => b.space({ name: `${x}`, longName: '', outline: outline(x), height: 2600 }));
      b.zone({ name: 'Compartment A', as: 'IfcSpatialZone', spaces });
      b.wall({ ...RATED, name: 'W', from: [5000, 0], to: [9000, 0] });
    });
    expect(all.crossings.compartments).toMatchObject([{ areaM2: 2, walled: null, outlines: [{}, {}] }]);
  });
});
