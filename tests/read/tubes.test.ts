/** Solids swept along curves, against closed-form truth: the area times the length of the curve. */
import { describe, expect, it } from 'vitest';
import type { Context } from '../../fixtures/builder/context.js';
import { profile } from '../../fixtures/builder/shapes.js';
import { enumeration, int, type Ref, typed } from '../../fixtures/ifc-writer.js';
import { type Vec3, WORLD, Y, Z } from '../../fixtures/vectors.js';
import { fitShape } from '../../src/geometry/fit.js';
import { about, CHORDS, type Draw, read, round, section, volume } from './drawn-bodies.js';

const polyline = (c: Context, points: readonly Vec3[]): Ref =>
  c.step.add(
    'IfcPolyline',
    points.map((p) => c.point(p)),
  );
const disk =
  (directrix: (c: Context) => Ref, inner: number | null, params: readonly (number | null)[]): Draw =>
  (c) => ({
    type: 'AdvancedSweptSolid',
    item: c.step.add('IfcSweptDiskSolid', directrix(c), 200, inner, ...params),
  });
const DISK = Math.PI * 200 ** 2;

describe('swept disks', () => {
  const L: Vec3[] = [
    [0, 0, 0],
    [0, 0, 3000],
    [2000, 0, 3000],
  ];

  it('with a mitred corner: the area times the whole centre line', async () => {
    const { bodies } = await read(disk((c) => polyline(c, L), null, [null, null]));
    expect(volume(bodies)).toEqual(about(DISK * 5000, CHORDS));
  });

  it('between parameters: half the first leg, a quarter of the second', async () => {
    const { bodies } = await read(disk((c) => polyline(c, L), null, [0.5, 1.25]));
    expect(volume(bodies)).toEqual(about(DISK * (1500 + 500), CHORDS));
  });

  it('hollow', async () => {
    const { bodies } = await read(disk((c) => polyline(c, L), 190, [null, null]));
    expect(volume(bodies)).toEqual(about(Math.PI * (200 ** 2 - 190 ** 2) * 5000, 0.02));
  });

  it('polygonal, with a fillet: the corner is cut short', async () => {
    const radius = 600;
    const { bodies } = await read((c) => ({
      type: 'AdvancedSweptSolid',
      item: c.step.add('IfcSweptDiskSolidPolygonal', polyline(c, L), 200, null, null, null, radius),
    }));
    const line = 5000 - 2 * radius + (radius * Math.PI) / 2;
    expect(volume(bodies)).toEqual(about(DISK * line, CHORDS));
  });

  it.each(['IFC2X3', 'IFC4'] as const)(
    'on a line and an arc, from 0 to the number of segments, in %s',
    async (schema) => {
      const curve = (c: Context): Ref => {
        const vector = c.step.add('IfcVector', c.direction(Z), 1);
        const line = c.step.add('IfcLine', c.point([0, 0, 0]), vector);
        const parameter = (v: number) => [typed('IfcParameterValue', v)];
        const trim = (basis: Ref, a: number, b: number) =>
          c.step.add('IfcTrimmedCurve', basis, parameter(a), parameter(b), true, enumeration('PARAMETER'));
        const frame = { origin: [1000, 0, 2000] as Vec3, x: [-1, 0, 0] as Vec3, y: Z, z: Y };
        const circle = c.step.add('IfcCircle', c.axis3(frame), 1000);
        const segments = [trim(line, 0, 2000), trim(circle, 0, Math.PI / 2)].map((part) =>
          c.step.add('IfcCompositeCurveSegment', enumeration('CONTINUOUS'), true, part),
        );
        return c.step.add('IfcCompositeCurve', segments, false);
      };
      const got = await read(disk(curve, null, [0, 2]), schema);
      expect(volume(got.bodies)).toEqual(about(DISK * (2000 + (1000 * Math.PI) / 2), CHORDS));
      expect(fitShape(section(got, [0, 0, 1000], Z).outers[0]!).length).toBeCloseTo(400, 1);
    },
  );

  it('on an indexed curve with an arc', async () => {
    const curve = (c: Context): Ref => {
      const s = 1000 * Math.SQRT1_2;
      const points = [
        [0, 0, 0],
        [0, 0, 2000],
        [1000 - s, 0, 2000 + s],
        [1000, 0, 3000],
      ];
      const list = c.step.add('IfcCartesianPointList3D', points);
      const segments = [typed('IfcLineIndex', [1, 2].map(int)), typed('IfcArcIndex', [2, 3, 4].map(int))];
      return c.step.add('IfcIndexedPolyCurve', list, segments, false);
    };
    const { bodies } = await read(disk(curve, null, [null, null]));
    expect(volume(bodies)).toEqual(about(DISK * (2000 + (1000 * Math.PI) / 2), CHORDS));
  });

  it('on a B-spline that is a straight line, and on one that is a parabola', async () => {
    const spline =
      (points: readonly Vec3[]) =>
      (c: Context): Ref =>
        c.step.add(
          'IfcBSplineCurveWithKnots',
          ...[int(2), points.map((p) => c.point(p)), enumeration('UNSPECIFIED'), false, false],
          ...[[int(3), int(3)], [0, 1], enumeration('UNSPECIFIED')],
        );
    const straight = await read(
      disk(
        spline([
          [0, 0, 0],
          [0, 0, 1000],
          [0, 0, 2000],
        ]),
        null,
        [null, null],
      ),
    );
    expect(volume(straight.bodies)).toEqual(about(DISK * 2000, CHORDS));
    // Bézier (0,0) (0,a) (a,a): its length is a · (1 + √2/2 · asinh 1) … of the parabola, by its arc length integral.
    const a = 2000;
    const length = a * (1 + Math.SQRT1_2 * Math.asinh(1));
    const bent = await read(
      disk(
        spline([
          [0, 0, 0],
          [0, 0, a],
          [a, 0, a],
        ]),
        null,
        [null, null],
      ),
    );
    expect(volume(bent.bodies)).toEqual(about(DISK * length, CHORDS));
  });

  it.each([
    ['parameters beside the curve', [0, 7], /do not lie on its curve/],
    ['an end before its start', [1.5, 0.5], /do not lie on its curve/],
  ] as const)('with %s are not read, and why is said', async (_, params, why) => {
    const { bodies, problems } = await read(disk((c) => polyline(c, L), null, params));
    expect(bodies).toEqual([]);
    expect(problems.map((p) => p.message).join()).toMatch(why);
  });

  it('an area on a surface: a round bend in its plane', async () => {
    const { bodies } = await read((c) => {
      const frame = { origin: [1000, 0, 0] as Vec3, x: [-1, 0, 0] as Vec3, y: Z, z: Y };
      const circle = c.step.add('IfcCircle', c.axis3(frame), 1000);
      const ends = [0, Math.PI / 2].map((v) => [typed('IfcParameterValue', v)]);
      const arc = c.step.add('IfcTrimmedCurve', circle, ...ends, true, enumeration('PARAMETER'));
      const plane = c.step.add('IfcPlane', c.axis3(frame));
      const args = [profile(c, round(400)), c.axis3(WORLD), arc, 0, Math.PI / 2, plane];
      return { type: 'AdvancedSweptSolid', item: c.step.add('IfcSurfaceCurveSweptAreaSolid', ...args) };
    });
    expect(volume(bodies)).toEqual(about(DISK * 1000 * (Math.PI / 2), CHORDS));
  });

  it('that turn back on themselves are not read', async () => {
    const back: Vec3[] = [
      [0, 0, 0],
      [0, 0, 3000],
      [1, 0, 0],
    ];
    const { problems } = await read(disk((c) => polyline(c, back), null, [null, null]));
    expect(problems.map((p) => p.message).join()).toMatch(/turns back on itself/);
  });
});
