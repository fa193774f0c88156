/**
 * Wall and duct in files that are placed in all the ways IFC knows; the wall's own coordinates are the truth. World
 * coordinates of a file: map = offset + turn(scale · (WorldCoordinateSystem · engineering)), IFC4X3 documentation of
 * IfcMapConversion and IfcGeometricRepresentationContext.
 */
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { turn, type Vec3 } from '../../fixtures/vectors.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

type Options = Partial<ConstructorParameters<typeof ModelBuilder>[0]>;

function architecture(options: Options) {
  const b = new ModelBuilder({ fileName: 'architecture.ifc', ...options });
  b.storey('EG', 0);
  b.opening(b.wall(WALL), OPENING);
  return { name: 'architecture.ifc', bytes: new TextEncoder().encode(b.toString()) };
}

function services(options: Options, storey: readonly [string, number] = ['Level 0', 0]) {
  const b = new ModelBuilder({ fileName: 'services.ifc', ...options });
  b.storey(...storey);
  b.duct(DUCT);
  return { name: 'services.ifc', bytes: new TextEncoder().encode(b.toString()) };
}

/** The base case, its crossing at `at`. */
async function expectBase(files: Parameters<typeof readFederation>[0], at: Vec3) {
  const federation = await readFederation(files);
  const { penetrations, apart } = findPenetrations(federation);
  expect(apart).toEqual([]);
  expect(penetrations.length).toBe(1);
  const [p] = penetrations;
  for (const [i, v] of p!.position.entries()) expect(Math.abs(v - at[i]!)).toBeLessThanOrEqual(0.1);
  const { min, max } = p!.gaps;
  expect([min, max]).toEqual([30, 70]);
  return { federation, p: p! };
}

const BASE: Vec3 = [3000, 0, 2000];
const MAP = { eastings: 500_000_000, northings: 5_800_000_000, height: 120_000 };
const onMap = (rotation: number, by: Vec3 = [0, 0, 0]): Vec3 => {
  const [x, y, z] = turn(BASE, rotation);
  return [MAP.eastings + x + by[0], MAP.northings + y + by[1], MAP.height + z + by[2]];
};

describe('a world coordinate system', () => {
  it('moves and turns everything in its file', async () => {
    const wcs = { rotation: 30, offset: [10_000, -4000, 500] as Vec3 };
    // The services are drawn where the architecture's world coordinate system sets it.
    const { federation } = await expectBase(
      [
        architecture({ worldCoordinateSystem: wcs }),
        services({ rotation: wcs.rotation, offset: wcs.offset, unit: 'foot' }),
      ],
      [...turn(BASE, 30)].map((v, i) => v + wcs.offset[i]!) as unknown as Vec3,
    );
    expect(federation.frame).toBe('engineering');
  });

  it('comes before the map conversion', async () => {
    const wcs = { rotation: 20, offset: [7000, 3000, 0] as Vec3 };
    const [x, y] = turn(wcs.offset, 15);
    const { federation } = await expectBase(
      [
        architecture({ worldCoordinateSystem: wcs, mapConversion: { ...MAP, rotation: 15 } }),
        services({
          mapConversion: { ...MAP, eastings: MAP.eastings + x, northings: MAP.northings + y, rotation: 35 },
        }),
      ],
      onMap(35, [x, y, 0]),
    );
    expect(federation.frame).toBe('map');
  });
});

describe('ways to say where the map is', () => {
  it('a scaled map conversion of IFC4X3 scales evenly', async () => {
    const k = 0.9996;
    const federation = await readFederation([
      architecture({
        schema: 'IFC4X3',
        mapConversion: { ...MAP, as: 'IfcMapConversionScaled', factors: [k, k, k] },
      }),
      services({ mapConversion: { ...MAP, eastings: MAP.eastings + 1_000_000 } }),
    ]);
    const [wall] = findPenetrations(federation).barriers;
    expect(wall!.thickness).toBe(Math.round(1280 * k) / 10);
    expect(federation.models.flatMap((m) => m.problems.map((p) => p.code))).toEqual([]);
  });

  it('one that scales unevenly is said to be taken evenly', async () => {
    const federation = await readFederation([
      architecture({
        schema: 'IFC4X3',
        mapConversion: { ...MAP, as: 'IfcMapConversionScaled', factors: [1, 1, 1.001] },
      }),
    ]);
    expect(federation.models[0]!.problems.map((p) => p.message)).toEqual([
      'Its map conversion scales x, y and z by 1, 1 and 1.001; all were scaled by 1.',
    ]);
  });

  it('a rigid operation of IFC4X3 moves without a turn', async () => {
    await expectBase(
      [
        architecture({ schema: 'IFC4X3', mapConversion: { ...MAP, as: 'IfcRigidOperation', mapUnit: 'metre' } }),
        services({ mapConversion: { ...MAP, rotation: 25 }, rotation: -25 }),
      ],
      onMap(0),
    );
  });

  it('the property set that users agreed on for IFC2X3', async () => {
    await expectBase(
      [
        architecture({ schema: 'IFC2X3', unit: 'metre', mapConversion: { ...MAP, as: 'set', rotation: 12 } }),
        services({ mapConversion: { ...MAP, rotation: 50 }, rotation: 12 - 50 }),
      ],
      onMap(12),
    );
  });

  it('two maps are said not to be one', async () => {
    const federation = await readFederation([
      architecture({ mapConversion: { ...MAP, crs: 'EPSG:25832' } }),
      services({ mapConversion: { ...MAP, eastings: 1000, crs: 'EPSG:25833' } }),
    ]);
    expect(federation.models.map((m) => m.problems.map((p) => p.message))).toEqual([
      [],
      [
        'Its map coordinates are those of EPSG:25833, those of architecture.ifc of EPSG:25832: they were taken for one, so the files may lie apart.',
      ],
    ]);
    const { apart } = findPenetrations(federation);
    expect(apart.map((a) => a.model)).toEqual(['m2']);
  });

  it('a file without a conversion, among others whose conversions differ, is taken as it is and named', async () => {
    const far = { ...MAP, eastings: 0, northings: 0, height: 0 };
    const b = new ModelBuilder({ fileName: 'third.ifc', mapConversion: { ...far, eastings: 90_000_000 } });
    b.duct(DUCT);
    const third = { name: 'third.ifc', bytes: new TextEncoder().encode(b.toString()) };
    const federation = await readFederation([architecture({}), services({ mapConversion: far }), third]);
    expect(federation.models.map((m) => m.problems.map((p) => p.code))).toEqual([['no-map-conversion'], [], []]);
    expect(findPenetrations(federation)).toMatchObject({
      penetrations: [{ gaps: { min: 30 } }],
      apart: [{ model: 'm3', from: 'm1', offset: [90_000_500, 0, 500] }],
    });
  });
});

describe('what places nothing', () => {
  it('true north', async () => {
    await expectBase([architecture({ trueNorth: 40 }), services({ trueNorth: -10 })], BASE);
  });

  it('storeys: their names and heights may differ from file to file; the barrier’s own is reported', async () => {
    const { p } = await expectBase([architecture({}), services({}, ['Basement', -3400])], BASE);
    expect(p.storey).toMatchObject({ name: 'EG', elevation: 0 });
    expect(p.barrier.storey).toMatchObject({ name: 'EG' });
  });
});
