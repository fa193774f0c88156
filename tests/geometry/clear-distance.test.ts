/**
 * Clear distances against closed forms, in random positions, and against an outside judge, the general
 * library manifold-3d.
 */
import Module from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { clearDistance } from '../../src/geometry/clear-distance.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import { add, cross, distance, scale, sub, unit } from '../../src/geometry/vector.js';
import type { Body, Frame, Mesh, Polygon, Prism, Vec3 } from '../../src/model.js';

/** Park and Miller's minimal standard generator, so that every run draws the same. */
let state = 20261126;
const random = (from = 0, to = 1): number => {
  state = (state * 48271) % 2147483647;
  return from + ((to - from) * state) / 2147483647;
};
const anyDirection = (): Vec3 => {
  for (;;) {
    const d: Vec3 = [random(-1, 1), random(-1, 1), random(-1, 1)];
    const n = Math.hypot(...d);
    if (n > 0.1 && n < 1) return scale(d, 1 / n);
  }
};
function anyFrame(): Frame {
  const z = anyDirection();
  const x = unit(cross(z, anyDirection()));
  return { origin: [random(-1e4, 1e4), random(-1e4, 1e4), random(-1e4, 1e4)], x, y: cross(z, x), z };
}
const placed = (f: Frame, p: Vec3): Vec3 =>
  add(f.origin, add(scale(f.x, p[0]), add(scale(f.y, p[1]), scale(f.z, p[2]))));
const turned = (f: Frame, d: Vec3): Vec3 => sub(placed(f, d), f.origin);

