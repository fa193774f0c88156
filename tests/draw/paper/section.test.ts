/** Sections through barriers, measured in their SVG against the sizes of the documents (invented) that they are built by. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawElevation, SHEET_HEIGHT, SHEET_WIDTH } from '../../../src/draw/paper/elevation.js';
import { drawSection } from '../../../src/draw/paper/section.js';
import { circle, rectangle } from '../../../src/geometry/polygon.js';
import type { BarrierFacts, BuiltPart, FaceFacts, Penetration, Polygon, Side } from '../../../src/model.js';
import type { Report, ReportPenetration } from '../../../src/report/schema.js';
import { NO_GAPS } from '../../model-factories.js';
import { demoReport } from '../../report/demo-report.js';
import { aBarrier, aDuct } from '../../report/factories.js';
import { type BuiltBy, built } from './built-penetrations.js';
import { faultsOf, textsOf } from './svg-texts.js';

const SHEET = { width: SHEET_WIDTH, height: SHEET_HEIGHT };
const FRAMED: BuiltBy = { system: 'demonstration-blanket', detail: 'framed-wall', layers: 2 };
const SOLID: BuiltBy = { ...FRAMED, detail: 'solid-barrier' };
const SHAFT: BuiltBy = { ...FRAMED, detail: 'shaft-wall' };
const THROUGH: BuiltBy = { system: 'demonstration-board', detail: 'through-wall', layers: 1 };
const OWN: BuiltBy = { system: 'demonstration-duct', detail: 'solid', layers: 1 };
const FLOOR = { normal: [0, 0, 1], right: [1, 0, 0], up: [0, 1, 0] } as const;

type Gaps4 = { readonly [S in Side]: number };
const even = (gap: number): Gaps4 => ({ top: gap, bottom: gap, left: gap, right: gap });

function rectangular(
  width: number,
  height: number,
  gaps: Gaps4,
  barrier: Partial<BarrierFacts> = {},
): Partial<Penetration> {
  const outline = rectangle(width + gaps.left + gaps.right, height + gaps.top + gaps.bottom);
  const [x, y] = [(gaps.right - gaps.left) / 2, (gaps.top - gaps.bottom) / 2];
  const all = Object.values(gaps);
  return {
    duct: aDuct({ width, height }),
    barrier: aBarrier({ thickness: 128, construction: 'steelStud', ...barrier }),
    gaps: { ...gaps, min: Math.min(...all), max: Math.max(...all), facing: {} },
    outlines: { duct: [rectangle(width, height)], opening: [outline.map(([a, b]) => [a + x, b + y] as const)] },
    ...(barrier.kind === 'floor' ? { frame: FLOOR } : {}),
  };
}

const draw = (penetration: ReportPenetration): string => drawSection({ penetration, id: 'x' });
const words = (svg: string): string[] => textsOf(svg).map(({ text }) => text);
const scaleOf = (svg: string): number => Number(/>1:([\d.]+), all/.exec(svg)![1]);

/** Points on paper of all that is drawn of one part. */
function shapesOf(svg: string, part: string): Polygon[] {
  return [...svg.matchAll(/<path d="([^"]+)"[^>]* data-part="([^"]+)"/g)]
    .filter(([, , name]) => name === part)
    .map(([, d]) => [...d!.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const));
}

/** Width and height in millimetres of the building, of each shape of a part. */
function sizesOf(svg: string, part: string): (readonly [number, number])[] {
  const scale = scaleOf(svg);
  return shapesOf(svg, part).map((points) => {
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    return [(Math.max(...xs) - Math.min(...xs)) * scale, (Math.max(...ys) - Math.min(...ys)) * scale];
  });
}

/** Coordinates are written to a hundredth of a millimetre on paper. */
function expectSizes(svg: string, part: string, count: number, width: number, height: number): void {
  const sizes = sizesOf(svg, part);
  expect(sizes, part).toHaveLength(count);
  const written = 0.011 * scaleOf(svg);
  for (const [w, h] of sizes) {
    expect(Math.abs(w - width), `${part}: ${w} for ${width}`).toBeLessThan(written);
    expect(Math.abs(h - height), `${part}: ${h} for ${height}`).toBeLessThan(written);
  }
}

