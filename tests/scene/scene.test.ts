import { describe, expect, it } from 'vitest';
import { WORLD } from '../../src/geometry/frame.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import { cross, dot } from '../../src/geometry/vector.js';
import type { Prism, Vec3 } from '../../src/model.js';
import { sceneOf } from '../../src/scene/scene.js';
import { type Triangles, triangulate } from '../../src/scene/triangulate.js';
import { reviewOneWall } from '../one-wall.js';

const prism = (change: Partial<Prism> = {}): Prism => ({
  kind: 'prism',
  frame: WORLD,
  outline: rectangle(600, 400),
  voids: [],
  sweep: [0, 0, 1000],
  ...change,
});

/** By the divergence theorem: right only where the triangles close and look outwards. */
function enclosedVolume({ positions, triangles }: Triangles): number {
  const at = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  let sum = 0;
  for (let f = 0; f < triangles.length; f += 3)
    sum += dot(at(triangles[f]!), cross(at(triangles[f + 1]!), at(triangles[f + 2]!)));
  return sum / 6;
}

describe('a prism as triangles closes, looks outwards and holds the volume of its closed form', () => {
  it.each([
    ['a box', prism(), 600 * 400 * 1000],
    ['an outline drawn clockwise', prism({ outline: [...rectangle(600, 400)].reverse() }), 600 * 400 * 1000],
    ['a sweep against the normal', prism({ sweep: [0, 0, -1000] }), 600 * 400 * 1000],
    ['a sweep out of square', prism({ sweep: [500, 200, 1000] }), 600 * 400 * 1000],
    ['a mirrored frame', prism({ frame: { ...WORLD, x: [-1, 0, 0] } }), 600 * 400 * 1000],
    ['a hollow duct', prism({ voids: [rectangle(598, 398)] }), (600 * 400 - 598 * 398) * 1000],
    ['a plate with two holes', prism({ voids: [circle(100, [-150, 0]), rectangle(50, 50)] }), null],
    [
      'an outline that turns back',
      prism({
        outline: [
          [0, 0],
          [900, 0],
          [900, 300],
          [300, 300],
          [300, 900],
          [0, 900],
        ],
      }),
      450_000 * 1000,
    ],
  ] as const)('%s', (_, body, volume) => {
    const got = enclosedVolume(triangulate([body]));
    if (volume !== null) expect(Math.abs(got - volume)).toBeLessThan(1e-3);
    // A circle of 100 mm: π/4 · 100² less what the chords cut off, below 0.02 % at a sagitta of 0.01 mm.
    else expect(got / ((600 * 400 - (Math.PI / 4) * 100 ** 2 - 50 * 50) * 1000)).toBeCloseTo(1, 4);
  });

  it('two bodies of one element become one mesh', () => {
    const both = triangulate([prism(), prism({ frame: { ...WORLD, origin: [5000, 0, 0] } })]);
    expect(Math.abs(enclosedVolume(both) - 2 * 600 * 400 * 1000)).toBeLessThan(1e-2);
    expect(Math.max(...both.triangles)).toBe(both.positions.length / 3 - 1);
  });
});

describe('the scene of a federation', () => {
  it('holds ducts, barriers and openings, and which barrier an opening is in', async () => {
    const { federation } = await reviewOneWall();
    const { elements, origin } = sceneOf(federation);
    expect(elements.map((e) => e.kind).sort()).toEqual(['barrier', 'duct', 'opening']);
    const barrier = elements.find((e) => e.kind === 'barrier')!;
    expect(elements.find((e) => e.kind === 'opening')!.host).toEqual({ model: 'm1', globalId: barrier.globalId });
    expect(origin).toEqual(federation.origin);
    for (const { positions, box } of elements) {
      expect(positions.every(Number.isFinite)).toBe(true);
      expect(box.min.every((v, i) => v < box.max[i]!)).toBe(true);
    }
  });

  it('leaves out what is far from every place', async () => {
    const { federation } = await reviewOneWall();
    expect(sceneOf(federation, [[1e6, 0, 0]], 1000).elements).toEqual([]);
    expect(sceneOf(federation, [[0, 0, 2000]], 20_000).elements.length).toBe(3);
  });
});
