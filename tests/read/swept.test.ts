/**
 * Bodies that are swept, bent, tapered and cut, against closed-form truth: volumes by Pappus (the area times the way of its
 * centroid), sections on planes where the true one is known. What the chords of a mesh take away is worked out too.
 */
import { describe, expect, it } from 'vitest';
import type { Context } from '../../fixtures/builder/context.js';
import * as draw from '../../fixtures/builder/representations.js';
import { type Body as Drawn, profile, type Section } from '../../fixtures/builder/shapes.js';
import { enumeration, int, type Ref, typed } from '../../fixtures/ifc-writer.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { type Vec3, WORLD, X, Y, Z } from '../../fixtures/vectors.js';
import { fitShape } from '../../src/geometry/fit.js';
import { frameAlong } from '../../src/geometry/frame.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { area } from '../../src/geometry/polygon.js';
import { cutBodies } from '../../src/geometry/section.js';
import type { Body } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { SWEPT_SAGITTA } from '../../src/tolerances.js';

type Draw = (c: Context, length: number) => Drawn;

async function read(drawn: Draw, schema: 'IFC2X3' | 'IFC4' = 'IFC4') {
  const b = new ModelBuilder({ fileName: 'swept.ifc', schema });
  b.duct({ name: 'D', from: [0, 0, 0], to: [0, 0, 1000], width: 600, height: 400, draw: drawn });
  const bytes = new TextEncoder().encode(b.toString());
  const { airElements, models, origin } = await readFederation([{ name: 'swept.ifc', bytes }]);
  return { bodies: airElements[0]?.bodies ?? [], problems: models[0]!.problems, origin };
}