describe('the demo building', () => {
  let report: Report;
  beforeAll(async () => {
    report = await demoReport();
  });

  it('has no text over another and none that leaves the sheet', () => {
    expect(report.penetrations.length).toBeGreaterThan(40);
    for (const p of report.penetrations) expect(faultsOf(draw(p), SHEET), p.tag).toEqual([]);
  });

  it('leaves no part out of the legend, and draws every part whose size is known', () => {
    let drawn = 0;
    for (const p of report.penetrations) {
      const svg = draw(p);
      expect(words(svg)).toContain(p.tag);
      expect(words(svg).join(' '), p.tag).not.toContain('more in the report');
      for (const [i, part] of (p.treatment.chosen?.parts ?? []).entries()) {
        const isKnown = !('length' in part && part.length === null) && !('leg' in part && part.leg === null);
        expect(words(svg), p.tag).toContain(String(i + 1));
        expect(shapesOf(svg, part.part).length > 0, `${p.tag} ${part.part}`).toBe(isKnown);
        drawn++;
      }
    }
    expect(drawn).toBeGreaterThan(200);
  });

  it('is drawn of what is chosen, and says so where nothing is', () => {
    for (const p of report.penetrations) {
      const text = words(draw(p)).join(' ');
      expect(text.includes('No tested detail is chosen'), p.tag).toBe(p.treatment.chosen === null);
    }
  });
});

