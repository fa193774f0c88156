/** What bounds compartments below and above, which of them are one, and what encloses a shaft: from the drawing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Compartment, Crossings, ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

type Build = (b: ModelBuilder) => void;
type Options = Partial<ConstructorParameters<typeof ModelBuilder>[0]>;

async function found(build: Build, options: Options = {}, facts?: Partial<ProjectFacts>): Promise<Crossings> {
  const b = new ModelBuilder({ fileName: 'a.ifc', ...options });
  build(b);
  const inputs = [{ name: 'a.ifc', bytes: new TextEncoder().encode(b.toString()) }];
  return findPenetrations(await readFederation(inputs, { facts: { ...NO_FACTS, ...facts } }));
}

const STOREY = 3200;
const SLAB = 200;
const RATED = { thickness: 200, height: STOREY - SLAB, rating: '-/60/60' } as const;
type Corner = readonly [number, number];

/** Centre lines from corner to corner: walls up to the slab over them. */
function room(b: ModelBuilder, name: string, [x0, y0]: Corner, [x1, y1]: Corner, more = {}) {
  const wall = (side: string, from: Corner, to: Corner) =>
    b.wall({ ...RATED, ...more, name: `${name} ${side}`, from: [...from], to: [...to] });
  return {
    south: wall('south', [x0 - 100, y0], [x1 + 100, y0]),
    north: wall('north', [x0 - 100, y1], [x1 + 100, y1]),
    west: wall('west', [x0, y0 + 100], [x0, y1 - 100]),
    east: wall('east', [x1, y0 + 100], [x1, y1 - 100]),
  };
}

/** Under the storey, somewhat larger than all rooms. */
const slab = (b: ModelBuilder, storey: number, more = {}) =>
  b.slab({
    ...{ name: `Slab ${storey}`, outline: rectangle([-2000, -2000], [14000, 10000]), thickness: SLAB },
    ...{ top: storey * STOREY, rating: 'REI 90', ...more },
  });

/** One room on each storey, and slabs over, under and between them. */
const tower =
  (
    storeys: number,
    change: (b: ModelBuilder, storey: number, floor: ReturnType<typeof slab>) => void = () => {},
  ): Build =>
  (b) => {
    for (let i = 0; i <= storeys; i++) {
      b.storey(`Level ${i}`, i * STOREY);
      const floor = slab(b, i);
      if (i < storeys) room(b, `R${i}`, [0, 0], [6000, 4000]);
      change(b, i, floor);
    }
  };
const AREA = 5.8 * 3.8;
const middle = (storey: number) => storey * STOREY - SLAB / 2;
const shown = (all: Crossings) =>
  all.compartments.map(({ storey, areaM2, floor, ceiling, closed }) => [
    storey?.name ?? null,
    areaM2,
    floor.state,
    ceiling.state,
    closed,
  ]);

