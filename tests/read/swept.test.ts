/**
 * Bodies that are swept, bent, tapered and cut, against closed-form truth: volumes by Pappus (the area times the way of its
 * centroid), sections on planes where the true one is known. What the chords of a mesh take away is worked out too.
 */
import { describe, expect, it } from 'vitest';
import * as cut from '../../fixtures/builder/drawn-booleans.js';
import * as draw from '../../fixtures/builder/representations.js';
import { profile, type Section } from '../../fixtures/builder/shapes.js';
import { enumeration } from '../../fixtures/ifc-writer.js';
import { WORLD, Y, Z } from '../../fixtures/vectors.js';
import { fitShape } from '../../src/geometry/fit.js';
import { area } from '../../src/geometry/polygon.js';
import { SWEPT_SAGITTA } from '../../src/tolerances.js';
import { about, CHORDS, type Draw, read, rect, round, section, volume } from './drawn-bodies.js';

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
  const { bodies } = await read(cut.cutAtEnd(round(400), 45));
  expect(volume(bodies)).toEqual(about(Math.PI * 200 ** 2 * 1000, 1e-3)); // the plane passes the axis at the duct's end
});
