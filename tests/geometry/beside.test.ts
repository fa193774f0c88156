/**
 * What stands beside a straight piece, against closed forms, and against the clear distance between bodies, which is
 * worked out in another way, from triangles.
 */
import { describe, expect, it } from 'vitest';
import { besideStraight } from '../../src/geometry/beside.js';
import { clearDistance } from '../../src/geometry/clear-distance.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { StraightSection } from '../../src/geometry/section-sides.js';
import type { Frame, Polygon, Prism, Vec3 } from '../../src/model.js';

const along = (z: Vec3, x: Vec3, y: Vec3, origin: Vec3): Frame => ({ origin, x, y, z });
/** Along y, 4 m long, top up, right along x. */
const FRAME = along([0, 1, 0], [1, 0, 0], [0, 0, 1], [0, 0, 0]);
const DUCT: StraightSection = { frame: FRAME, length: 4000, half: [300, 200], radius: 0 };
const ROUND: StraightSection = { ...DUCT, half: [0, 0], radius: 250 };
const box = (min: Vec3, max: Vec3): Prism => ({
  kind: 'prism',
  frame: { origin: min, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  outline: [
    [0, 0],
    [max[0] - min[0], 0],
    [max[0] - min[0], max[1] - min[1]],
    [0, max[1] - min[1]],
  ],
  voids: [],
  sweep: [0, 0, max[2] - min[2]],
});
const pipe = (from: Vec3, sweep: Vec3, radius: number): Prism => {
  const [x, y]: [Vec3, Vec3] =
    sweep[0] !== 0
      ? [
          [0, 1, 0],
          [0, 0, 1],
        ]
      : [
          [0, 0, 1],
          [1, 0, 0],
        ];
  return { kind: 'prism', frame: { origin: from, x, y, z: [0, 0, 0] }, outline: circle(2 * radius), voids: [], sweep };
};

describe('beside a rectangular duct', () => {
  it('a soffit over it, along all of it', () => {
    const found = besideStraight(DUCT, box([-5000, -1000, 260], [5000, 9000, 460]), 500);
    expect(found).toEqual({ top: { distance: 60, at: expect.anything(), stretches: [[0, 4000]] } });
    expect((found as { top: { at: Vec3 } }).top.at[2]).toBeCloseTo(260, 6);
  });
  it('a beam across under it, over its own width', () => {
    const found = besideStraight(DUCT, box([-2000, 1000, -500], [2000, 1300, -350]), 500);
    expect(found).toMatchObject({ bottom: { distance: 150, stretches: [[1000, 1300]] } });
    expect(Object.keys(found)).toEqual(['bottom']);
  });
  it('a pipe along it, and one that crosses over it', () => {
    const beside = besideStraight(DUCT, pipe([430, 500, 0], [0, 2000, 0], 30), 500);
    expect(beside).toMatchObject({ right: { distance: 100, stretches: [[500, 2500]] } });
    const over = besideStraight(DUCT, pipe([-3000, 700, 350], [6000, 0, 0], 50), 500);
    expect((over as { top: { distance: number } }).top.distance).toBeCloseTo(100, 2);
    expect(over).toMatchObject({ top: { stretches: [[650, 750]] } });
  });
  it('nothing before its ends, and nothing further than is asked for', () => {
    expect(besideStraight(DUCT, box([-300, 4000.1, -200], [300, 4100, 200]), 500)).toEqual({});
    expect(besideStraight(DUCT, box([-300, 0, 701], [300, 4000, 800]), 500)).toEqual({});
  });
  it('0 where it is met, and inside where it lies within', () => {
    expect(besideStraight(DUCT, box([250, 0, -50], [400, 100, 50]), 500)).toMatchObject({ right: { distance: 0 } });
    expect(besideStraight(DUCT, box([-2000, -2000, -2000], [2000, 9000, 2000]), 500)).toBe('inside');
  });
});

it('a round duct is measured to its true circle', () => {
  expect(besideStraight(ROUND, box([-900, 0, 300], [900, 4000, 400]), 500)).toMatchObject({ top: { distance: 50 } });
  const beside = besideStraight(ROUND, pipe([-400, 0, 0], [0, 4000, 0], 40), 500);
  expect(beside).toMatchObject({ left: { distance: 110 } });
});

it('agrees with the distance between bodies on 12 boxes and pipes about it', () => {
  let state = 7;
  const random = (from: number, to: number): number => {
    state = (state * 48271) % 2147483647;
    return from + ((to - from) * state) / 2147483647;
  };
  const solid = (outline: Polygon): Prism => ({ kind: 'prism', frame: FRAME, outline, voids: [], sweep: [0, 4000, 0] });
  for (let i = 0; i < 12; i++) {
    const [section, own] = i % 2 === 0 ? [DUCT, solid(rectangle(600, 400))] : [ROUND, solid(circle(500))];
    const [x, y, z] = [random(-900, 900), random(200, 3000), random(-800, 800)];
    const other =
      i % 4 < 2
        ? box([x, y, z], [x + random(20, 300), y + random(20, 600), z + random(20, 300)])
        : pipe([x, y, z], [0, random(100, 700), 0], random(10, 80));
    const found = besideStraight(section, other, 500);
    const least = found === 'inside' ? 0 : Math.min(Infinity, ...Object.values(found).map((one) => one.distance));
    const truth = clearDistance(own, other, 500)?.distance ?? Infinity;
    if (least === Infinity) expect(truth).toBeGreaterThan(499.9);
    else expect(Math.abs(least - truth)).toBeLessThan(0.03);
  }
});
