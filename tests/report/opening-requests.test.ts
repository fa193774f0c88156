/**
 * Requests are read back by our own reader and by web-ifc, held to the entities of the schemas, and followed: a model
 * with the openings that were asked for has gaps in range on every side.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { type BuilderOptions, ModelBuilder, type StraightSpec } from '../../fixtures/model-builder.js';
import { fromPlane } from '../../src/geometry/frame.js';
import type { Prism, Vec3 } from '../../src/model.js';
import { unpack } from '../../src/read/container.js';
import { openSource, readElement, tryBodies } from '../../src/read/source.js';
import { StepFile } from '../../src/read/step-file.js';
import { openingRequests, outlineOf, requestSize } from '../../src/report/opening-requests.js';
import type { Report } from '../../src/report/schema.js';
import { IFC_SCHEMAS, writeOpeningRequests } from '../../src/report/write-opening-requests.js';
import { Reader, solidOf } from '../fixtures/open-model.js';
import { argumentsOf, readSchemas } from '../fixtures/schema-types.js';
import { gaps, NO_GAPS } from '../model-factories.js';
import { demoReview, type Reviewed, review } from './demo-report.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, onPenetration } from './factories.js';

let demo: Reviewed;
beforeAll(async () => {
  demo = await demoReview();
});

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('on the demo building', () => {
  it('openings are asked for where they are missing or wrong, and nowhere else', () => {
    const { requests, withheld } = openingRequests(demo.report, demo.results);
    expect(requests.map((r) => [r.penetration.duct.name, r.reason, requestSize(r)])).toEqual([
      // Worked out by hand: 30 mm all round is the middle of 10 to 50.
      ['FD-G-5', 'wrong', '460 × 310'],
      ['FD-G-2', 'missing', '460 × 310'],
      ['SA-G-2', 'wrong', '660 × 360'],
    ]);
    // 25° through 116 mm: the duct slides by 54 mm, more than the 40 mm between 10 and 50.
    expect(withheld.map((w) => w.penetration.duct.name)).toEqual(['SP-G-1']);
    expect(withheld[0]!.why).toMatch(/25° off square/);
  });

  it.each(IFC_SCHEMAS)('%s is stamped, and the same for the same report', (schema) => {
    const write = () => text(writeOpeningRequests(openingRequests(demo.report, demo.results), demo.report, schema));
    expect(write()).toBe(write());
    const proxies = write().match(/IFCBUILDINGELEMENTPROXY\(.*/g)!;
    expect(proxies).toHaveLength(3);
    for (const proxy of proxies) {
      expect(proxy).toContain('DEMONSTRATION DATA');
      expect(proxy).toContain('Structural engineer to agree');
      expect(proxy).toContain('.PROVISIONFORVOID.');
    }
    const plain = { ...demo.report, demonstration: false };
    expect(text(writeOpeningRequests(openingRequests(plain), plain, schema))).not.toContain('DEMONSTRATION');
  });
});

const SCHEMAS = readSchemas();

