/** How far the top of a wall lies under the structure over it; a wall of 6 m by 2.9 m under slabs, from the drawing. */
import { describe, expect, it } from 'vitest';
import { GrossBody } from '../../src/find/gross-body.js';
import { wallHead } from '../../src/find/wall-heads.js';
import { circle } from '../../src/geometry/polygon.js';
import type { Barrier, Body, Polygon, Prism, Vec2 } from '../../src/model.js';
import { aBarrier, along, between, upright } from './elements.js';

const WALL = new GrossBody(aBarrier({ bodies: [upright(between([0, -100], [6000, 100]), 0, 2900)] }));
const over = (...bodies: Body[]) => aBarrier({ globalId: 'S', kind: 'floor', bodies });
const slab = (soffit: number, [from, to]: Vec2 = [-1000, 7000]) =>
  over(upright(between([from, -2000], [to, 2000]), soffit, soffit + 200));
/** What is the same all along y, as it is seen from the south: x to the right, heights up. */
const profile = (outline: Polygon): Prism =>
  along(
    outline.map(([x, z]): Vec2 => [z, x]),
    -2000,
    2000,
    [0, 0],
  );
const head = (...above: Barrier[]) => wallHead(WALL, above, []);

it.each<[string, readonly Barrier[], number | undefined, number]>([
  ['a slab that lies on it', [slab(2900)], 0, 0],
  ['one that is in contact', [slab(2901)], 0, 0],
  ['one a little higher', [slab(2901.1)], 1.1, 6000],
  ['one that is drawn into it', [slab(2850)], 0, 0],
  ['one 100 mm over it', [slab(3000)], 100, 6000],
  ['the lower of two', [slab(6000), slab(3000)], 100, 6000],
  ['one over a half of it alone', [slab(3000, [-1000, 3000])], 100, 3000],
  ['one that is nearer over a half', [slab(3000, [-1000, 3000]), slab(2950, [3000, 7000])], 100, 6000],
  ['one that closes a half', [slab(2900, [-1000, 2000]), slab(3300)], 400, 4000],
  ['none over it', [slab(3000, [6000, 9000])], undefined, 0],
  ['none at all', [], undefined, 0],
  ['one under its top', [slab(2000)], undefined, 0],
  ['one whose top is its top', [slab(2700)], undefined, 0],
  ['a roof', [{ ...slab(3000), kind: 'roof' }], 100, 6000],
  ['a wall that stands on it', [{ ...slab(2900), kind: 'wall' }], 0, 0],
  ['a wall further up, which is no structure', [{ ...slab(3000), kind: 'wall' }], undefined, 0],
  ['a wall on half of it, under a slab', [{ ...slab(2900, [0, 3000]), kind: 'wall' }, slab(3100)], 200, 3000],
])('%s', (_, above, gap, length) => {
  const found = head(...above)!;
  expect(found.gap).toEqual(gap === undefined ? undefined : expect.closeTo(gap, 6));
  expect(found.length).toBeCloseTo(length, 6);
  expect(found.at === undefined).toBe(gap === undefined);
});

it('a gable: looked at in the middle of steps of 200 mm, widest nearest to its ridge', () => {
  const gable: Polygon = [
    [0, 3000],
    [3000, 4000],
    [6000, 3000],
    [6000, 3300],
    [3000, 4300],
    [0, 3300],
  ];
  const found = head(over(profile(gable)))!;
  // 100 mm beside the ridge, which rises by a third.
  expect(found.gap).toBeCloseTo(4000 - 100 / 3 - 2900, 6);
  expect(found.length).toBeCloseTo(6000, 6);
});

/** Two slabs that one upright side joins, open to the east or to the west. */
const doubled = (lower: Vec2, upper: Vec2, open: 'east' | 'west'): Polygon => {
  const [far, near] = open === 'east' ? [7000, -1000] : [-1000, 7000];
  const side = open === 'east' ? near + 100 : near - 100;
  return [
    [near, lower[0]],
    [far, lower[0]],
    [far, lower[1]],
    [side, lower[1]],
    [side, upper[0]],
    [far, upper[0]],
    [far, upper[1]],
    [near, upper[1]],
  ];
};
it.each<[string, Vec2, Vec2, number]>([
  ['the lower of both counts', [2950, 3000], [3400, 3600], 50],
  ['the upper where the lower is under the top of the wall', [1000, 2000], [3400, 3600], 500],
  ['the lower where it lies on the wall', [2900, 3000], [3400, 3600], 0],
])('a body that is passed twice on the way up: %s', (_, lower, upper, expected) => {
  for (const open of ['east', 'west'] as const) {
    const outline = doubled(lower, upper, open);
    for (const way of [outline, outline.toReversed(), [...outline.slice(3), ...outline.slice(0, 3)]])
      expect(head(over(profile(way)))!.gap).toBeCloseTo(expected, 6);
  }
});

it('a wall with a stepped top: each part by its own', () => {
  const steps = [
    upright(between([0, -100], [2000, 100]), 0, 2900),
    upright(between([2000, -100], [6000, 100]), 0, 2500),
  ];
  const found = wallHead(new GrossBody(aBarrier({ bodies: steps })), [slab(2900)], [])!;
  expect([found.gap, found.length]).toEqual([expect.closeTo(400, 6), expect.closeTo(4000, 6)]);
});

it('shows the middle of the widest places, half-way up, and what is open over a place in the wall', () => {
  const found = head(slab(3000, [-1000, 4000]), slab(2950, [4000, 7000]))!;
  const [x, y, z] = found.at!;
  expect([x > 1800 && x < 2200, y, z]).toEqual([true, expect.closeTo(0, 6), expect.closeTo(2950, 6)]);
  const gapOver = (place: Vec2) => found.gapOver([...place, 1500]);
  expect(gapOver([1000, 0])).toBeCloseTo(100, 6);
  expect(gapOver([5000, 0])).toBeCloseTo(50, 6);
  expect(gapOver([5000, 101])).toBeCloseTo(50, 6);
  expect(gapOver([5000, -101.1])).toBeUndefined();
  expect(gapOver([6500, 0])).toBeUndefined();
});

describe('services in the gap', () => {
  const named = (globalId: string, x: number, z: number) => {
    return { model: 'm1', globalId, bodies: [along(circle(40), -1000, 1000, [x, z])] };
  };
  it('are those whose middle lies between the top of the wall and the structure', () => {
    const services = [
      named('in it', 3000, 2950),
      named('near the top', 3000, 2901),
      named('near the slab', 3000, 2999),
      named('in the wall', 3000, 2899),
      named('in the slab', 3000, 3001),
      named('at its end', 5950, 2950),
      named('beyond its end', 6300, 2950),
    ];
    const found = wallHead(WALL, [slab(3000)], services)!;
    expect(found.passing.map(({ globalId }) => globalId)).toEqual([
      'in it',
      'near the top',
      'near the slab',
      'at its end',
    ]);
    expect(wallHead(WALL, [slab(2900)], services)!.passing).toEqual([]);
  });
});
