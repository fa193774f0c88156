import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawStoreyPlan, PLAN_SHEETS, type StoreyPlanOptions } from '../../../src/draw/paper/storey-plan.js';
import { circle, rectangle } from '../../../src/geometry/polygon.js';
import type { Polygon, Rating, Vec2 } from '../../../src/model.js';
import type { PlanPenetration, PlanWall, StoreyPlan } from '../../../src/scene/storey-plan.js';
import { storeyPlans } from '../../../src/scene/storey-plans.js';
import { towers } from '../../compare/towers.js';
import { rating, UNREADABLE, UNSTATED } from '../../model-factories.js';
import { review } from '../../one-wall.js';
import { demoPlans } from '../../report/demo-report.js';
import { faultsOf, textsOf } from './svg-texts.js';

const OPTIONS: StoreyPlanOptions = {
  ...{ id: 'x', createdAt: '2026-01-02T03:04:05Z', revision: 'C', stamp: 'DEMONSTRATION DATA: invented.' },
  caution: 'A review of models, not a certification.',
  compartmentNames: true,
};

const moved = (outline: Polygon, [x, y]: Vec2): Polygon => outline.map(([a, b]) => [a + x, b + y] as const);

const aWall = (at: Vec2, length: number, thickness: number, rated: Rating = rating()): PlanWall => ({
  ...{ name: 'W', rating: rated, construction: 'concrete' },
  rated: rated.state === 'unstated' ? false : rated.state === 'unreadable' ? null : true,
  outlines: [moved(rectangle(length, thickness), at)],
});

const aMark = (i: number, at: Vec2, changes: Partial<PlanPenetration> = {}): PlanPenetration => ({
  ...{ id: `P-${i}`, tag: `T${String(i).padStart(3, '0')}-X`, outcome: 'failed', kind: 'wall', isOverhead: false },
  ...{ at, along: [1, 0], outlines: [] },
  ...changes,
});

const aPlan = (changes: Partial<StoreyPlan> = {}): StoreyPlan => ({
  ...{ id: 'L-01', names: ['Level 1'], elevation: 0, cutAt: 1200, origin: [0, 0], up: 'planNorth' },
  ...{ walls: [aWall([0, 0], 20_000, 200)], columns: [], openings: [], voids: [], ducts: [], axes: [] },
  ...{ compartments: [], penetrations: [] },
  ...changes,
});

const words = (svg: string): string[] => textsOf(svg).map(({ text }) => text);
/** Every tag of the plan, however it is shown; each once over all sheets. */
function expectAllTags(sheets: readonly string[], plan: StoreyPlan): void {
  const all = sheets.flatMap(words);
  for (const { tag, isOverhead } of plan.penetrations) {
    const shown = all.filter((text) => text === (isOverhead ? `${tag} overhead` : tag));
    expect(shown, tag).toHaveLength(1);
  }
}

function expectClean(sheets: readonly string[], size: keyof typeof PLAN_SHEETS = 'A4'): void {
  for (const svg of sheets) {
    expect(faultsOf(svg, PLAN_SHEETS[size])).toEqual([]);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  }
}

describe('the demo building', () => {
  let plans: StoreyPlan[];
  beforeAll(async () => {
    ({ plans } = await demoPlans());
  });

  it.each(['A3', 'A4'] as const)('on %s has every tag once, no text over another, none off the sheet', (sheet) => {
    for (const plan of plans) {
      const sheets = drawStoreyPlan(plan, { ...OPTIONS, sheet });
      expectClean(sheets, sheet);
      expectAllTags(sheets, plan);
    }
  });

  it('says on every sheet what it is, and what it is not', () => {
    for (const plan of plans)
      for (const svg of drawStoreyPlan(plan, OPTIONS)) {
        const said = words(svg).join(' ');
        for (const what of [
          `Plan of ${plan.names[0]}`,
          'on A4',
          'C',
          '2026-01-02',
          'DEMONSTRATION DATA',
          'not a certification',
        ])
          expect(said).toContain(what);
      }
  });

  it('tells ratings in words and by hatch, and has the grid', () => {
    const [svg] = drawStoreyPlan(plans[1]!, OPTIONS);
    expect(words(svg!)).toEqual(expect.arrayContaining(['-/60/60', '120/120/120', 'A', 'D', '1', '6']));
    expect(svg).toContain('url(#wide-xs1)');
    expect(svg).toContain('url(#close-xs1)');
  });
});

it('of a tower with 28 penetrations on each storey, 300 mm apart, has every tag once and clear', async () => {
  const [, files] = towers()[0]!;
  const { federation, report } = await review(
    files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) })),
  );
  const plans = storeyPlans(federation, report);
  expect(plans.map(({ names, penetrations }) => [names.join(), penetrations.length])).toEqual(
    [1, 2, 3, 4, 5].map((i) => [`Storey ${i}`, 28]),
  );
  for (const plan of plans) {
    const sheets = drawStoreyPlan(plan, OPTIONS);
    expectClean(sheets);
    expectAllTags(sheets, plan);
  }
});

