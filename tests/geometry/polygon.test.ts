import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { edgeDistance } from '../../src/geometry/edge-distance.js';
import { area, centroid, circle, clip, contains, convexHull, overlaps, rectangle } from '../../src/geometry/polygon.js';
import type { Polygon, Vec2 } from '../../src/model.js';

const moved = (p: Polygon, [dx, dy]: Vec2): Polygon => p.map(([x, y]) => [x + dx, y + dy] as const);

describe('circle', () => {
  it.each([100, 315, 1250, 2000])('keeps its vertices on the true circle and its chords within 0.01 mm: d %i', (d) => {
    const p = circle(d);
    for (const [x, y] of p) expect(Math.hypot(x, y)).toBeCloseTo(d / 2, 9);
    const sagitta = (d / 2) * (1 - Math.cos(Math.PI / p.length)); // formula of the circular segment
    expect(sagitta).toBeLessThanOrEqual(0.01);
    expect(p.length % 4).toBe(0);
  });

  it('has the area of a regular polygon', () => {
    const p = circle(400);
    expect(area(p)).toBeCloseTo((p.length / 2) * 200 ** 2 * Math.sin((2 * Math.PI) / p.length), 3);
  });
});

describe('distances', () => {
  it('of an eccentric circle in a circle are R − r − e', () => {
    expect(edgeDistance(circle(300, [20, -10]), circle(400))).toBeCloseTo(200 - 150 - Math.hypot(20, 10), 1);
  });

  it('are zero where outlines cross, and what lies inside still has a distance', () => {
    expect(edgeDistance(rectangle(100, 100), moved(rectangle(100, 100), [50, 50]))).toBe(0);
    expect(edgeDistance(rectangle(100, 100), rectangle(140, 160))).toBe(20);
  });

  it('do not depend on order or place', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -400, max: 400 }),
        fc.integer({ min: 201, max: 900 }),
        fc.integer({ min: -1e6, max: 1e6 }),
        (x, y, far) => {
          const a = rectangle(300, 200);
          const b = moved(circle(200), [x, y]);
          const d = edgeDistance(a, b);
          expect(edgeDistance(b, a)).toBeCloseTo(d, 6);
          expect(edgeDistance(moved(a, [far, far]), moved(b, [far, far]))).toBeCloseTo(d, 5);
          // closed form: circle's middle to rectangle, less the radius
          const expected = Math.hypot(Math.max(Math.abs(x) - 150, 0), Math.max(y - 100, 0)) - 100;
          expect(d).toBeGreaterThanOrEqual(Math.max(0, expected) - 1e-6);
          expect(d).toBeLessThanOrEqual(Math.max(0, expected) + 0.011); // chords lie inside the circle
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('areas and points', () => {
  it('finds the centroid of an L', () => {
    // 2 × 1 and 1 × 1 rectangles: (2·(1, .5) + 1·(.5, 1.5)) / 3
    const l: Polygon = [
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ];
    expect(centroid(l)[0]).toBeCloseTo(2.5 / 3, 12);
    expect(centroid(l)[1]).toBeCloseTo(2.5 / 3, 12);
    expect(contains(l, [1.5, 1.5])).toBe(false);
    expect(contains(l, [0.5, 1.5])).toBe(true);
  });

  it('touching is no overlap, one inside the other is', () => {
    expect(overlaps(rectangle(100, 100), moved(rectangle(100, 100), [100, 0]))).toBe(false);
    expect(overlaps(rectangle(100, 100), rectangle(10, 10))).toBe(true);
  });

  it('clips by a line', () => {
    expect(area(clip(rectangle(100, 60), 1, 0, 20))).toBeCloseTo(70 * 60, 9);
    expect(clip(rectangle(100, 60), 1, 0, -60)).toEqual([]);
  });

  it('takes the hull round a notch', () => {
    expect(
      area(
        convexHull([
          [0, 0],
          [4, 0],
          [4, 4],
          [2, 1],
          [0, 4],
        ]),
      ),
    ).toBe(16);
  });
});