describe('to scale', () => {
  it('in a framed wall', () => {
    const svg = draw(built(rectangular(600, 300, even(30)), FRAMED));
    expectSizes(svg, 'boardCollar', 4, 25, 100);
    expectSizes(svg, 'angle', 4, 40, 40);
    // 200 from the face, less the 28 that angle and board take there.
    expectSizes(svg, 'localBuildUp', 4, 200 - 28, 38);
    expectSizes(svg, 'packing', 2, 128, 30);
    // Two seams at each of four corners; their size is not stated.
    expectSizes(svg, 'sealant', 8, 10, 10);
    expect(shapesOf(svg, 'protection')).toHaveLength(8);
    for (const [, height] of sizesOf(svg, 'protection')) expect(height).toBeCloseTo(38, 0);
    expect(words(svg).join(' ')).toContain('size not stated');
  });

  it('in solid barriers, level in walls and upright in floors', () => {
    const wall = draw(built(rectangular(400, 300, even(30), { construction: 'masonry', thickness: 190 }), SOLID));
    expectSizes(wall, 'packing', 2, 190 - 2 * 15, 30);
    const concrete = { construction: 'concrete', kind: 'floor', thickness: 200 } as const;
    const floor = draw(built(rectangular(400, 300, even(30), concrete), SOLID));
    expectSizes(floor, 'packing', 2, 30, 200 - 2 * 15);
    expectSizes(floor, 'localBuildUp', 4, 38, 200 - 3);
    const [[width, height]] = sizesOf(floor, 'duct') as [readonly [number, number]];
    expect(height).toBeGreaterThan(width);
  });

  it('goes by the table of the document', () => {
    const svg = draw(built(rectangular(2000, 900, even(30)), FRAMED));
    expectSizes(svg, 'angle', 4, 50, 50);
    expectSizes(svg, 'localBuildUp', 4, 600 - 28, 38);
    expect(words(svg)).toContain('600');
  });

  it('of protection that goes through, which frames lie against', () => {
    const svg = draw(built(rectangular(600, 400, even(60)), THROUGH));
    const [duct] = shapesOf(svg, 'duct');
    const strips = shapesOf(svg, 'protection');
    expect(strips).toHaveLength(2);
    const long = (points: Polygon): number => Math.max(...points.map(([x]) => x)) - Math.min(...points.map(([x]) => x));
    for (const strip of strips) expect(long(strip)).toBeCloseTo(long(duct!), 1);
    // 60 to the duct less 40 of board.
    expectSizes(svg, 'packing', 2, 128, 20);
    const top = Math.min(...duct!.map(([, y]) => y));
    const lowest = Math.max(
      ...shapesOf(svg, 'boardCollar')
        .flatMap((s) => s.map(([, y]) => y))
        .filter((y) => y < top),
    );
    expect((top - lowest) * scaleOf(svg)).toBeCloseTo(40, 0);
  });

  it('of a duct that resists fire by itself there are no layers, and no fastener goes through it', () => {
    const svg = draw(built(rectangular(600, 400, even(30), { construction: 'masonry', thickness: 190 }), OWN));
    expect(shapesOf(svg, 'protection')).toHaveLength(0);
    expectSizes(svg, 'angle', 4, 50, 50);
    expect(words(svg).join(' ')).toContain('none through the duct');
  });

  it('a duct too large for the sheet is shortened, and what lies beside it is not', () => {
    const concrete = { construction: 'concrete', kind: 'floor', thickness: 400 } as const;
    const svg = draw(built(rectangular(3600, 1000, even(30), concrete), SOLID));
    expectSizes(svg, 'packing', 2, 30, 400 - 2 * 15);
    expectSizes(svg, 'localBuildUp', 4, 38, 600 - 3);
    expect(words(svg).join(' ')).toContain('shortened between the break lines');
    expect(words(svg)).toContain('1000');
    expect(sizesOf(svg, 'duct')[0]![0]).toBeLessThan(999);
  });

  it('of a round duct the cut goes through its middle', () => {
    const svg = draw(
      built(
        {
          ...rectangular(315, 315, even(40)),
          duct: aDuct({ shape: 'circular', width: null, height: null, diameter: 315 }),
          gaps: { ...NO_GAPS, min: 40, max: 40 },
          outlines: { duct: [circle(315)], opening: [circle(395)] },
        },
        FRAMED,
      ),
    );
    expectSizes(svg, 'packing', 2, 128, 40);
    expect(words(svg)).toContain('Ø 315');
  });

  it.each([5, 15, 25])('a duct %d° off square is drawn so', (skew) => {
    const [sin, cos] = [Math.sin((skew * Math.PI) / 180), Math.cos((skew * Math.PI) / 180)];
    const square = rectangular(600, 300, even(60));
    // The factories' barrier is square to y; the duct turns on plan.
    const duct = aDuct({
      width: 600,
      height: 300,
      axis: [
        [0, 0, 0],
        [1000 * sin, 1000 * cos, 0],
      ],
    });
    const outlines = { duct: [rectangle(600 / cos, 300)], opening: [rectangle(600 / cos + 300, 360)] };
    const gaps = { ...NO_GAPS, ...even(30), left: 150, right: 150, min: 30, max: 150, facing: {} };
    const svg = draw(built({ ...square, skew, duct, outlines, gaps }, FRAMED));
    const [a, b] = shapesOf(svg, 'duct')[0]!;
    expect(Math.abs((b![1] - a![1]) / (b![0] - a![0]))).toBeCloseTo(sin / cos, 2);
    expect(words(svg)).toContain('600');
    expect(words(svg).join(' ')).toContain(`${skew}° off square`);
    expect(faultsOf(svg, SHEET)).toEqual([]);
  });

  it('one that is far off square is drawn square and said to be askew', () => {
    const duct = aDuct({
      axis: [
        [0, 0, 0],
        [1000, 600, 0],
      ],
    });
    const svg = draw(
      built({ ...rectangular(600, 300, { ...even(30), left: 200, right: 200 }), skew: 59, duct }, FRAMED),
    );
    expect(words(svg).join(' ')).toContain('which this cut does not show');
  });
});

const aFace = (towards: string, shaft: boolean | null): FaceFacts => ({
  ...{ joint: null, obstacles: [], towards, room: null, shaft, roomWidth: null },
});

describe('in the elevation', () => {
  it('the outer edges of what is built are dashed', () => {
    const penetration = built(rectangular(600, 300, even(30)), FRAMED);
    const svg = drawElevation({ penetration, findings: [], others: new Map(), id: 'x' });
    expectSizes(svg, 'angle', 1, 600 + 2 * 40, 300 + 2 * 40);
    expectSizes(svg, 'boardCollar', 1, 600 + 2 * 100, 300 + 2 * 100);
    // Two layers along the duct and one more at the barrier.
    expectSizes(svg, 'layers', 1, 600 + 2 * 114, 300 + 2 * 114);
    expect(faultsOf(svg, SHEET)).toEqual([]);
    const without = drawElevation({
      penetration: built(rectangular(600, 300, even(30)), null),
      findings: [],
      others: new Map(),
      id: 'x',
    });
    expect(without).not.toContain('data-part');
  });

  it('a collar is square round a round duct too', () => {
    const round = {
      ...rectangular(315, 315, even(40)),
      duct: aDuct({ shape: 'circular', width: null, height: null, diameter: 315 }),
      outlines: { duct: [circle(315)], opening: [circle(395)] },
    };
    const svg = drawElevation({ penetration: built(round, FRAMED), findings: [], others: new Map(), id: 'x' });
    expect(shapesOf(svg, 'boardCollar')[0]).toHaveLength(4);
    expect(shapesOf(svg, 'layers')[0]!.length).toBeGreaterThan(16);
  });
});