describe('scale', () => {
  /** Length on paper of the hatched wall. */
  const lengthOf = (svg: string): number => {
    const [, d] = /<path d="([^"]+)" fill="url\(#close/.exec(svg)!;
    const xs = [...d!.matchAll(/[ML](-?[\d.]+) /g)].map(([, x]) => Number(x));
    return Math.max(...xs) - Math.min(...xs);
  };
  it.each([
    [8_000, 50],
    [10_000, 100],
    [18_000, 100],
    [19_000, 200],
    [37_000, 200],
  ])('of a wall %d mm long is 1:%d', (length, scale) => {
    const sheets = drawStoreyPlan(aPlan({ walls: [aWall([0, 0], length, 200)] }), OPTIONS);
    expect(sheets).toHaveLength(1);
    expect(words(sheets[0]!)).toContain(`1:${scale} on A4`);
    expect(lengthOf(sheets[0]!)).toBeCloseTo(length / scale, 1);
  });

  it('turns a building square to the sheet, by the least turn, and north with it', () => {
    const turn = Math.PI / 9;
    const turned = (outline: Polygon): Polygon =>
      outline.map(([x, y]) => [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)]);
    const [svg] = drawStoreyPlan(
      aPlan({ walls: [{ ...aWall([0, 0], 20_000, 200), outlines: [turned(rectangle(20_000, 200))] }] }),
      OPTIONS,
    );
    expect(lengthOf(svg!)).toBeCloseTo(20_000 / 200, 1);
    expect(svg).toMatch(/rotate\(20\.0\)"><path d="M0 -2\.4/);
  });

  it('stays 1:200 on a long storey, cut along lines that name the next sheet', () => {
    const penetrations = Array.from({ length: 12 }, (_, i) => aMark(i, [i * 8000 - 44_000, 0]));
    const plan = aPlan({ walls: [aWall([0, 0], 90_000, 200)], penetrations });
    const sheets = drawStoreyPlan(plan, OPTIONS);
    expect(sheets).toHaveLength(3);
    const next = sheets.map((svg) => words(svg).filter((text) => text.startsWith('Continues')));
    expect(next).toEqual([
      ['Continues on sheet 2'],
      ['Continues on sheet 1', 'Continues on sheet 3'],
      ['Continues on sheet 2'],
    ]);
    for (const svg of sheets) expect(words(svg)).toContain('1:200 on A4');
    expectClean(sheets);
    expectAllTags(sheets, plan);
  });

  it('parts a site between its buildings, each as large as its sheet bears', () => {
    const walls = [aWall([0, 0], 8_000, 200), aWall([60_000, 0], 30_000, 200)];
    const sheets = drawStoreyPlan(aPlan({ walls }), OPTIONS);
    expect(sheets.map((svg) => words(svg).find((text) => text.startsWith('1:')))).toEqual([
      '1:50 on A4',
      '1:200 on A4',
    ]);
    expect(sheets.flatMap(words).filter((text) => text.startsWith('Continues'))).toEqual([]);
  });

  it('gets smaller where a dozen sheets would not do', () => {
    const walls = [aWall([0, 0], 300_000, 200), aWall([0, 90_000], 200, 180_000)];
    const sheets = drawStoreyPlan(aPlan({ walls }), OPTIONS);
    expect(sheets.length).toBeLessThanOrEqual(12);
    for (const svg of sheets) expect(words(svg)).toContain('1:500 on A4');
  });
});

describe('many penetrations', () => {
  it('in a row, 300 mm apart, are all named beside it or by number', () => {
    const penetrations = Array.from({ length: 60 }, (_, i) =>
      aMark(i, [i * 300 - 9000, 0], { outcome: i % 3 ? 'passed' : 'cantTell' }),
    );
    const plan = aPlan({ penetrations });
    const sheets = drawStoreyPlan(plan, OPTIONS);
    expectClean(sheets);
    expectAllTags(sheets, plan);
  });

  it('on one spot are listed by one number, on sheets of their own where the column is full', () => {
    const plan = aPlan({ penetrations: Array.from({ length: 400 }, (_, i) => aMark(i, [i % 7, 0])) });
    const sheets = drawStoreyPlan(plan, OPTIONS);
    expect(sheets.length).toBeGreaterThan(1);
    expect(words(sheets[0]!).filter((text) => text === 'No 1')).toHaveLength(2);
    expectClean(sheets);
    expectAllTags(sheets, plan);
  });

  it('all over the sheet are all there, though there is no room for labels', () => {
    const penetrations = Array.from({ length: 1200 }, (_, i) => aMark(i, [(i % 40) * 900, Math.floor(i / 40) * 900]));
    const plan = aPlan({ walls: [aWall([18_000, 0], 36_000, 200)], penetrations });
    const sheets = drawStoreyPlan(plan, OPTIONS);
    expectClean(sheets);
    expectAllTags(sheets, plan);
    // What has no number on the drawing is found by its place.
    expect(sheets.flatMap(words).some((text) => /^No \d+, at x/.test(text))).toBe(true);
  });

  it('keep leaders clear of the labels of others and of each other', () => {
    const place = fc.tuple(fc.integer({ min: -9000, max: 9000 }), fc.integer({ min: -6000, max: 6000 }));
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 60 }), (places) => {
        const plan = aPlan({ penetrations: places.map((at, i) => aMark(i, at)) });
        const sheets = drawStoreyPlan(plan, OPTIONS);
        expectClean(sheets);
        expectAllTags(sheets, plan);
        for (const svg of sheets) expect(crossings(svg)).toEqual([]);
      }),
      { numRuns: 60, seed: 20261126 },
    );
  });
});

