import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitShape, sizeAlong } from '../../src/geometry/fit.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { Polygon, Vec2 } from '../../src/model.js';

const turned = (p: Polygon, angle: number, [dx, dy]: Vec2 = [0, 0]): Polygon =>
  p.map(
    ([x, y]): Vec2 => [x * Math.cos(angle) - y * Math.sin(angle) + dx, x * Math.sin(angle) + y * Math.cos(angle) + dy],
  );
const ngon = (n: number, d: number): Polygon =>
  Array.from(
    { length: n },
    (_, i): Vec2 => [(d / 2) * Math.cos((2 * Math.PI * i) / n), (d / 2) * Math.sin((2 * Math.PI * i) / n)],
  );
const oval = (w: number, h: number): Polygon =>
  circle(h).map(([x, y]): Vec2 => [x + (x >= 0 ? 1 : -1) * ((w - h) / 2), y]);

describe('fitShape', () => {
  it('knows rectangles in any turn and place, to a millionth of a millimetre', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 3000 }),
        fc.integer({ min: 100, max: 3000 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.integer({ min: -1e5, max: 1e5 }),
        (w, h, angle, at) => {
          const fit = fitShape(turned(rectangle(w, h), angle, [at, -at]));
          expect(fit.shape).toBe('rectangular');
          expect([fit.length, fit.breadth]).toEqual([
            expect.closeTo(Math.max(w, h), 6),
            expect.closeTo(Math.min(w, h), 6),
          ]);
          expect(fit.centre[0]).toBeCloseTo(at, 6);
          expect(sizeAlong(fit, [Math.cos(angle), Math.sin(angle)])).toBeCloseTo(w, 6);
        },
      ),
      { seed: 20261125 },
    );
  });

  it.each([11, 12, 24, 48, 128])('takes a circle of %i sides for the true circle through its corners', (n) => {
    const fit = fitShape(turned(ngon(n, 300), 0.1, [5000, 70]));
    expect(fit.shape).toBe('circular');
    expect(fit.length).toBeCloseTo(300, 6);
    expect(fit.residual).toBeLessThan(1e-6);
  });

  it('knows flat ovals', () => {
    const fit = fitShape(turned(oval(600, 300), 0.7));
    expect(fit.shape).toBe('oval');
    expect(fit.length).toBeCloseTo(600, 1);
    expect(fit.breadth).toBeCloseTo(300, 1);
  });

  it.each([0.5, 3, 30])('knows a rectangle whose corners are rounded by %d mm', (r) => {
    const corner = (x: number, y: number, from: number): Vec2[] =>
      Array.from({ length: 7 }, (_, i): Vec2 => {
        const a = ((from + i / 6) * Math.PI) / 2;
        return [x + r * Math.cos(a), y + r * Math.sin(a)];
      });
    const [w, h] = [300 - r, 200 - r];
    const outline = [...corner(w, h, 0), ...corner(-w, h, 1), ...corner(-w, -h, 2), ...corner(w, -h, 3)];
    expect(fitShape(outline)).toMatchObject({ shape: 'rectangular', length: 600, breadth: 400 });
  });

  it('says how far the chords of a coarse circle lie within the true one: r · (1 − cos(π/n))', () => {
    expect(fitShape(ngon(12, 400)).chord).toBeCloseTo(200 * (1 - Math.cos(Math.PI / 12)), 6);
    expect(fitShape(rectangle(600, 400)).chord).toBeCloseTo(0, 6);
  });

  it.each<[string, Polygon]>([
    [
      'an L',
      [
        [0, 0],
        [600, 0],
        [600, 200],
        [200, 200],
        [200, 600],
        [0, 600],
      ],
    ],
    [
      'a triangle',
      [
        [0, 0],
        [600, 0],
        [0, 400],
      ],
    ],
    ['an octagon', ngon(8, 500)],
    ['an ellipse', ngon(48, 500).map(([x, y]): Vec2 => [x, y * 0.6])],
  ])('gives no size to %s', (_, outline) => {
    expect(fitShape(outline).shape).toBe('unknown');
  });
});
