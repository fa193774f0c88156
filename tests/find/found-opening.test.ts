/** Which opening a duct goes through, in a wall 200 mm thick; from the drawing. */
import { describe, expect, it } from 'vitest';
import { GrossBody } from '../../src/find/gross-body.js';
import { findOpening } from '../../src/find/openings.js';
import { plate } from '../../src/find/plates.js';
import { area, rectangle } from '../../src/geometry/polygon.js';
import type { Body, Opening, Vec2 } from '../../src/model.js';
import { aBarrier, along, between, upright } from './elements.js';

const PLATE = plate([0, 1, 0], [[-100, 100]], 'wall');
/** So large, its middle at x and z, from y to y. */
const hole = (globalId: string, [width, height]: Vec2, from = -150, to = 150, at: Vec2 = [0, 1500]): Opening => ({
  ...{ model: 'm1', globalId, name: globalId, entity: 'IFCOPENINGELEMENT', storey: undefined },
  ...{ filledBy: [], doors: [], bodies: [along(rectangle(height, width), from, to, at)] },
});
const wall = (
  openings: readonly Opening[],
  bodies: readonly Body[] = [upright(between([-3000, -100], [3000, 100]), 0, 3000)],
) => new GrossBody(aBarrier({ bodies, openings }));
/** East of the middle and upwards, as the elevation is drawn. */
const centre = (east: number, height: number): Vec2 => [east * PLATE.frame.x[0], height];
const of = (openings: readonly Opening[], at = centre(0, 1500)) => findOpening(wall(openings), PLATE, at);

it.each<[string, readonly Opening[], string | undefined]>([
  ['the one it lies in', [hole('A', [500, 400])], 'A'],
  ['the smaller of two', [hole('A', [900, 900]), hole('B', [500, 400])], 'B'],
  ['the smaller, as the file has them the other way', [hole('B', [500, 400]), hole('A', [900, 900])], 'B'],
  ['none that lies beside it', [hole('A', [500, 400], -150, 150, [300, 1500])], undefined],
  ['none that lies over it', [hole('A', [500, 400], -150, 150, [0, 1750])], undefined],
  ['one just as deep as the wall', [hole('A', [500, 400], -100, 100)], 'A'],
  ['one drawn a hair short of both faces', [hole('A', [500, 400], -99.1, 99.1)], 'A'],
  ['none that ends before the northern face', [hole('A', [500, 400], -100, 98.9)], undefined],
  ['none that ends before the southern face', [hole('A', [500, 400], -98.9, 100)], undefined],
  ['a larger one, where the smaller is a recess', [hole('A', [500, 400], -100, 50), hole('B', [900, 900])], 'B'],
  ['none where there are none', [], undefined],
])('%s', (_, openings, expected) => {
  expect(of(openings)?.element?.globalId).toBe(expected);
});

it('a hole in the body of the wall is an opening without an element, with the outline that lies round the duct', () => {
  const body = { ...upright(between([-3000, -100], [3000, 100]), 0, 3000) };
  const pierced: Body = {
    ...along(rectangle(3000, 6000), -100, 100),
    voids: [rectangle(400, 500), rectangle(200, 200).map(([z, x]): Vec2 => [z, x + 1000])],
  };
  const found = (bodies: readonly Body[], openings: readonly Opening[] = []) =>
    findOpening(wall(openings, bodies), PLATE, centre(0, 1500));
  expect(found([body])).toBeUndefined();
  const inBody = found([pierced])!;
  expect(inBody.element).toBeUndefined();
  expect(area(inBody.outlineAt(0, centre(0, 1500))!)).toBeCloseTo(500 * 400, 3);
  // Off all holes the nearest one is meant: an oblique duct leaves the hole behind.
  expect(area(inBody.outlineAt(0, centre(960, 1650))!)).toBeCloseTo(200 * 200, 3);
  expect(area(inBody.outlineAt(0, centre(300, 1650))!)).toBeCloseTo(500 * 400, 3);
  expect(found([pierced], [hole('A', [300, 300])])!.element?.globalId).toBe('A');
});

describe('of openings of the parts of one wall', () => {
  // The southern half is opened by A, the northern one by B.
  const [A, B] = [hole('A', [500, 400], -150, 0), hole('B', [600, 500], 0, 150)];
  it.each<[string, readonly Opening[], string | undefined]>([
    ['each speaks for its own part; the first where they meet', [A, B], 'A'],
    ['in whichever order the file has them', [B, A], 'A'],
    ['they meet but for contact', [A, hole('B', [600, 500], 1, 150)], 'A'],
    ['none where something is between', [A, hole('B', [600, 500], 1.1, 150)], undefined],
    ['none where one is not there', [A], undefined],
    ['none where the other lies beside the duct', [A, hole('B', [600, 500], 0, 150, [400, 1500])], undefined],
    ['up to the faces but for contact', [hole('A', [500, 400], -99, 0), hole('B', [600, 500], 0, 99)], 'A'],
    ['not to the southern face', [hole('A', [500, 400], -98.9, 0), B], undefined],
    ['not to the northern face', [A, hole('B', [600, 500], 0, 98.9)], undefined],
    ['three', [hole('C', [500, 400], -50, 50), hole('A', [500, 400], -150, -50), hole('B', [600, 500], 50, 150)], 'C'],
  ])('%s', (_, openings, expected) => {
    expect(of(openings)?.element?.globalId).toBe(expected);
  });

  it('the outline is that of the part that a height lies in', () => {
    const found = of([A, B])!;
    const sizes = [-99, -1, 1, 99].map((height) => area(found.outlineAt(height, centre(0, 1500))!));
    expect(sizes.map(Math.round)).toEqual([200_000, 200_000, 300_000, 300_000]);
  });

  it('what is between them may be a cavity', () => {
    const cavity = plate(
      [0, 1, 0],
      [
        [-100, -40],
        [30, 100],
      ],
      'wall',
    );
    const leaves = [
      upright(between([-3000, -100], [3000, -40]), 0, 3000),
      upright(between([-3000, 30], [3000, 100]), 0, 3000),
    ];
    const through = (south: number, north: number) => {
      const openings = [hole('A', [500, 400], -150, south), hole('B', [600, 500], north, 150)];
      return findOpening(wall(openings, leaves), cavity, centre(0, 1500))?.element?.globalId;
    };
    // The middle lies 40 mm from the first leaf and 30 mm from the second, which speaks for it.
    expect([through(-40, 30), through(-41, 31), through(-41.1, 30), through(-40, 31.1)]).toEqual([
      'B',
      'B',
      undefined,
      undefined,
    ]);
  });
});
