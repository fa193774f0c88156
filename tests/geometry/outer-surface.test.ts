/** Surfaces between open ends, against closed forms. Drawn as models are read: chords within SWEPT_SAGITTA of true arcs. */
import { describe, expect, it } from 'vitest';
import { loft, type Ring } from '../../src/geometry/loft.js';
import { outerSurface } from '../../src/geometry/outer-surface.js';
import { chordsFor, circle, rectangle } from '../../src/geometry/polygon.js';
import type { Body, Mesh, Polygon, Prism, Vec3 } from '../../src/model.js';
import { SWEPT_SAGITTA } from '../../src/tolerances.js';

const REACH = 10;
const round = (d: number): Polygon => circle(d, [0, 0], (r, angle) => chordsFor(r, angle, SWEPT_SAGITTA));
const open = (...places: Vec3[]) => places.map((at) => ({ at, joined: undefined }));
const areaOf = (body: Body, ends: Parameters<typeof outerSurface>[1]): number => {
  const found = outerSurface(body, ends, REACH);
  if (typeof found === 'string') throw new Error(found);
  return found.area;
};

/** A profile turned about the y axis through an angle; its middle at the radius. */
function bend(outline: Polygon, radius: number, angle: number, voids: readonly Polygon[] = []): Mesh {
  const far = radius + Math.max(...outline.map(([x]) => x));
  const steps = chordsFor(far, angle, SWEPT_SAGITTA);
  const rings = Array.from({ length: steps + 1 }, (_, k): Ring => {
    const t = (angle * k) / steps;
    const turn = (p: Polygon): Vec3[] =>
      p.map(([x, y]) => [(radius + x) * Math.cos(t), y, (radius + x) * Math.sin(t)] as const);
    return { outline: turn(outline), voids: voids.map(turn) };
  });
  return loft({ outline, voids }, rings);
}
const bendEnds = (radius: number, angle: number) =>
  open([radius, 0, 0], [radius * Math.cos(angle), 0, radius * Math.sin(angle)]);

describe('a bend', () => {
  // Pappus: a closed line of length U carried square to an arc of radius R through θ sweeps U·R·θ.
  it.each([
    ['rectangle 600 x 400', rectangle(600, 400), 2000, 450, Math.PI / 2],
    ['rectangle 600 x 400', rectangle(600, 400), 2000, 450, Math.PI],
    ['rectangle 200 x 800', rectangle(200, 800), 2000, 300, Math.PI / 6],
    ['circle of 400', round(400), Math.PI * 400, 400, Math.PI / 2],
    ['circle of 400', round(400), Math.PI * 400, 300, Math.PI / 4],
  ])('of a %s, U %f, R %f, θ %f, is U·R·θ within 0.1 %%', (_, outline, around, radius, angle) => {
    const truth = around * radius * angle;
    expect(Math.abs(areaOf(bend(outline, radius, angle), bendEnds(radius, angle)) / truth - 1)).toBeLessThan(0.001);
  });

  it('of 2 mm sheet that is drawn hollow counts outside alone', () => {
    const [radius, angle] = [450, Math.PI / 2];
    const hollow = bend(rectangle(600, 400), radius, angle, [rectangle(596, 396)]);
    expect(areaOf(hollow, bendEnds(radius, angle)) / (2000 * radius * angle)).toBeCloseTo(1, 3);
  });

  it('is not measured where an end is not known, or its surface has gaps', () => {
    const whole = bend(rectangle(600, 400), 450, Math.PI / 2);
    expect(outerSurface(whole, open([450, 0, 0], [0, 0, 900]), REACH)).toBe('end');
    const gap: Mesh = { ...whole, triangles: whole.triangles.slice(3) };
    expect(outerSurface(gap, bendEnds(450, Math.PI / 2), REACH)).toBe('open');
  });
});

describe('a transition', () => {
  const between = (from: Polygon, to: Polygon, length: number): Mesh => {
    const ring = (p: Polygon, z: number): Ring => ({ outline: p.map(([x, y]) => [x, y, z] as const), voids: [] });
    return loft({ outline: from, voids: [] }, [ring(from, 0), ring(to, length)]);
  };

  it('from 600 x 400 to 300 x 200 over 500 mm is four trapezoids, to 1 mm²', () => {
    // Over and under: (600 + 300)/2 · √(500² + 100²) each; the sides: (400 + 200)/2 · √(500² + 150²) each.
    const truth = 2 * 450 * Math.hypot(500, 100) + 2 * 300 * Math.hypot(500, 150);
    const mesh = between(rectangle(600, 400), rectangle(300, 200), 500);
    expect(Math.abs(areaOf(mesh, open([0, 0, 0], [0, 0, 500])) - truth)).toBeLessThan(1);
  });

  it('from ø 400 to ø 250 over 300 mm is the side of a cone: π·(R + r)·s, within 0.1 %', () => {
    const round = (d: number): Polygon =>
      Array.from({ length: 192 }, (_, i) => [
        (d / 2) * Math.cos((2 * Math.PI * i) / 192),
        (d / 2) * Math.sin((2 * Math.PI * i) / 192),
      ]);
    const truth = Math.PI * (200 + 125) * Math.hypot(300, 75);
    const mesh = between(round(400), round(250), 300);
    expect(Math.abs(areaOf(mesh, open([0, 0, 0], [0, 0, 300])) / truth - 1)).toBeLessThan(0.001);
  });
});

describe('a tee', () => {
  /** Seen from above; 400 high. */
  const above = (outline: Polygon): Prism => ({
    kind: 'prism',
    frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
    ...{ outline, voids: [], sweep: [0, 0, 400] },
  });

  it('with a stub is its two flat sides and what lies between its ends, to 1 mm²', () => {
    // Main 1000 long and 600 wide, stub 300 wide and 200 long.
    const tee = above([
      [0, 0],
      [1000, 0],
      [1000, 600],
      [650, 600],
      [650, 800],
      [350, 800],
      [350, 600],
      [0, 600],
    ]);
    const truth = 2 * (1000 * 600 + 300 * 200) + 400 * (1000 + (1000 - 300) + 2 * 200);
    expect(Math.abs(areaOf(tee, open([0, 300, 200], [1000, 300, 200], [500, 800, 200])) - truth)).toBeLessThan(1);
  });

  it('without one loses only the section of what joins its side, to 1 mm²', () => {
    const box = above([
      [0, 0],
      [1000, 0],
      [1000, 600],
      [0, 600],
    ]);
    const ends = [...open([0, 300, 200], [1000, 300, 200]), { at: [500, 600, 200] as const, joined: 300 * 200 }];
    expect(Math.abs(areaOf(box, ends) - (2 * 1000 * (600 + 400) - 300 * 200))).toBeLessThan(1);
  });

  it('a cap has one open end, to 1 mm²', () => {
    const cap = above(rectangle(600, 100));
    expect(Math.abs(areaOf(cap, open([0, 50, 200])) - (2 * (600 * 100) + 400 * (600 + 2 * 100)))).toBeLessThan(1);
  });
});