describe('floors', () => {
  it('rated ones close a compartment; nothing is under the lowest', async () => {
    const all = await found(tower(2));
    expect(shown(all)).toEqual([
      ['Level 0', AREA, 'ground', 'rated', true],
      ['Level 1', AREA, 'rated', 'rated', true],
    ]);
    // Integrity and insulation of the walls, resistance of the slabs to load.
    expect(all.compartments[1]).toMatchObject({
      leastRating: { integrity: 60, insulation: 60, loadbearing: 90 },
      floor: { leastRating: { integrity: 90 }, openM2: 0, barriers: [{}] },
      enclosure: { complete: true, reasons: [] },
    });
  });

  it.each([
    ['not stated', undefined, 'unknown', null, 'Unknown'],
    ['not to be read', 'FR (TBC)', 'unknown', null, 'Unknown'],
    ['known to be none', '-/-/-', 'unrated', false, 'Unrated'],
  ] as const)('a slab whose rating is %s', async (_, rating, state, closed, gap) => {
    const all = await found((b) => {
      for (const i of [0, 1, 2]) {
        b.storey(`Level ${i}`, i * STOREY);
        slab(b, i, i === 1 ? { rating } : {});
        if (i < 2) room(b, `R${i}`, [0, 0], [6000, 4000]);
      }
    });
    expect(shown(all)).toEqual([
      ['Level 0', AREA, 'ground', state, closed],
      ['Level 1', AREA, state, 'rated', closed],
    ]);
    expect(all.compartments.map(({ enclosure }) => enclosure.reasons.map((reason) => reason.gap))).toEqual([
      [`ceiling${gap}`],
      [`floor${gap}`],
    ]);
  });

  it('none in the models: nothing is known, and storeys stay apart', async () => {
    const all = await found((b) => {
      for (const i of [0, 1]) {
        b.storey(`Level ${i}`, i * STOREY);
        room(b, `R${i}`, [0, 0], [6000, 4000]);
      }
    });
    expect(shown(all)).toEqual([
      ['Level 0', AREA, null, null, null],
      ['Level 1', AREA, null, null, null],
    ]);
  });

  it('a landing alone does not show that floors are drawn', async () => {
    const all = await found((b) => {
      room(b, 'R', [0, 0], [6000, 4000]);
      b.slab({ name: 'Landing', outline: rectangle([100, 100], [1500, 3900]), thickness: 200, top: 1700 });
    });
    expect(shown(all)).toEqual([['Ground floor', AREA, null, null, null]]);
  });

  it('a roof missing over the last storey while its neighbours have one: open, with its area', async () => {
    const all = await found((b) => {
      slab(b, 0);
      room(b, 'R', [0, 0], [6000, 4000]);
      room(b, 'S', [7000, 0], [11000, 4000]);
      for (const [x0, x1] of [
        [-2000, 0],
        [6000, 14000],
      ] as const)
        b.slab({ name: `Roof ${x0}`, outline: rectangle([x0, -2000], [x1, 10000]), thickness: SLAB, top: STOREY });
    });
    expect(all.compartments[0]).toMatchObject({ closed: false, ceiling: { state: 'open', openM2: AREA } });
    expect(all.compartments[1]).toMatchObject({ closed: null, ceiling: { state: 'unknown', openM2: 0 } });
  });

  it('walls that stop short of the structure leave it open', async () => {
    const all = await found((b) => {
      slab(b, 0);
      slab(b, 1);
      room(b, 'R', [0, 0], [6000, 4000], { height: STOREY - SLAB - 300 });
    });
    const [one] = all.compartments;
    expect(one).toMatchObject({ walled: true, closed: false, enclosure: { complete: false } });
    expect(one!.enclosure.reasons.map(({ gap }) => gap)).toEqual(['wallHead', 'wallHead', 'wallHead', 'wallHead']);
  });

  it('walls that stop a joint short of the structure close it', async () => {
    const all = await found((b) => {
      slab(b, 0);
      slab(b, 1);
      room(b, 'R', [0, 0], [6000, 4000], { height: STOREY - SLAB - 25 });
    });
    expect(all.compartments).toMatchObject([{ closed: true, enclosure: { complete: true, reasons: [] } }]);
  });
});