describe('which way is which', () => {
  it('passes the pair of gaps that is off by most', () => {
    expect(words(draw(built(rectangular(600, 300, { ...even(30), right: 140 }), FRAMED)))).toEqual(
      expect.arrayContaining(['140', '30', 'Cut through gaps left and right, looking down']),
    );
    expect(words(draw(built(rectangular(600, 300, { ...even(30), bottom: 4 }), FRAMED))).join(' ')).toContain(
      'top and',
    );
  });

  it('says where an angle does not reach the barrier', () => {
    const text = words(draw(built(rectangular(600, 300, { ...even(30), right: 140 }), FRAMED))).join(' ');
    expect(text).toContain('At the right the angle and the board collar do not reach the barrier.');
    expect(words(draw(built(rectangular(600, 300, even(39)), FRAMED))).join(' ')).not.toContain('not reach');
  });

  it('looking east, north is on the left', () => {
    const faces = [aFace('south', null), aFace('north', null)] as const;
    const frame = { normal: [0, 1, 0], right: [1, 0, 0], up: [0, 0, 1] } as const;
    const texts = textsOf(draw(built({ ...rectangular(600, 300, even(30)), faces, frame }, FRAMED)));
    const x = (start: string): number => texts.find(({ text }) => text.startsWith(start))!.x;
    expect(texts.map(({ text }) => text)).toContain('Cut through gaps top and bottom, looking east');
    expect(x('North')).toBeLessThan(x('South'));
  });

  it('what is above stands above, whichever way the normal of a floor goes', () => {
    for (const z of [1, -1] as const) {
      const faces = z > 0 ? [aFace('below', null), aFace('above', null)] : [aFace('above', null), aFace('below', null)];
      const floor = rectangular(600, 300, even(30), { kind: 'floor', construction: 'concrete', thickness: 200 });
      const frame = { normal: [0, 0, z], right: [z, 0, 0], up: [0, 1, 0] } as const;
      const texts = textsOf(draw(built({ ...floor, faces: [faces[0]!, faces[1]!], frame }, SOLID)));
      const y = (start: string): number => texts.find(({ text }) => text.startsWith(start))!.y;
      expect(y('Above')).toBeLessThan(y('Below'));
    }
  });

  it.each([0, 1] as const)('a detail of one face stands out of the shaft (face %d)', (shaft) => {
    const faces = [aFace('south', shaft === 0), aFace('north', shaft === 1)] as const;
    const frame = { normal: [0, 1, 0], right: [1, 0, 0], up: [0, 0, 1] } as const;
    const wall = rectangular(600, 400, even(30), { construction: 'shaftWall', thickness: 100 });
    const svg = draw(built({ ...wall, faces, frame }, SHAFT));
    const collars = shapesOf(svg, 'boardCollar');
    expect(collars).toHaveLength(2);
    const packing = shapesOf(svg, 'packing')[0]!.map(([x]) => x);
    // South is on the right.
    const isOnRight = collars.every((one) => Math.min(...one.map(([x]) => x)) > Math.min(...packing));
    expect(isOnRight).toBe(shaft === 1);
    expect(words(svg).join(' ')).toContain('the one out of the shaft');
  });

  it('what nothing tells is said', () => {
    const wall = rectangular(600, 400, even(30), { construction: 'shaftWall', thickness: 100 });
    const text = words(draw(built({ ...wall, faces: [null, null] }, SHAFT))).join(' ');
    expect(text).toContain('which one is not settled');
  });
});

