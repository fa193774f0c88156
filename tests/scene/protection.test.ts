/** Shells of protection against volumes and sizes in closed form. */
import { describe, expect, it } from 'vitest';
import { fitShape } from '../../src/geometry/fit.js';
import { WORLD } from '../../src/geometry/frame.js';
import { isClosed, volumeOf } from '../../src/geometry/mesh.js';
import { area, circle, rectangle } from '../../src/geometry/polygon.js';
import type { AirElement, Body, Polygon, Vec3 } from '../../src/model.js';
import { fittingShell, fittingSurface } from '../../src/scene/protection/fitting-shell.js';
import { ringOf } from '../../src/scene/protection/rings.js';
import { plate, swept } from '../../src/scene/protection/solids.js';
import { type EndPlane, straightSheet, straightShell } from '../../src/scene/protection/straight-shell.js';

const piece = (
  bodies: readonly Body[],
  kind: AirElement['kind'] = 'segment',
  ports: readonly Vec3[] = [],
): AirElement => ({
  ...{ model: 'm1', globalId: 'piece', name: 'Piece', entity: 'IFCDUCTSEGMENT', storey: undefined, bodies, kind },
  ports: ports.map((at, i) => ({ globalId: `port ${i}`, at, connectedTo: undefined })),
  ...{ evidence: '', system: undefined, systemType: undefined, material: 'steel', stated: {}, damper: undefined },
});

/** Along x, from 0 to 1000; width along y. */
const LEVEL = { origin: [0, 0, 0], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] } as const;
const duct = (outline: Polygon): AirElement =>
  piece([{ kind: 'prism', frame: LEVEL, outline, voids: [], sweep: [1000, 0, 0] }]);
const SQUARE: readonly [EndPlane, EndPlane] = [
  { at: [0, 0, 0], normal: [1, 0, 0] },
  { at: [1000, 0, 0], normal: [1, 0, 0] },
];
const shellOf = (element: AirElement, layer: Parameters<typeof straightShell>[2], ends = SQUARE) => {
  const sheet = straightSheet(element, [0, 0, 0], [1000, 0, 0])!;
  const shape = straightShell(sheet, ends, layer)!;
  return { ...shape, kind: 'mesh' as const };
};
const reach = ({ positions }: { readonly positions: ArrayLike<number> }, axis: 0 | 1 | 2): [number, number] => {
  const values = Array.from({ length: positions.length / 3 }, (_, i) => positions[3 * i + axis]!);
  return [Math.min(...values), Math.max(...values)];
};

describe('a layer round a straight piece', () => {
  it('of a rectangular duct is closed, and holds what lies between two boxes', () => {
    const shell = shellOf(duct(rectangle(600, 400)), { inner: 38, outer: 76, bare: null });
    expect(isClosed(shell)).toBe(true);
    expect(reach(shell, 1)).toEqual([-376, 376]);
    expect(reach(shell, 2)).toEqual([-276, 276]);
    expect(volumeOf(shell)).toBeCloseTo((752 * 552 - 676 * 476) * 1000, 0);
    expect(shell.triangles.length / 3).toBe(32);
  });

  it('of a circular duct has its corners on the true circles', () => {
    const shell = shellOf(duct(circle(315)), { inner: 0, outer: 40, bare: null });
    expect(isClosed(shell)).toBe(true);
    expect(reach(shell, 1)[1]).toBeCloseTo(315 / 2 + 40, 6);
    // A polygon of 32 sides has sin(2π/32) / (2π/32) of the area of its circle.
    const share = Math.sin(Math.PI / 16) / (Math.PI / 16);
    expect(volumeOf(shell)).toBeCloseTo((Math.PI / 4) * (395 ** 2 - 315 ** 2) * 1000 * share, -2);
  });

  it('of a flat oval keeps its straight sides', () => {
    const fit = { ...fitShape(circle(400)), shape: 'oval' as const, length: 900, breadth: 400, along: [1, 0] as const };
    const ring = ringOf(fit, { by: 30 });
    expect(Math.max(...ring.map(([x]) => x)) - Math.min(...ring.map(([x]) => x))).toBeCloseTo(960, 9);
    const share = Math.sin(Math.PI / 16) / (Math.PI / 16);
    expect(area(ring)).toBeCloseTo((Math.PI / 4) * 460 ** 2 * share + 500 * 460, 3);
    expect(ringOf(fit, { by: 0 })).toHaveLength(ring.length);
  });

  it('against a slab leaves out the top', () => {
    const shell = shellOf(duct(rectangle(600, 400)), { inner: 0, outer: 40, bare: 'top' });
    expect(isClosed(shell)).toBe(true);
    expect(reach(shell, 2)).toEqual([-240, 200]);
    expect(volumeOf(shell)).toBeCloseTo((680 * 440 - 600 * 400) * 1000, 0);
  });

  it('is cut off askew where the barrier is', () => {
    const leaning: EndPlane = { at: [900, 0, 0], normal: [Math.SQRT1_2, Math.SQRT1_2, 0] };
    const shell = shellOf(duct(rectangle(600, 400)), { inner: 0, outer: 40, bare: null }, [SQUARE[0], leaning]);
    // The plane rises by as much as it goes aside, so the length at the middle counts.
    expect(volumeOf(shell)).toBeCloseTo((680 * 480 - 600 * 400) * 900, 0);
    expect(reach(shell, 0)).toEqual([0, 1240]);
  });

  it('is nothing where both ends lie within each other', () => {
    const sheet = straightSheet(duct(rectangle(600, 400)), [0, 0, 0], [1000, 0, 0])!;
    const ends = [
      { ...SQUARE[0], at: [600, 0, 0] as const },
      { ...SQUARE[1], at: [500, 0, 0] as const },
    ] as const;
    expect(straightShell(sheet, ends, { inner: 0, outer: 40, bare: null })).toBeNull();
  });
});

