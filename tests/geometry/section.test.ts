import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../src/geometry/frame.js';
import { area, circle, rectangle } from '../../src/geometry/polygon.js';
import { cutBody } from '../../src/geometry/section.js';
import { unit } from '../../src/geometry/vector.js';
import type { Mesh, Prism, Vec3 } from '../../src/model.js';

const box = (x: number, y: number, z: number): Prism => ({
  kind: 'prism',
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  outline: rectangle(x, y),
  voids: [],
  sweep: [0, 0, z],
});

/** The same box as 12 triangles: a second way to the same cut. */
function boxMesh(x: number, y: number, z: number): Mesh {
  const corners: Vec3[] = [];
  for (const h of [0, z]) for (const [u, v] of rectangle(x, y)) corners.push([u, v, h]);
  const quads = [
    [3, 2, 1, 0],
    [4, 5, 6, 7],
    [0, 1, 5, 4],
    [1, 2, 6, 5],
    [2, 3, 7, 6],
    [3, 0, 4, 7],
  ] as const;
  return {
    kind: 'mesh',
    positions: Float64Array.from(corners.flat()),
    triangles: Uint32Array.from(quads.flatMap(([a, b, c, d]) => [a, b, c, a, c, d])),
  };
}

const areaOf = (body: Prism | Mesh, at: Vec3, normal: Vec3): number =>
  cutBody(body, frameAlong(at, normal, [0.3, 0.5, 0.8])).outers.reduce((sum, p) => sum + area(p), 0);

describe('cutting a prism', () => {
  it('square to it gives the profile, oblique to it profile / cos', () => {
    expect(areaOf(box(600, 400, 2000), [0, 0, 1000], [0, 0, 1])).toBeCloseTo(240_000, 6);
    const angle = (25 * Math.PI) / 180;
    expect(areaOf(box(600, 400, 2000), [0, 0, 1000], [Math.sin(angle), 0, Math.cos(angle)])).toBeCloseTo(
      240_000 / Math.cos(angle),
      5,
    );
  });

  it('along it gives a strip, beside it nothing', () => {
    expect(areaOf(box(600, 400, 2000), [0, 0, 0], [0, 1, 0])).toBeCloseTo(600 * 2000, 6);
    expect(areaOf(box(600, 400, 2000), [0, 300, 0], [0, 1, 0])).toBe(0);
    expect(areaOf(box(600, 400, 2000), [0, 0, 2001], [0, 0, 1])).toBe(0);
  });

  it('keeps voids apart', () => {
    const cut = cutBody({ ...box(600, 400, 2000), voids: [circle(100)] }, frameAlong([0, 0, 5], [0, 0, 1], [1, 0, 0]));
    expect(cut.outers.length).toBe(1);
    expect(area(cut.holes[0]!)).toBeCloseTo(area(circle(100)), 6);
  });

  it('agrees with the cut of its mesh for any plane', () => {
    const part = fc.integer({ min: -100, max: 100 });
    fc.assert(
      fc.property(part, part, part, fc.integer({ min: -150, max: 650 }), (a, b, c, h) => {
        fc.pre(Math.hypot(a, b, c) > 1);
        const normal = unit([a, b, c]);
        const at: Vec3 = [17, -11, h + 0.123];
        expect(areaOf(box(600, 400, 500), at, normal)).toBeCloseTo(areaOf(boxMesh(600, 400, 500), at, normal), 3);
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });
});

describe('cutting a mesh', () => {
  it('sees a tube as an outline with a hole, whichever way its triangles are wound', () => {
    const outer = boxMesh(600, 400, 1000);
    const inner = boxMesh(560, 360, 1000);
    const n = outer.positions.length / 3;
    const tube: Mesh = {
      kind: 'mesh',
      positions: Float64Array.from([...outer.positions, ...inner.positions]),
      triangles: Uint32Array.from([...outer.triangles, ...[...inner.triangles].map((i) => i + n)]),
    };
    const cut = cutBody(tube, frameAlong([0, 0, 500], [0, 0, 1], [1, 0, 0]));
    expect(cut.outers.map(area)).toEqual([expect.closeTo(240_000, 6)]);
    expect(cut.holes.map(area)).toEqual([expect.closeTo(560 * 360, 6)]);
  });

  it('closes the outline of a mesh that lacks a triangle', () => {
    const open = boxMesh(600, 400, 1000);
    const cut = cutBody(
      { ...open, triangles: open.triangles.slice(0, -3) },
      frameAlong([0, 0, 500], [0, 0, 1], [1, 0, 0]),
    );
    expect(cut.outers.map(area)).toEqual([expect.closeTo(240_000, -3)]);
  });
});