describe('hostile penetrations', () => {
  const LONG = 'Wand EG Nord Achse 3 bis 7 mit Vorsatzschale '.repeat(250);
  const packing: BuiltPart = { part: 'packing', source: LONG, faces: 'both', material: LONG };
  const CASES: Readonly<Record<string, () => ReportPenetration>> = {
    'names without end': () =>
      built(
        {
          ...rectangular(600, 300, even(30), { name: LONG }),
          ...{ tag: LONG, duct: aDuct({ name: LONG, system: LONG }), faces: [aFace(LONG, null), aFace(LONG, null)] },
        },
        FRAMED,
        { title: LONG },
      ),
    'sixty parts': () =>
      built(rectangular(600, 300, even(30)), FRAMED, { parts: Array.from({ length: 60 }, () => packing) }),
    'a floor with sixty parts': () =>
      built(rectangular(600, 300, even(30), { kind: 'floor' }), SOLID, {
        parts: Array.from({ length: 60 }, () => packing),
      }),
    'nothing at all': () =>
      built(
        { barrier: aBarrier({ thickness: null }), opening: null, gaps: NO_GAPS, outlines: { duct: [], opening: [] } },
        null,
      ),
    'no opening': () =>
      built(
        { ...rectangular(600, 300, even(30)), opening: null, outlines: { duct: [rectangle(600, 300)], opening: [] } },
        FRAMED,
      ),
    'an opening elsewhere': () =>
      built(
        {
          ...rectangular(600, 300, even(30)),
          outlines: {
            duct: [rectangle(600, 300)],
            opening: [rectangle(50, 50).map(([x, y]) => [x, y + 900] as const)],
          },
        },
        FRAMED,
      ),
    'an outline of one point': () => built({ outlines: { duct: [[[0, 0]]], opening: [[[0, 0]]] } }, FRAMED),
    'an outline without area': () =>
      built(
        {
          outlines: {
            duct: [
              [
                [0, 0],
                [0, 0],
                [0, 0],
              ],
            ],
            opening: [],
          },
        },
        FRAMED,
      ),
    'negative gaps': () => built(rectangular(600, 300, even(-20)), FRAMED),
    'gaps of nothing': () => built(rectangular(600, 300, even(0)), FRAMED),
    'gaps of 3 m': () => built(rectangular(600, 300, even(3000)), FRAMED),
    'sizes beyond any building': () => built(rectangular(1e9, 1e9, even(1e9), { thickness: 1e9 }), FRAMED),
    'nothing known of the sizes': () =>
      built(
        { ...rectangular(600, 300, even(30)), duct: aDuct({ shape: 'unknown', width: null, height: null }) },
        FRAMED,
        { layerThickness: null },
      ),
    'a report from before': () =>
      built(rectangular(600, 300, even(30)), FRAMED, {
        parts: [],
        layerThickness: null,
        protection: null,
        gapDatum: null,
        faces: null,
      }),
  };
  it.each(Object.keys(CASES))('%s: no text over another, none off the sheet, no NaN', (name) => {
    const svg = draw(CASES[name]!());
    expect(faultsOf(svg, SHEET)).toEqual([]);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('escapes what models say', () => {
    const svg = draw(
      built({ ...rectangular(600, 300, even(30), { name: '<script>alert(1)</script>' }), tag: '"><img>' }, FRAMED),
    );
    expect(svg).not.toMatch(/<script|<img/);
  });

  it('of any size and gap lays its text out clear, and draws what is known once at each place', () => {
    const size = fc.integer({ min: 50, max: 3600 });
    const gap = fc.integer({ min: 1, max: 300 });
    fc.assert(
      fc.property(
        fc.record({ width: size, height: size, thickness: fc.integer({ min: 60, max: 600 }) }),
        fc.record({ top: gap, bottom: gap, left: gap, right: gap }),
        fc.constantFrom('wall', 'floor'),
        fc.constantFrom(FRAMED, SOLID, THROUGH),
        ({ width, height, thickness }, gaps, kind, by) => {
          const svg = draw(built(rectangular(width, height, gaps, { kind, thickness }), by));
          expect(faultsOf(svg, SHEET)).toEqual([]);
          expect(svg).not.toMatch(/NaN|Infinity|undefined/);
          expect(shapesOf(svg, 'angle')).toHaveLength(4);
          if (by === FRAMED) expect(shapesOf(svg, 'boardCollar')).toHaveLength(4);
        },
      ),
      { numRuns: 120, seed: 20261126 },
    );
  });
});