/** From `at` (the middle of its foot) along z, placed in a frame. */
const prism = (outline: Polygon, at: Frame, height: number, world: Frame): Prism => ({
  kind: 'prism',
  frame: { origin: placed(world, at.origin), x: turned(world, at.x), y: turned(world, at.y), z: turned(world, at.z) },
  outline,
  voids: [],
  sweep: turned(world, scale(at.z, height)),
});
const standing = (origin: Vec3): Frame => ({ origin, x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
const lying = (origin: Vec3): Frame => ({ origin, x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] });

const between = (a: Body, b: Body): number => {
  const found = clearDistance(a, b)!;
  // What is said of the places must agree with the distance.
  expect(Math.abs(distance(...found.points) - found.distance)).toBeLessThan(1e-6);
  expect(clearDistance(b, a)!.distance).toBeCloseTo(found.distance, 6);
  return found.distance;
};

describe('clear distance by closed forms, 10 random pairs each', () => {
  let worst = 0;
  const hold = (found: number, truth: number, within: number) => {
    worst = Math.max(worst, Math.abs(found - truth));
    expect(Math.abs(found - truth)).toBeLessThan(within);
  };
  const each = (draw: () => void) => {
    worst = 0;
    for (let i = 0; i < 10; i++) draw();
    return worst;
  };

  it('box over box, and box beside a corner of a box', () => {
    each(() => {
      const world = anyFrame();
      const [w, d, h, gap, aside] = [random(50, 900), random(50, 900), random(50, 900), random(1, 400), random(0, 400)];
      const low = prism(rectangle(w, d), standing([0, 0, 0]), h, world);
      const high = prism(rectangle(w, d), standing([w + aside, 0, h + gap]), h, world);
      hold(between(low, high), Math.hypot(aside, gap), 1e-6);
    });
  });

  it('corner of a turned box over a face', () => {
    each(() => {
      const world = anyFrame();
      const gap = random(1, 400);
      const face = prism(rectangle(4000, 4000), standing([0, 0, -100]), 100, world);
      const tilted = anyFrame();
      const box = prism(rectangle(300, 200), standing([0, 0, 0]), 250, { ...tilted, origin: [0, 0, 0] });
      const lowest = corners(box).reduce((least, p) => Math.min(least, p[2]), Infinity);
      const raise = (p: Vec3): Vec3 => [p[0], p[1], p[2] - lowest + gap];
      const at = { ...box.frame, origin: raise(box.frame.origin) };
      const raised: Prism = {
        ...box,
        frame: {
          origin: placed(world, at.origin),
          x: turned(world, at.x),
          y: turned(world, at.y),
          z: turned(world, at.z),
        },
        sweep: turned(world, box.sweep),
      };
      hold(between(face, raised), gap, 1e-6);
    });
  });

  it('cylinder over box: to 0.01 mm, the sagitta that circles are drawn with', () => {
    const off = each(() => {
      const world = anyFrame();
      const [r, gap] = [random(20, 700), random(1, 400)];
      const box = prism(rectangle(3000, 3000), standing([0, 0, -200]), 200, world);
      const pipe = prism(circle(2 * r), lying([-400, 0, r + gap]), 800, world);
      hold(between(box, pipe), gap, 0.0101);
    });
    expect(off).toBeGreaterThan(0);
  });

  it('cylinder crossing over cylinder at any angle', () => {
    each(() => {
      // Along an axis: boxes round the facets of a long round body that lies askew tell nothing, which costs seconds.
      const world = standing([random(-1e4, 1e4), random(-1e4, 1e4), random(-1e4, 1e4)]);
      const [r, s, gap, angle] = [random(20, 300), random(20, 300), random(1, 400), random(0.1, Math.PI - 0.1)];
      const low = prism(circle(2 * r), lying([-500, 0, 0]), 1000, world);
      const [c, n] = [Math.cos(angle), Math.sin(angle)];
      const across: Frame = { origin: [-500 * c, -500 * n, r + s + gap], x: [-n, c, 0], y: [0, 0, 1], z: [c, n, 0] };
      hold(between(low, prism(circle(2 * s), across, 1000, world)), gap, 0.0201);
    });
  });

  it('says what is inside', () => {
    const world = anyFrame();
    const outer = prism(rectangle(1000, 1000), standing([0, 0, 0]), 1000, world);
    const inner = prism(circle(100), standing([0, 0, 400]), 100, world);
    for (const pair of [
      [outer, inner],
      [inner, outer],
    ] as const)
      expect(clearDistance(...pair)).toMatchObject({ distance: 0, isInside: true });
    const through = prism(circle(100), standing([0, 0, -400]), 2000, world);
    expect(clearDistance(outer, through)).toMatchObject({ distance: 0, isInside: false });
  });

  it('leaves out what is further than what is asked for', () => {
    const world = anyFrame();
    const [a, b] = [0, 500].map((z) => prism(rectangle(100, 100), standing([0, 0, z]), 100, world)) as [Prism, Prism];
    expect(clearDistance(a, b, 399)).toBeUndefined();
    expect(clearDistance(a, b, 401)!.distance).toBeCloseTo(400, 6);
  });
});

const corners = ({ frame, outline, sweep }: Prism): Vec3[] =>
  outline.flatMap(([x, y]) => {
    const p = add(frame.origin, add(scale(frame.x, x), scale(frame.y, y)));
    return [p, add(p, sweep)];
  });

// ---------------------------------------------------------------------------------------------------------- the judge

/** A closed lump: an octahedron pulled about, wound outwards. */
function lump(at: Vec3): Mesh {
  const tips: Vec3[] = [0, 1, 2].flatMap((i) =>
    [1, -1].map((s): Vec3 => {
      const p: [number, number, number] = [random(-40, 40), random(-40, 40), random(-40, 40)];
      p[i] = s * random(80, 300);
      return add(at, p);
    }),
  );
  const faces = [0, 1].flatMap((x) =>
    [2, 3].flatMap((y) => [4, 5].map((z) => ((x + y + z) % 2 === 0 ? [x, y, z] : [x, z, y]))),
  );
  return { kind: 'mesh', positions: Float64Array.from(tips.flat()), triangles: Uint32Array.from(faces.flat()) };
}

/** manifold-3d's least gap between two closed solids; it keeps single precision, so bodies stand near the origin. */
async function judge(): Promise<(a: Body, b: Body) => number> {
  const library = await Module();
  library.setup();
  const solid = (body: Body) => {
    const { positions, triangles } = body.kind === 'mesh' ? body : prismMesh(body);
    const mesh = new library.Mesh({ numProp: 3, vertProperties: Float32Array.from(positions), triVerts: triangles });
    return new library.Manifold(mesh);
  };
  return (a, b) => {
    const [p, q] = [solid(a), solid(b)];
    const gap = p.minGap(q, 5000);
    p.delete();
    q.delete();
    return gap;
  };
}

describe('clear distance against manifold-3d, which compares solids', () => {
  it.each([
    ['mesh and mesh', (): [Body, Body] => [lump([0, 0, 0]), lump(scale(anyDirection(), random(650, 900)))]],
    [
      'mesh and prism',
      (): [Body, Body] => [
        lump([0, 0, 0]),
        prism(rectangle(200, 120), standing([0, 0, 0]), 300, { ...anyFrame(), origin: scale(anyDirection(), 800) }),
      ],
    ],
  ])('%s', async (_, draw) => {
    const gapOf = await judge();
    for (let i = 0; i < 25; i++) {
      const [a, b] = draw();
      expect(Math.abs(between(a, b) - gapOf(a, b))).toBeLessThan(0.01);
    }
  });
});