describe('a layer round what is not straight', () => {
  /** A square elbow: legs 400 wide and 300 high, from x = 0 to the corner and on to y = 1000. */
  const L: Polygon = [
    [0, 0],
    [1000, 0],
    [1000, 1000],
    [600, 1000],
    [600, 400],
    [0, 400],
  ];
  const elbow = piece([{ kind: 'prism', frame: WORLD, outline: L, voids: [], sweep: [0, 0, 300] }], 'fitting', [
    [0, 200, 150],
    [800, 1000, 150],
  ]);

  it('of flat sides is exact: ends stay in their planes, corners are square', () => {
    const surface = fittingSurface(elbow, [])!;
    const shell = fittingShell(surface, 10, 40);
    expect(isClosed(shell)).toBe(true);
    expect(reach(shell, 0)).toEqual([0, expect.closeTo(1040, 3)]);
    expect(reach(shell, 1)).toEqual([expect.closeTo(-40, 3), 1000]);
    expect(reach(shell, 2)).toEqual([expect.closeTo(-40, 3), expect.closeTo(340, 3)]);
    // Grown by t between its ends the elbow on plan is two strips 400 + 2t wide that meet in a square corner.
    const plan = (t: number): number => (400 + 2 * t) * (600 - t) * 2 + (400 + 2 * t) ** 2;
    const wanted = plan(40) * 380 - plan(10) * 320;
    expect(Math.abs(volumeOf(shell) / wanted - 1)).toBeLessThan(1e-5);
  });

  it('is unknown where its ends are', () => {
    expect(fittingSurface(piece([{ ...elbow.bodies[0]! }], 'fitting', [[5000, 0, 0]]), [])).toBeUndefined();
  });
});

describe('what is built at faces', () => {
  const fit = fitShape(rectangle(600, 400));
  const PROFILE: Polygon = [
    [0, 0],
    [40, 0],
    [40, 3],
    [3, 3],
    [3, 40],
    [0, 40],
  ];
  const place = ([along, u]: readonly [number, number], corner: number): Vec3 => [
    ...ringOf(fit, { by: u })[corner]!,
    along,
  ];

  it('goes round with square corners, as much steel as its legs lie round the duct', () => {
    const ring = swept({ profile: PROFILE, place, corners: 4, goesAlong: () => true })!;
    expect(isClosed({ kind: 'mesh', ...ring })).toBe(true);
    // Each strip of a leg from u to v round the duct: (600 + 2v)(400 + 2v) − (600 + 2u)(400 + 2u).
    const round = (v: number): number => (600 + 2 * v) * (400 + 2 * v);
    const wanted = (round(3) - round(0)) * 40 + (round(40) - round(3)) * 3;
    expect(volumeOf({ ...ring })).toBeCloseTo(wanted, 3);
  });

  it('is closed off where it does not go on', () => {
    const bars = swept({ profile: PROFILE, place, corners: 4, goesAlong: (edge) => edge % 2 === 0 })!;
    expect(isClosed({ kind: 'mesh', ...bars })).toBe(true);
    // Mitred: along its middle each bar is as long as the side and the mean of its ends.
    const wanted = 2 * ((600 + 3) * 3 * 40 + (600 + 43) * 37 * 3);
    expect(volumeOf({ ...bars })).toBeCloseTo(wanted, 3);
  });

  it('fills an opening beside the ducts in it', () => {
    const hole = [...rectangle(600, 400)].reverse();
    const fill = plate([rectangle(700, 500), hole], ([x, y], end) => [x, y, 100 * end])!;
    expect(volumeOf(fill)).toBeCloseTo((700 * 500 - 600 * 400) * 100, 0);
    expect(plate([], () => [0, 0, 0])).toBeNull();
  });
});