describe.each(IFC_SCHEMAS)('%s', (schema) => {
  const written = () => text(writeOpeningRequests(openingRequests(demo.report, demo.results), demo.report, schema));

  it('has only entities of the schema, each with all its attributes', () => {
    const lines = written()
      .split('\n')
      .filter((line) => line.startsWith('#'));
    expect(lines.length).toBeGreaterThan(60);
    for (const line of lines) {
      const { entity, args } = argumentsOf(line);
      const parameters = SCHEMAS[schema].get(entity);
      expect(parameters, entity).toBeDefined();
      // Derived attributes are written as *, and web-ifc's types leave them out.
      const given = args.filter((arg) => arg !== '*');
      expect(given, line).toHaveLength(parameters!.length);
      for (const [i, { name, optional }] of parameters!.entries())
        if (given[i] === '$') expect(optional, `${entity}.${name}`).toBe(true);
    }
    const ids = [...written().matchAll(/=IFC\w+\('([0-3][\w$]{21})',/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(15);
  });

  it('names the property set and its shape as that schema does', () => {
    // IFC4 and IFC4X3_ADD2, property sets of provisions for voids (buildingSMART): names changed between them.
    const [set, shape] =
      schema === 'IFC4'
        ? ['Pset_BuildingElementProxyProvisionForVoid', 'Shape']
        : ['Pset_ProvisionForVoid', 'VoidShape'];
    expect(written()).toContain(`'${set}'`);
    expect(written()).toContain(`IFCPROPERTYSINGLEVALUE('${shape}',$,IFCLABEL('Rectangle'),$)`);
  });

  it('opens in web-ifc without a word, with solids where the report says', async () => {
    const reader = await Reader.create();
    const opened = reader.open(written());
    const requests = openingRequests(demo.report, demo.results).requests;
    for (const request of requests) {
      const { penetration: p, width, height, depth } = request;
      const line = written()
        .split('\n')
        .find((l) => l.includes('IFCBUILDINGELEMENTPROXY') && l.includes(`'${p.tag}'`))!;
      const solid = solidOf(opened, Number(/^#(\d+)/.exec(line)![1]));
      expect(solid.volume).toBeCloseTo(width * height * depth, -3);
      const outline = outlineOf(request).map((q) => fromPlane(planeOf(p), q));
      for (const i of [0, 1, 2] as const) {
        const half = (depth / 2) * Math.abs(p.frame.normal[i]);
        expect(Math.abs(solid.min[i]! - (Math.min(...outline.map((q) => q[i])) - half))).toBeLessThan(0.1);
        expect(Math.abs(solid.max[i]! - (Math.max(...outline.map((q) => q[i])) + half))).toBeLessThan(0.1);
      }
    }
    expect(reader.log).toEqual([]);
  });
});

const planeOf = ({ position, frame }: Report['penetrations'][number]) => ({
  ...{ origin: position, x: frame.right, y: frame.up, z: frame.normal },
});

/** Proxies of a file as our own reader reads them. */
async function readBack(bytes: Uint8Array) {
  const file = await StepFile.open(unpack('requests.ifc', bytes));
  try {
    const source = openSource(file);
    return file.ids('IFCBUILDINGELEMENTPROXY').map((id) => {
      const line = file.line(id)!;
      const [body] = tryBodies(source, line, 'Request') ?? [];
      if (body?.kind !== 'prism') throw new Error('a request is no prism');
      return { ...readElement(source, id, line), body, unit: source.units.lengthName };
    });
  } finally {
    file.close();
  }
}

const middleOf = ({ frame, outline, sweep }: Prism): Vec3 => {
  const x = (Math.min(...outline.map((q) => q[0])) + Math.max(...outline.map((q) => q[0]))) / 2;
  const y = (Math.min(...outline.map((q) => q[1])) + Math.max(...outline.map((q) => q[1]))) / 2;
  const base = fromPlane(frame, [x, y]);
  return [base[0] + sweep[0] / 2, base[1] + sweep[1] / 2, base[2] + sweep[2] / 2];
};

describe('asked for and followed', () => {
  type Hole =
    | { readonly centre: Vec3; readonly width: number; readonly height: number }
    | { readonly centre: Vec3; readonly diameter: number };
  interface Situation {
    readonly why: string;
    readonly duct: StraightSpec;
    readonly wrong?: Hole;
    readonly floor?: boolean;
    readonly options?: Partial<BuilderOptions>;
  }
  const FAR: Vec3 = [512_340_000, 5_803_210_000, 12_000];
  const through = { name: 'Duct', from: [3000, -2500, 2000], to: [3000, 2500, 2000] } as const;
  const SITUATIONS: readonly Situation[] = [
    { why: 'no opening', duct: { ...through, width: 600, height: 400 } },
    { why: 'an odd size', duct: { ...through, width: 437, height: 283.5 } },
    {
      why: 'an opening too narrow',
      duct: { ...through, width: 600, height: 400 },
      wrong: { centre: [3000, 0, 2000], width: 604, height: 460 },
    },
    {
      why: 'an opening out of place',
      duct: { ...through, width: 600, height: 400 },
      wrong: { centre: [3080, 0, 2000], width: 700, height: 460 },
    },
    { why: 'a round duct without', duct: { ...through, diameter: 315 } },
    {
      why: 'a round duct in a round opening too wide',
      duct: { ...through, diameter: 315 },
      wrong: { centre: [3000, 0, 2000], diameter: 500 },
    },
    {
      why: 'a round duct in a rectangular one',
      duct: { ...through, diameter: 315 },
      wrong: { centre: [3000, 0, 2000], width: 600, height: 600 },
    },
    {
      why: '5° off square',
      duct: {
        name: 'Duct',
        from: [3000 - 218.7, -2500, 2000],
        to: [3000 + 218.7, 2500, 2000],
        width: 600,
        height: 400,
      },
    },
    {
      why: 'a floor',
      floor: true,
      duct: { name: 'Duct', from: [2000, 2000, -1500], to: [2000, 2000, 1500], width: 500, height: 300 },
    },
    { why: 'far away, in feet', duct: { ...through, width: 600, height: 400 }, options: { unit: 'foot', offset: FAR } },
    { why: 'turned in its own plane', duct: { ...through, width: 600, height: 400, roll: 15 } },
    { why: 'in metres', duct: { ...through, width: 600, height: 400 }, options: { unit: 'metre' } },
    { why: 'in inches', duct: { ...through, diameter: 200 }, options: { unit: 'inch' } },
  ];

  function build({ duct, floor, options }: Situation, hole: Hole | undefined): string {
    const builder = new ModelBuilder({ ...options, fileName: 'building.ifc' });
    builder.storey('Level 1', 0);
    const barrier = floor
      ? builder.slab({
          name: 'Slab',
          outline: [
            [0, 0],
            [5000, 0],
            [5000, 4000],
            [0, 4000],
          ],
          top: 0,
          thickness: 200,
          rating: '120/120/120',
        })
      : builder.wall({ name: 'Wall', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/120/120' });
    if (hole) builder.opening(barrier, hole);
    builder.duct(duct);
    return builder.toString();
  }

  it.each(SITUATIONS.map((s) => [s.why, s] as const))('%s', async (_, situation) => {
    const files = (hole: Hole | undefined) => [{ name: 'building.ifc', text: build(situation, hole) }];
    const before = await review(files(situation.wrong));
    // Where nothing else was reviewed no range is known; another penetration's result stands in for it.
    const range = { check: 'gap-within-range', limit: { atLeast: 10, atMost: 50 }, tolerance: null };
    const { requests, withheld } = openingRequests(before.report, [...before.results, range]);
    expect(withheld).toEqual([]);
    expect(requests).toHaveLength(1);
    const [request] = requests;
    const { position, frame } = request!.penetration;
    const world = fromPlane({ origin: position, x: frame.right, y: frame.up, z: frame.normal }, request!.centre);

    // Our own reader finds it where and as large as it was asked for.
    for (const schema of IFC_SCHEMAS) {
      const [read, ...others] = await readBack(writeOpeningRequests({ requests, withheld }, before.report, schema));
      expect(others).toEqual([]);
      expect(read!.name).toBe(request!.penetration.tag);
      expect(read!.storey).toEqual(request!.penetration.storey);
      expect(read!.unit).toBe(before.report.models[0]!.lengthUnit);
      for (const i of [0, 1, 2] as const) expect(Math.abs(middleOf(read!.body)[i] - world[i])).toBeLessThan(0.1);
      const { outline, sweep } = read!.body;
      const [xs, ys] = [outline.map((q) => q[0]), outline.map((q) => q[1])];
      expect(Math.abs(Math.max(...xs) - Math.min(...xs) - request!.width)).toBeLessThan(0.1);
      expect(Math.abs(Math.max(...ys) - Math.min(...ys) - request!.height)).toBeLessThan(0.1);
      expect(Math.abs(Math.hypot(...sweep) - request!.depth)).toBeLessThan(0.1);
    }

    // Who follows the request has every gap in range.
    const [ox, oy, oz] = situation.options?.offset ?? [0, 0, 0];
    const centre: Vec3 = [world[0] - ox, world[1] - oy, world[2] - oz];
    const { width, height } = request!;
    const roll = -(Math.atan2(request!.along[1], request!.along[0]) * 180) / Math.PI; // the builder's runs the other way
    const { direction } = situation.floor ? {} : { direction: [0, 1, 0] as Vec3 };
    const hole =
      request!.shape === 'circular'
        ? { centre, diameter: width }
        : { centre, width, height, ...(roll === 0 || !direction ? {} : { roll, direction }) };
    const after = await review(files(hole));
    const [p] = after.report.penetrations;
    expect(p!.opening).toMatchObject({ shape: request!.shape, width, height });
    expect(p!.gaps.min).toBeGreaterThanOrEqual(10);
    expect(p!.gaps.max).toBeLessThanOrEqual(50);
    expect(openingRequests(after.report, after.results).requests).toEqual([]);
    // Whole ten millimetres where they fit.
    expect(width % 10).toBe(0);
    expect(height % 10).toBe(0);
  });
});

describe('nothing is asked for', () => {
  const LIMIT = { atLeast: 10, atMost: 50 };
  const missing = aFinding('opening', { check: 'opening-modelled', subject: onPenetration(1), measured: false });
  const wrong = aFinding('gap', {
    check: 'gap-within-range',
    subject: onPenetration(1),
    side: 'left',
    measured: 70,
    limit: LIMIT,
  });
  const why = (penetration: Parameters<typeof aPenetration>[1], finding = wrong): string | undefined =>
    openingRequests(aReport({ penetrations: [aPenetration(1, penetration)], findings: [finding] })).withheld[0]?.why;
  it.each([
    [
      'it shares its opening with other services; part them first',
      why.bind(null, { others: [{ model: 'm1', globalId: 'p', kind: 'pipe' }] }),
    ],
    [
      'it shares its opening with other services; part them first',
      why.bind(null, { gaps: gaps({ facing: { left: 'P-0002' } }) }),
    ],
    ['the duct does not go right through the barrier', why.bind(null, { crossing: 'endsInside' })],
    ['the thickness of the barrier is not known', why.bind(null, { barrier: aBarrier({ thickness: null }) })],
    ['the section of the duct is not known', why.bind(null, { duct: aDuct({ shape: 'unknown' }) })],
    ['no range of gaps is known to size it by', why.bind(null, { opening: null, gaps: NO_GAPS }, missing)],
  ])('where %s', (words, say) => {
    expect(say()).toBe(words);
  });

  it('where the duct beside it would be in the opening', () => {
    const near = aPenetration(2, { position: [3605, 0, 2000] });
    const self = aPenetration(1, { neighbours: [{ penetration: 'P-0002', distance: 5 }] });
    const { requests, withheld } = openingRequests(aReport({ penetrations: [self, near], findings: [wrong] }));
    expect(requests).toEqual([]);
    expect(withheld[0]!.why).toBe('it would reach into TAG2-9; move one of the ducts first');
  });

  it('where what failed is something else: a plastic duct, a pair of ducts, a damper', () => {
    const others = ['duct-not-combustible', 'separation', 'damper-allowed', 'skew-limited'].map((check) =>
      aFinding('treatment', { check, subject: onPenetration(1) }),
    );
    expect(openingRequests(aReport({ findings: others }))).toEqual({ requests: [], withheld: [] });
  });
});

it.each([
  [{ site: 0, measuring: 0 }, 'for gaps of 10 to 50 mm', undefined],
  [{ site: 5, measuring: 0.8 }, 'for gaps of 15.8 to 44.2 mm', undefined],
  [{ site: 21, measuring: 0 }, undefined, 'no gap meets all limits by the tolerances'],
])('is sized so that its gaps hold the tolerance %j', (tolerance, basis, why) => {
  const limit = { atLeast: 10, atMost: 50 };
  const finding = aFinding('gap', {
    check: 'gap-within-range',
    subject: onPenetration(1),
    measured: 70,
    limit,
    tolerance,
  });
  const { requests, withheld } = openingRequests(aReport({ findings: [finding] }));
  expect([requests[0]?.basis, withheld[0]?.why]).toEqual([basis, why]);
});

it('takes hostile names as text', () => {
  const name = `'); DROP #1=IFCWALL(\\X2\\zz\n${'x'.repeat(10_000)}`;
  const report = aReport({
    penetrations: [
      aPenetration(1, {
        ...{ tag: name, duct: aDuct({ name, system: name }), barrier: aBarrier({ name }) },
        storey: { globalId: name, name, elevation: 0 },
      }),
    ],
    findings: [
      aFinding('gap', { check: 'gap-within-range', subject: onPenetration(1), limit: { atLeast: 10, atMost: 50 } }),
    ],
  });
  const bytes = writeOpeningRequests(openingRequests(report), report, 'IFC4');
  for (const line of text(bytes).split('\n')) if (line.startsWith('#')) expect(() => argumentsOf(line)).not.toThrow();
  return expect(readBack(bytes)).resolves.toMatchObject([{ entity: 'IFCBUILDINGELEMENTPROXY' }]);
});
