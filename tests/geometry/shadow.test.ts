/** What bodies cover on plan, against closed forms. */
import { expect, it } from 'vitest';
import { totalArea } from '../../src/geometry/areas.js';
import { WORLD } from '../../src/geometry/frame.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import { shadowOf } from '../../src/geometry/shadow.js';
import type { Frame, Mesh, Prism, Vec3 } from '../../src/model.js';

/** Its profile stands upright and looks along +x. */
const LYING: Frame = { origin: [0, 0, 0], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] };
const prism = (change: Partial<Prism>): Prism => ({
  ...{ kind: 'prism', frame: LYING, outline: rectangle(600, 400), voids: [], sweep: [5000, 0, 0] },
  ...change,
});

it.each([
  ['a duct that lies', prism({}), 600 * 5000],
  ['a hollow one', prism({ voids: [rectangle(598, 398)] }), 600 * 5000],
  ['a round one', prism({ outline: circle(315) }), 315 * 5000],
  ['one that rises 3 in 4', prism({ sweep: [4000, 0, 3000] }), 600 * 4000],
  [
    'a plate with a hole',
    prism({ frame: WORLD, sweep: [0, 0, 200], voids: [rectangle(100, 100)] }),
    600 * 400 - 10_000,
  ],
  // Leant by as much as its hole is wide, so nothing of it stays open.
  [
    'a leaning plate whose hole shows nothing',
    prism({ frame: WORLD, sweep: [100, 0, 200], voids: [rectangle(100, 100)] }),
    700 * 400,
  ],
])('%s', (_, body, area) => {
  // Coordinates are kept to 0.001 mm, along at most 12 m of edges.
  expect(Math.abs(totalArea(shadowOf([body])) - area)).toBeLessThan(12);
});

/** A bent tube, centre line of radius r through a quarter, its wall of triangles. */
function bend(diameter: number, r: number, sides: number, steps: number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  const at = (i: number, j: number): Vec3 => {
    const [along, round] = [(Math.PI / 2) * (i / steps), (2 * Math.PI * j) / sides];
    const out = r + (diameter / 2) * Math.cos(round);
    return [out * Math.cos(along), out * Math.sin(along), (diameter / 2) * Math.sin(round)];
  };
  for (let i = 0; i <= steps; i++) for (let j = 0; j < sides; j++) positions.push(...at(i, j));
  for (let i = 0; i < steps; i++)
    for (let j = 0; j < sides; j++) {
      const [a, b] = [i * sides + j, i * sides + ((j + 1) % sides)];
      triangles.push(a, b, b + sides, a, b + sides, a + sides);
    }
  return { kind: 'mesh', positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

it('a bend of thousands of triangles is a quarter of a ring, less its chords', () => {
  const [diameter, r, steps] = [400, 600, 90];
  const angle = Math.PI / 2 / steps;
  const ring = (radius: number): number => (steps * radius * radius * Math.sin(angle)) / 2;
  const area = ring(r + diameter / 2) - ring(r - diameter / 2);
  expect(Math.abs(totalArea(shadowOf([bend(diameter, r, 48, steps)])) - area)).toBeLessThan(12);
});