/** Enclosed by the triangles, by the divergence theorem; a prism by its own mesh. */
function volume(bodies: readonly Body[]): number {
  return bodies.reduce((sum, body) => {
    const { positions: p, triangles: t } = body.kind === 'mesh' ? body : prismMesh(body);
    let six = 0;
    const at = (i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    for (let f = 0; f < t.length; f += 3) {
      const [a, b, c] = [at(t[f]!), at(t[f + 1]!), at(t[f + 2]!)];
      six +=
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    return sum + Math.abs(six / 6);
  }, 0);
}

/** Section on a plane, in the federation's world coordinates. */
function section({ bodies, origin }: Awaited<ReturnType<typeof read>>, at: Vec3, normal: Vec3) {
  const inner: Vec3 = [at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]];
  return cutBodies(bodies, frameAlong(inner, normal, Math.abs(normal[2]) > 0.9 ? X : Z));
}

const rect = (width: number, height: number): Section => ({ shape: 'rectangle', width, height });
const round = (diameter: number): Section => ({ shape: 'circle', diameter });
/** Relative: chords of sagitta s take no more than 4s/d of a circle's area, and as much of the way. */
const CHORDS = (8 * SWEPT_SAGITTA) / 300;
const about = (value: number, share: number) => ({
  asymmetricMatch: (n: number) => Math.abs(n / value - 1) <= share,
  toString: () => `${value} to ${share * 100} %`,
});

const R = 900;
const revolved =
  (section: Section, degrees: number): Draw =>
  (c) => {
    const axis = c.step.add('IfcAxis1Placement', c.point([R, 0, 0]), c.direction(Y));
    const angle = (degrees * Math.PI) / 180;
    const item = c.step.add('IfcRevolvedAreaSolid', profile(c, section), c.axis3(WORLD), axis, angle);
    return { type: 'SweptSolid', item };
  };

describe('bends as revolved solids', () => {
  it.each([
    [round(400), 90, Math.PI * 200 ** 2],
    [rect(600, 400), 60, 600 * 400],
    [rect(600, 400), -45, 600 * 400],
    [rect(600, 400), 360, 600 * 400],
  ] as const)('%j by %d degrees', async (shape, degrees, size) => {
    const { bodies } = await read(revolved(shape, degrees));
    expect(volume(bodies)).toEqual(about(size * R * ((Math.abs(degrees) * Math.PI) / 180), CHORDS));
  });

  it('have the true section half-way: a circle through true points', async () => {
    const got = await read(revolved(round(400), 90));
    const s = Math.SQRT1_2;
    // The profile's x is the product's x; about +Y through (R, 0, 0) the middle goes to (R − R·cos 45°, 0, R·sin 45°).
    const { outers } = section(got, [R - R * s, 0, R * s], [s, 0, s]);
    expect(outers).toHaveLength(1);
    const fit = fitShape(outers[0]!);
    expect(fit.shape).toBe('circular');
    expect(fit.length).toBeCloseTo(400, 0);
    expect(fit.chord).toBeLessThan(2 * SWEPT_SAGITTA);
  });
});

describe('tapers', () => {
  it('of rectangles are prismatoids, and half-way as large as the mean', async () => {
    const got = await read(draw.tapered(rect(600, 400), rect(400, 200)));
    const middle = 500 * 300;
    expect(volume(got.bodies)).toBeCloseTo((1000 / 6) * (600 * 400 + 4 * middle + 400 * 200), -1);
    expect(area(section(got, [0, 0, 500], Z).outers[0]!)).toBeCloseTo(middle, 3);
  });

  it('of circles are cones', async () => {
    const got = await read(draw.tapered(round(400), round(200)));
    const cone = (Math.PI * 1000 * (200 ** 2 + 200 * 100 + 100 ** 2)) / 3;
    expect(volume(got.bodies)).toEqual(about(cone, 1e-3));
    const fit = fitShape(section(got, [0, 0, 500], Z).outers[0]!);
    expect(fit).toMatchObject({ shape: 'circular', length: expect.closeTo(300, 3) });
    expect(fit.chord).toBeLessThan(0.05);
  });
});

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

describe('what encloses nothing is no body, and is said', () => {
  const zero = (depth: number, width: number): Draw => {
    return (c) => ({
      type: 'SweptSolid',
      item: c.step.add('IfcExtrudedAreaSolid', profile(c, rect(width, 400)), c.axis3(WORLD), c.direction(Z), depth),
    });
  };
  it.each<[string, Draw, RegExp]>([
    ['no depth', zero(0, 600), /no depth/],
    ['no width', zero(1000, 0), /no area/],
    [
      'a flat face',
      (c) => {
        const points = [
          [0, 0, 0],
          [600, 0, 0],
          [600, 400, 0],
        ] as const;
        const loop = c.step.add(
          'IfcPolyLoop',
          points.map((p) => c.point(p)),
        );
        const face = c.step.add('IfcFace', [c.step.add('IfcFaceOuterBound', loop, true)]);
        return {
          type: 'SurfaceModel',
          item: c.step.add('IfcFaceBasedSurfaceModel', [c.step.add('IfcConnectedFaceSet', [face])]),
        };
      },
      /flat/,
    ],
    [
      'what is cut away altogether',
      (c, length) => {
        const plane = c.step.add('IfcPlane', c.axis3({ ...WORLD, origin: [0, 0, -1] }));
        const above = c.step.add('IfcHalfSpaceSolid', plane, false);
        const whole = draw.solid(rect(600, 400))(c, length).item;
        return {
          type: 'Clipping',
          item: c.step.add('IfcBooleanClippingResult', enumeration('DIFFERENCE'), whole, above),
        };
      },
      /cut away altogether/,
    ],
    [
      'a rounded profile cut with a solid, which can not be done exactly',
      (c, length) => {
        const first = draw.roundedRectangle(600, 400, 30)(c, length).item;
        const second = draw.solid(rect(100, 100))(c, length).item;
        return { type: 'CSG', item: c.step.add('IfcBooleanResult', enumeration('DIFFERENCE'), first, second) };
      },
      /rounded profile/,
    ],
  ])('%s', async (_, drawn, why) => {
    const { bodies, problems } = await read(drawn);
    expect(bodies).toEqual([]);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.message).toMatch(why);
  });
});

it('a duct cut off obliquely is as large as the half-space leaves it', async () => {
  const { bodies } = await read(draw.cutAtEnd(round(400), 45));
  expect(volume(bodies)).toEqual(about(DISK * 1000, 1e-3)); // the plane passes the axis at the duct's end
});
