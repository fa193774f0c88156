/** Floors on plan: between which storeys each lies, where it is open, and what services pass; from the drawing. */
import { describe, expect, it } from 'vitest';
import { floorsBetween, heightsAt, servicesOf } from '../../src/find/floors.js';
import type { Level } from '../../src/find/levels.js';
import { totalArea } from '../../src/geometry/areas.js';
import { prismMesh } from '../../src/geometry/loft.js';
import type { Barrier, Body, Opening, Vec2 } from '../../src/model.js';
import { aBarrier, aDuct, between, federationOf, upright } from './elements.js';

const levelAt = (cutAt: number): Level => {
  return { base: cutAt - 1200, top: cutAt + 1800, cutAt, storey: null, rated: [], others: [] };
};
const LEVELS = [levelAt(1200), levelAt(4200)];
/** 10 m by 8 m. */
const slab = (from: number, to: number, changes: Partial<Barrier> = {}) =>
  aBarrier({ kind: 'floor', bodies: [upright(between([0, 0], [10_000, 8000]), from, to)], ...changes });

it.each<[string, Barrier, number | undefined]>([
  ['under the first storey', slab(-200, 0), 0],
  ['between two', slab(2800, 3000), 1],
  ['over the last', slab(5800, 6000), 2],
  ['its middle just under the cut of the first', slab(1000, 1399), 0],
  ['its middle in the cut of the first', slab(1000, 1400), 1],
  ['a roof', slab(5800, 6000, { kind: 'roof' }), 2],
  ['a wall', slab(0, 3000, { kind: 'wall' }), undefined],
  ['one that is not drawn', slab(0, 0, { bodies: [] }), undefined],
])('a floor lies where its middle does: %s', (_, floor, expected) => {
  const found = floorsBetween([floor], LEVELS);
  expect(found.map((floors) => floors.length)).toEqual([0, 1, 2].map((i) => (i === expected ? 1 : 0)));
});

it('keeps its heights and its bounds', () => {
  const [[floor]] = floorsBetween([slab(-200, 0)], []) as [[unknown]];
  expect(floor).toMatchObject({ bottom: -200, top: 0, bounds: { min: [0, 0], max: [10_000, 8000] } });
});

describe('a floor is open', () => {
  const WHOLE = 10_000 * 8000;
  const hole = (from: number, to: number, at: Vec2 = [2000, 2000], changes: Partial<Opening> = {}): Opening => ({
    ...{ model: 'm1', globalId: 'O', name: 'O', entity: 'IFCOPENINGELEMENT', storey: undefined, filledBy: [] },
    ...{ doors: [], bodies: [upright(between(at, [at[0] + 1000, at[1] + 500]), from, to)], ...changes },
  });
  const areaOf = (floor: Barrier) => totalArea(floorsBetween([floor], LEVELS).flat()[0]!.outlines);
  it.each<[string, readonly Opening[], number]>([
    ['where an opening goes through', [hole(-300, 100)], 1000 * 500],
    ['where one is just as deep', [hole(-200, 0)], 1000 * 500],
    ['where one is drawn a hair short of both faces', [hole(-199, -1)], 1000 * 500],
    ['not over a recess from above', [hole(-198.9, 0)], 0],
    ['not under a recess from below', [hole(-200, -1.1)], 0],
    ['not where something fills it', [hole(-200, 0, [2000, 2000], { filledBy: ['D'] })], 0],
    ['not where one is not drawn', [hole(-200, 0, [2000, 2000], { bodies: [] })], 0],
    ['in two places', [hole(-200, 0), hole(-200, 0, [5000, 5000])], 2 * 1000 * 500],
    ['in one of two places, the other a recess', [hole(-100, 0), hole(-200, 0, [5000, 5000])], 1000 * 500],
    ['once where two lie over each other', [hole(-200, 0), hole(-200, 0, [2500, 2000])], 1500 * 500],
    ['so far as it is there', [hole(-200, 0, [9600, 2000])], 400 * 500],
    ['not over a recess most of which lies beyond the edge', [hole(-100, 0, [9900, 2000])], 0],
    ['nowhere else than where it is', [hole(-200, 0, [20_000, 2000])], 0],
  ])('%s', (_, openings, expected) => {
    expect(WHOLE - areaOf(slab(-200, 0, { openings }))).toBeCloseTo(expected, 0);
  });

  it('by the thickness that it has there: a step of another thickness does not count', () => {
    const thick = upright(between([0, 0], [5000, 8000]), -500, 0);
    const thin = upright(between([5000, 0], [10_000, 8000]), -200, 0);
    const stepped = (at: Vec2) => slab(0, 0, { bodies: [thick, thin], openings: [hole(-200, 0, at)] });
    expect([WHOLE - areaOf(stepped([7000, 2000])), WHOLE - areaOf(stepped([2000, 2000]))]).toEqual([
      expect.closeTo(1000 * 500, 0),
      expect.closeTo(0, 0),
    ]);
  });
});

it('an upright line meets both faces of each body that it passes, drawn exactly or in facets', () => {
  const body = upright(between([0, 0], [1000, 1000]), 200, 300);
  for (const bodies of [
    [body],
    [prismMesh(body)],
    [body, upright(between([0, 0], [200, 200]), 900, 1000)],
  ] as Body[][]) {
    const heights = heightsAt(bodies, [300, 500]).sort((a, b) => a - b);
    expect(heights).toEqual([expect.closeTo(200, 6), expect.closeTo(300, 6)]);
  }
  expect(heightsAt([body], [1500, 500])).toEqual([]);
});

describe('services', () => {
  const stack = ([x, y]: Vec2) => [upright(between([x, y], [x + 400, y + 400]), 0, 2000)];
  const duct = aDuct({ bodies: stack([0, 0]) });
  const named = { model: 'm1', globalId: 'P', name: 'P', entity: 'IFCPIPESEGMENT', storey: undefined };
  const pipe = { ...named, kind: 'pipe', bodies: stack([5000, 0]) } as const;
  const { pass, meet } = servicesOf(
    federationOf({ airElements: [duct, aDuct({ globalId: 'E' })], otherServices: [pipe] }),
  );
  const place = (x: number) => [between([x, 100], [x + 300, 300])];

  it.each([
    ['a duct', 100, 1000, true],
    ['another service', 5100, 1000, true],
    ['a part of one', 399, 1000, true],
    ['nothing beside one', 401, 1000, false],
    ['nothing over one', 100, 2001, false],
    ['nothing under one', 100, -1, false],
    ['nothing where nothing is', 3000, 1000, false],
  ])('%s passes a place at a height', (_, x, height, expected) => {
    expect(pass(place(x), height)).toBe(expected);
  });

  it('that stand round a place, and not in it, do not pass it', () => {
    const U = upright(
      [
        [0, 0],
        [900, 0],
        [900, 900],
        [600, 900],
        [600, 300],
        [300, 300],
        [300, 900],
        [0, 900],
      ],
      0,
      2000,
    );
    const services = servicesOf(federationOf({ airElements: [aDuct({ bodies: [U] })] }));
    expect(services.pass([between([350, 400], [550, 800])], 1000)).toBe(false);
    expect(services.pass([between([350, 200], [550, 800])], 1000)).toBe(true);
  });

  it('meet what their boxes meet', () => {
    expect(meet({ min: [300, 300, 1900], max: [900, 900, 2500] })).toBe(true);
    expect(meet({ min: [500, 300, 1900], max: [900, 900, 2500] })).toBe(false);
    expect(servicesOf(federationOf()).meet({ min: [-1e9, -1e9, -1e9], max: [1e9, 1e9, 1e9] })).toBe(false);
  });
});