/** Leaders that run through a label or over another leader, by sampling them: no code of the drawing's own. */
function crossings(svg: string): string[] {
  const leaders = [
    ...svg.matchAll(/<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="#1F2426" stroke-width="0.18"/g),
  ].map(([, ...at]) => at.map(Number) as [number, number, number, number]);
  const tags = textsOf(svg).filter(({ text }) => /^T\d+|^No /.test(text));
  const along = ([x0, y0, x1, y1]: (typeof leaders)[number]): Vec2[] =>
    Array.from({ length: 201 }, (_, i): Vec2 => [x0 + ((x1 - x0) * i) / 200, y0 + ((y1 - y0) * i) / 200]);
  return leaders.flatMap((leader, i) => {
    const through = tags.filter(({ x, y, width, height }) =>
      along(leader).some(([px, py]) => px > x + 0.1 && px < x + width - 0.1 && py > y + 0.3 && py < y + height - 0.3),
    );
    const side = ([ax, ay, bx, by]: (typeof leaders)[number], x: number, y: number): number =>
      Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));
    const over = leaders
      .slice(i + 1)
      .filter(
        (other) =>
          side(leader, other[0], other[1]) * side(leader, other[2], other[3]) < 0 &&
          side(other, leader[0], leader[1]) * side(other, leader[2], leader[3]) < 0,
      );
    return [...through.map(({ text }) => `a leader runs through ${text}`), ...over.map(() => 'two leaders cross')];
  });
}

describe('hostile plans', () => {
  const LONG = 'Wand EG Nord Achse 3 bis 7 mit Vorsatzschale '.repeat(50);
  const CASES: Readonly<Record<string, StoreyPlan>> = {
    'names without end': aPlan({
      names: [LONG, LONG],
      walls: [aWall([0, 0], 20_000, 200, rating({ text: LONG })), aWall([0, 3000], 20_000, 200, UNREADABLE)],
      axes: [
        {
          tag: LONG,
          ends: [
            [0, -9000],
            [0, 9000],
          ],
        },
      ],
      compartments: [{ name: LONG, at: [0, 1500] }],
      penetrations: [aMark(1, [0, 0], { tag: LONG.slice(0, 24) })],
    }),
    'nothing but one penetration': aPlan({ names: [], walls: [], penetrations: [aMark(1, [0, 0])] }),
    'nothing at all': aPlan({ names: [], walls: [] }),
    'walls without ratings and round ones': aPlan({
      walls: [
        aWall([0, 0], 9000, 200, UNSTATED),
        { ...aWall([0, 0], 1, 1), outlines: [circle(9000), [...circle(8600)].reverse()] },
      ],
    }),
    'axes that lie on each other': aPlan({
      axes: Array.from({ length: 30 }, (_, i) => ({
        tag: String(i),
        ends: [
          [i * 40, -9000],
          [i * 40, 9000],
        ] as const,
      })),
    }),
    'below the ground': aPlan({ names: [], elevation: -3600, cutAt: -2400, penetrations: [aMark(1, [0, 0])] }),
    'sizes beyond any building': aPlan({ walls: [aWall([0, 0], 1e9, 1e9)], penetrations: [aMark(1, [0, 0])] }),
    'floors and roofs': aPlan({
      penetrations: [
        aMark(1, [0, 3000], { kind: 'floor', outlines: [moved(rectangle(600, 400), [0, 3000])] }),
        aMark(2, [4000, 3000], { kind: 'roof', isOverhead: true, outlines: [moved(circle(400), [4000, 3000])] }),
      ],
    }),
  };
  it.each(Object.keys(CASES))('%s: clean, and nothing is left out', (name) => {
    const sheets = drawStoreyPlan(CASES[name]!, OPTIONS);
    expect(sheets.length).toBeGreaterThan(0);
    expectClean(sheets);
    if (name !== 'names without end') expectAllTags(sheets, CASES[name]!);
  });

  it('escapes what models say', () => {
    const hostile = '</svg><script>alert(1)</script>';
    const plan = aPlan({ names: [hostile], penetrations: [aMark(1, [0, 0], { tag: '"><img onerror="x">' })] });
    for (const svg of drawStoreyPlan(plan, OPTIONS)) expect(svg).not.toMatch(/<script|<img/);
  });
});