describe('openings in floors', () => {
  const withOpening = (width: number, height: number, fill: (b: ModelBuilder) => void = () => {}) =>
    tower(3, (b, i, floor) => {
      if (i === 1) b.opening(floor, { centre: [3000, 2000, middle(1)], width, height });
      if (i === 1) fill(b);
    });

  it('that people pass make one compartment of two storeys', async () => {
    const all = await found(withOpening(2000, 3000));
    expect(shown(all)).toEqual([
      [null, AREA, 'ground', 'rated', true],
      ['Level 2', AREA, 'rated', 'rated', true],
    ]);
    expect(all.compartments[0]!.name).toBe('Level 0 to Level 1');
    expect(all.compartments[0]!.barriers.length).toBe(8);
  });

  it.each([
    [601, null, 0],
    [599, 'Level 0', 1.797],
    [110, 'Level 0', 0.33],
  ])('%d mm wide and 3 m long', async (width, storey, openM2) => {
    const [one] = (await found(withOpening(width, 3000))).compartments;
    expect([one!.storey?.name ?? null, one!.ceiling.openM2]).toEqual([storey, openM2]);
    expect(one!.ceiling.state).toBe(openM2 > 0 ? 'open' : 'rated');
  });

  it('that a service passes are closed, as far as a floor is round them', async () => {
    const duct = (b: ModelBuilder) =>
      b.duct({ name: 'D', width: 600, height: 600, from: [3000, 2000, 2000], to: [3000, 2000, 4200] });
    const all = await found(withOpening(800, 800, duct));
    expect(shown(all)[0]).toEqual(['Level 0', AREA, 'ground', 'rated', true]);
    // As large as the room: there is no floor for a seal to be in.
    const whole = await found(withOpening(5800, 3800, duct));
    expect(shown(whole)[0]).toEqual([null, AREA, 'ground', 'rated', true]);
  });

  it('that do not go through, or that a door fills', async () => {
    for (const z of [STOREY, STOREY - SLAB]) {
      const recess = await found(
        tower(2, (b, i, floor) => {
          if (i === 1) b.opening(floor, { centre: [3000, 2000, z], width: 2000, height: 2000, depth: 100 });
        }),
      );
      expect(shown(recess)[0]).toEqual(['Level 0', AREA, 'ground', 'rated', true]);
    }
    const hatch = await found(
      tower(2, (b, i, floor) => {
        if (i !== 1) return;
        const opening = b.opening(floor, { centre: [3000, 2000, middle(1)], width: 900, height: 900 });
        b.door(opening, { name: 'Hatch', rating: 'EI 60' });
      }),
    );
    expect(hatch.compartments.map(({ closed, doors }) => [closed, doors.map(({ name }) => name)])).toEqual([
      [true, ['Hatch']],
      [true, ['Hatch']],
    ]);
  });

  it('penetrations name the joined compartment on every storey', async () => {
    const all = await found((b) => {
      withOpening(2000, 3000)(b);
      for (const i of [0, 1, 2]) {
        const z = i * STOREY + 2500;
        b.duct({ name: `D${i}`, width: 300, height: 200, from: [5000, 2000, z], to: [7000, 2000, z] });
      }
    });
    const sides = Object.fromEntries(all.penetrations.map((p) => [p.duct.name, p.compartments]));
    expect(sides).toEqual({ D0: ['C-0001', null], D1: ['C-0001', null], D2: ['C-0002', null] });
  });

  it('an atrium in the middle of larger storeys: of all storeys laid over each other', async () => {
    const all = await found((b) => {
      for (const i of [0, 1, 2]) {
        b.storey(`Level ${i}`, i * STOREY);
        const floor = slab(b, i);
        if (i === 0) room(b, 'R0', [0, 0], [6000, 4000]);
        if (i === 1) room(b, 'R1', [1000, 0], [10000, 6000]);
        if (i === 1) b.opening(floor, { centre: [3000, 2000, middle(1)], width: 1000, height: 1000 });
      }
    });
    // 5.8 × 3.8 and 8.8 × 5.8 m, of which 4.8 × 3.8 lie over each other.
    expect(all.compartments.map(({ areaM2 }) => areaM2)).toEqual([expect.closeTo(22.04 + 51.04 - 4.8 * 3.8, 4)]);
  });

  it('of random sizes and places, in a turned model in feet: area and what is open', async () => {
    const any = fc.record({
      width: fc.integer({ min: 120, max: 2000 }),
      height: fc.integer({ min: 120, max: 2000 }),
      x: fc.integer({ min: 1200, max: 4800 }),
      y: fc.integer({ min: 1200, max: 2800 }),
      rotation: fc.integer({ min: 0, max: 359 }),
    });
    await fc.assert(
      fc.asyncProperty(any, async ({ width, height, x, y, rotation }) => {
        const build = tower(2, (b, i, floor) => {
          if (i === 1) b.opening(floor, { centre: [x, y, middle(1)], width, height });
        });
        const all = await found(build, { rotation, offset: [4e7, 2e7, 0], unit: 'foot' });
        const isJoined = Math.min(width, height) > 600.5;
        if (Math.abs(Math.min(width, height) - 600) <= 0.5) return;
        expect(all.compartments.length).toBe(isJoined ? 1 : 2);
        expect(all.compartments[0]!.areaM2).toBeCloseTo(AREA, 3);
        expect(all.compartments[0]!.ceiling.openM2).toBeCloseTo(isJoined ? 0 : (width * height) / 1e6, 3);
      }),
      { numRuns: 25 },
    );
  });
});

