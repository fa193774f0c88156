/** Rings round outlines against a judge that knows no geometry: points strewn over every triangle, one by one. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { clearWidth } from '../../src/clear-width.js';
import { circle, convexHull } from '../../src/geometry/polygon.js';
import { clearance, rankedFacets, ringRound } from '../../src/geometry/ring.js';
import type { Polygon, Vec2, Vec3 } from '../../src/model.js';

const STEPS = 60;
/** Strewn points lie this near to any point of a triangle whose sides are up to 700 mm. */
const COARSE = 700 / STEPS;

/** How far a point lies out of the outline: straight out of the edge that it is furthest out of, or of the circle. */
function outOf(outline: Polygon | { readonly radius: number }, [x, y]: Vec2): number {
  if ('radius' in outline) return Math.hypot(x, y) - outline.radius;
  const out = outline.map(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    return ((by - ay) * (x - ax) - (bx - ax) * (y - ay)) / Math.hypot(bx - ax, by - ay);
  });
  return Math.max(...out);
}

function* strewn([a, b, c]: readonly [Vec3, Vec3, Vec3]): Generator<Vec3> {
  for (let i = 0; i <= STEPS; i++)
    for (let j = 0; j <= STEPS - i; j++) {
      const [s, t] = [i / STEPS, j / STEPS];
      const on = (k: 0 | 1 | 2) => a[k] + (b[k] - a[k]) * s + (c[k] - a[k]) * t;
      yield [on(0), on(1), on(2)];
    }
}

const point = fc.tuple(
  fc.integer({ min: -450, max: 450 }),
  fc.integer({ min: -450, max: 450 }),
  fc.integer({ min: 0, max: 500 }),
);
const corner = fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 }));
const outline = fc.oneof(
  fc.integer({ min: 40, max: 300 }).map((radius) => ({ radius })),
  fc
    .array(corner, { minLength: 3, maxLength: 7 })
    .map(convexHull)
    .filter((hull) => hull.length > 2),
);
const SIDES = 700;
const triangles = fc.array(
  fc
    .tuple(point, point, point)
    .filter((t) => t.every((p, i) => Math.hypot(...p.map((v, k) => v - t[(i + 1) % 3]![k]!)) < SIDES)),
  { minLength: 1, maxLength: 5 },
);

it('comes as near as any strewn point, and no nearer than strewn points allow', () => {
  let compared = 0;
  fc.assert(
    fc.property(outline, triangles, fc.integer({ min: 5, max: 500 }), (shape, found, depth) => {
      const ring = ringRound(['radius' in shape ? circle(2 * shape.radius) : shape]);
      const bounds = { nearest: 0.01, furthest: 500, reach: 500 };
      const width = clearWidth(clearance(ring, rankedFacets(ring, found), bounds), depth) ?? 500;
      let least = 500;
      // What only touches the depth is not in the way; where it begins is found to 0.1 mm.
      for (const triangle of found)
        for (const [x, y, z] of strewn(triangle)) if (z <= depth - 0.2) least = Math.min(least, outOf(shape, [x, y]));
      compared++;
      expect(width).toBeLessThanOrEqual(Math.max(0, least) + 0.5);
      // A triangle may just reach the depth between strewn points; then both its depth and its place are coarse.
      if (least < 500 && found.every((t) => t.every(([, , z]) => z < depth)))
        expect(width).toBeGreaterThanOrEqual(Math.max(0, least) - COARSE * Math.SQRT2 - 0.5);
    }),
    { numRuns: 300, seed: 75 },
  );
  expect(compared).toBe(300);
});

it('has sharp corners', () => {
  const ring = ringRound([
    [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
    ],
  ]);
  // Off the corner by 30 and 40: the board of a ring of 40 mm would touch there, though it is 50 mm off.
  expect(ring.leastOn([130, 140], [130, 200]).width).toBeCloseTo(40, 9);
  expect(ring.leastOn([130, 140], [200, 140]).towards).toEqual([0, 1]);
});
