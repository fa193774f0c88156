import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mapOutline, type PlaneMap } from '../../src/geometry/plane-map.js';
import { area, circle, circleOf, rectangle, signedArea } from '../../src/geometry/polygon.js';

const size = fc.double({ min: -1e4, max: 1e4, noNaN: true });

it('moves a circle as what it is: the circle that its corners lie on', () => {
  fc.assert(
    fc.property(size, size, fc.double({ min: 0, max: 7, noNaN: true }), fc.boolean(), (u, v, turn, isMirrored) => {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const map: PlaneMap = { origin: [u, v], x: [c, s], y: isMirrored ? [s, -c] : [-s, c] };
      const mapped = mapOutline(circle(320), map);
      expect(signedArea(mapped)).toBeGreaterThan(0);
      const [known, found] = [circleOf(mapped)!, circleOf([...mapped])!];
      expect(known.radius).toBeCloseTo(160, 6);
      for (const one of [known, found])
        for (const i of [0, 1] as const) expect(one.centre[i]).toBeCloseTo([u, v][i]!, 6);
    }),
  );
});

it('knows no circle where it is cut askew', () => {
  // A round duct that a wall crosses at 60°: an ellipse twice as long as wide.
  expect(circleOf(mapOutline(circle(320), { origin: [0, 0], x: [2, 0], y: [0, 1] }))).toBeNull();
});

it('makes areas as large as its determinant says, counter-clockwise', () => {
  const map = { origin: [5, 7], x: [2, 1], y: [1, -3] } as const;
  // |2 · −3 − 1 · 1| = 7, by hand.
  expect(area(mapOutline(rectangle(40, 30), map))).toBeCloseTo(7 * 1200, 6);
  expect(signedArea(mapOutline(rectangle(40, 30), map))).toBeGreaterThan(0);
});