describe('a shaft', () => {
  const SHAFT = rectangle([100, 100], [5900, 3900]);
  const shaftOf = (change: Parameters<typeof tower>[1] = () => {}, longName = 'Riser 1') =>
    tower(1, (b, i, floor) => {
      if (i === 0) b.space({ name: '0.1', longName, outline: SHAFT, height: 2600 });
      change(b, i, floor);
    });
  const first = ({ compartments }: Crossings): Compartment => compartments[0]!;

  it.each([
    ['Riser 1', true],
    ['Installationsschacht', true],
    ['GAINE TECHNIQUE', true],
    ['Kitchen', false],
    ['12', null],
    ['', null],
  ])('is told by the name of its space: "%s"', async (longName, shaft) => {
    expect(first(await found(shaftOf(undefined, longName))).shaft).toBe(shaft);
  });

  it('or by words of the brief', async () => {
    expect(first(await found(shaftOf(undefined, 'Rohrkanal'))).shaft).toBe(false);
    expect(first(await found(shaftOf(undefined, 'Rohrkanal'), {}, { shafts: ['rohrkanal'] })).shaft).toBe(true);
  });

  it('without a name is not known to be one, however small', async () => {
    expect(first(await found((b) => room(b, 'R', [0, 0], [800, 800]))).shaft).toBe(null);
  });

  it.each([
    ['rated, for less than the wall', 'EI 30', true, []],
    ['not stated', undefined, null, ['doorUnknown']],
    ['not to be read', 'Fire Rating', null, ['doorUnknown']],
    ['known to hold back no fire', '-/-/-', false, ['doorUnrated']],
  ] as const)('with a door that is %s', async (_, rating, complete, gaps) => {
    const all = await found((b) => {
      slab(b, 0);
      slab(b, 1);
      const { south } = room(b, 'R', [0, 0], [6000, 4000]);
      const opening = b.opening(south, { centre: [3000, 0, 1050], width: 900, height: 2100 });
      b.door(opening, { name: 'Door', ...(rating && { rating }) });
    });
    const { enclosure, doors } = first(all);
    expect([enclosure.complete, enclosure.reasons.map(({ gap }) => gap)]).toEqual([complete, gaps]);
    expect(doors).toEqual(all.doors);
    expect(doors).toMatchObject([{ name: 'Door', at: [3000, 0, 1050] }]);
    if (complete) expect(enclosure.leastRating).toMatchObject({ integrity: 30, insulation: 30 });
  });

  it.each([
    ['IFC4', 'IfcDoor', 'type'],
    ['IFC4', 'IfcWindow', 'type'],
    ['IFC4', 'IfcWindow', 'occurrence'],
    ['IFC2X3', 'IfcDoor', 'occurrence'],
  ] as const)('reads the rating in %s of an %s from its %s', async (schema, entity, ratingOn) => {
    const all = await found(
      (b) => {
        const { south } = room(b, 'R', [0, 0], [6000, 4000]);
        const opening = b.opening(south, { centre: [3000, 0, 1050], width: 900, height: 2100 });
        b.door(opening, { name: 'Door', entity, rating: 'EI 30', ratingOn });
      },
      { schema },
    );
    expect(all.doors.map(({ rating }) => [rating.text, rating.from])).toEqual([['EI 30', ratingOn]]);
  });

  it('has the doors of its own stretch of a wall, and of its own storey', async () => {
    const all = await found((b) => {
      slab(b, 0);
      slab(b, 2);
      const { south } = room(b, 'R', [0, 0], [6000, 4000], { height: 2 * STOREY - SLAB });
      b.wall({ ...RATED, height: 2 * STOREY - SLAB, name: 'Middle', from: [2000, 100], to: [2000, 3900] });
      for (const [name, x] of [
        ['Left', 1000],
        ['Right', 2600],
      ] as const)
        b.door(b.opening(south, { centre: [x, 0, 1050], width: 900, height: 2100 }), { name, rating: 'EI 30' });
    });
    expect(all.compartments.map(({ doors }) => doors.map(({ name }) => name))).toEqual([['Left'], ['Right']]);
  });

  it('with an opening in its wall that nothing fills or passes is not known to be closed', async () => {
    const withHole =
      (more: Build): Build =>
      (b) => {
        slab(b, 0);
        slab(b, 1);
        const { south } = room(b, 'R', [0, 0], [6000, 4000]);
        b.opening(south, { centre: [3000, 0, 2500], width: 400, height: 300 });
        more(b);
      };
    const empty = first(await found(withHole(() => {}))).enclosure;
    expect([empty.complete, empty.reasons.map(({ gap }) => gap)]).toEqual([null, ['wallOpening']]);
    const passed = withHole((b) => {
      b.duct({ name: 'D', width: 300, height: 200, from: [3000, -1000, 2500], to: [3000, 1000, 2500] });
    });
    expect(first(await found(passed)).enclosure.complete).toBe(true);
  });

  it('a wall that stands free in it does not bound it', async () => {
    const all = await found((b) => {
      slab(b, 0);
      slab(b, 1);
      room(b, 'R', [0, 0], [6000, 4000]);
      b.wall({ ...RATED, name: 'Free', rating: '-/30/30', height: 2000, from: [2000, 1400], to: [2000, 2600] });
    });
    const { barriers, leastRating, enclosure } = first(all);
    expect([barriers.length, leastRating?.integrity, enclosure.complete]).toEqual([4, 60, true]);
  });
});
