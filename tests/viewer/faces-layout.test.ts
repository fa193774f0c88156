import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { overlap } from '../../src/draw/paper/layout.js';
import { bounds, contains } from '../../src/geometry/polygon.js';
import type { Polygon, Vec2 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { BarrierFace } from '../../src/scene/geometry-extras.js';
import { type FlatBarrier, flatBarrier } from '../../viewer/faces/flat.js';
import { placeRow } from '../../viewer/faces/layout.js';
import type { PlacedRow } from '../../viewer/faces/placed.js';
import { type FacePlan, planFace } from '../../viewer/faces/plan.js';
import { barrierScale, commonScale, near, SCALES, separatingScale, unitOf } from '../../viewer/faces/scales.js';
import { axisOf, endOf, placeOn } from '../../viewer/faces/shorten.js';
import { spread } from '../../viewer/faces/spread.js';
import type { BuildingBarrier } from '../../viewer/state/building.js';
import { openReport } from '../../viewer/state/open-report.js';
import { demoReport } from '../report/demo-report.js';

const WIDTH = 441;

let barriers: readonly BuildingBarrier[] = [];
let template: BuildingBarrier;
beforeAll(async () => {
  barriers = [...openReport(await demoReport()).building.barriers.values()];
  template = barriers.find(({ kind, penetrations }) => kind === 'wall' && penetrations.length > 5)!;
});

const everything = (): boolean => true;
const rowsOf = (plan: FacePlan, side: 'A' | 'B' = 'A'): PlacedRow[] => plan.rows.map((_, i) => placeRow(plan, i, side));

const box = (w: number, h: number): Polygon => [
  [-w / 2, -h / 2],
  [w / 2, -h / 2],
  [w / 2, h / 2],
  [-w / 2, h / 2],
];

interface Duct {
  readonly x: number;
  readonly z: number;
  readonly w: number;
  readonly h: number;
}

/** A wall along x with these ducts; the rest is the demo building's. */
function wallOf(ducts: readonly Duct[]): BuildingBarrier {
  const [p] = template.penetrations;
  return {
    ...template,
    penetrations: ducts.map(
      ({ x, z, w, h }, i): ReportPenetration => ({
        ...p!,
        id: `P-${i}`,
        position: [x, 0, z],
        frame: { normal: [0, 1, 0], right: [1, 0, 0], up: [0, 0, 1] },
        outlines: { duct: [box(w, h)], opening: [box(w + 60, h + 60)] },
      }),
    ),
  };
}
const faceOf = (length: number, height: number): BarrierFace => ({
  ...{ origin: [0, 0, 0], right: [1, 0, 0], up: [0, 0, 1], normal: [0, 1, 0] },
  outline: [
    [
      [0, 0],
      [length, 0],
      [length, height],
      [0, height],
    ],
  ],
  openings: [],
  services: [],
});

const someDucts = fc.array(
  fc.record({
    x: fc.integer({ min: 400, max: 39_600 }),
    z: fc.integer({ min: 400, max: 3_000 }),
    w: fc.integer({ min: 80, max: 1_500 }),
    h: fc.integer({ min: 80, max: 700 }),
  }),
  { minLength: 1, maxLength: 25 },
);

/** What must hold of every row of every barrier. */
function check(flat: FlatBarrier, plan: FacePlan): void {
  const rows = rowsOf(plan);
  const placed = rows.flatMap(({ penetrations }) => penetrations.map(({ penetration }) => penetration.id));
  expect([...placed].sort()).toEqual(flat.penetrations.map(({ penetration }) => penetration.id).sort());
  const marked = rows.flatMap(({ marks }) => marks.flatMap(({ members }) => members.map((one) => one.penetration.id)));
  expect([...marked].sort()).toEqual([...placed].sort());
  for (const row of rows) {
    for (const [i, a] of row.marks.entries())
      for (const b of row.marks.slice(i + 1)) expect(overlap(a.label, b.label, 0)).toBe(false);
    for (const { label } of row.marks) {
      expect(label.x).toBeGreaterThanOrEqual(-1e-6);
      expect(label.x + label.width).toBeLessThanOrEqual(row.width + 1e-6);
      expect(label.y).toBeGreaterThan(row.drawingHeight);
      expect(label.y + label.height).toBeLessThanOrEqual(row.height);
    }
    for (const { at, penetration } of row.marks) {
      const own = row.penetrations.find((one) => one.penetration.id === penetration.id)!;
      const middle: Vec2 = [own.box.x + own.box.width / 2, own.box.y + own.box.height / 2];
      expect(Math.hypot(at[0] - middle[0], at[1] - middle[1])).toBeLessThan(1e-6);
    }
    trueToScale(flat, plan, row);
  }
}

/** Every duct is as large on screen as its outline and the scale say: 1 px is 25.4 / 96 mm (CSS Values and Units 4, 6.2). */
function trueToScale(flat: FlatBarrier, { scale }: FacePlan, row: PlacedRow): void {
  for (const { penetration, box: placed } of row.penetrations) {
    const { min, max } = flat.penetrations.find((one) => one.penetration.id === penetration.id)!.ductBox;
    const inMm = ((scale * 25.4) / 96) * placed.width;
    expect(Math.abs(inMm - (max[0] - min[0]))).toBeLessThan(1e-6);
    expect(Math.abs(((scale * 25.4) / 96) * placed.height - (max[1] - min[1]))).toBeLessThan(1e-6);
  }
}

describe('a barrier drawn flat', () => {
  it('shows every penetration of the demo building once, with its mark on it and its label free of others', () => {
    for (const barrier of barriers) {
      const flat = flatBarrier(barrier);
      for (const scale of [barrierScale(flat, 50, WIDTH), 10, 200])
        check(flat, planFace(flat, everything, WIDTH, scale));
    }
    expect(barriers.length).toBeGreaterThan(30);
  });

  it('does so on random walls, with and without an outline', () => {
    fc.assert(
      fc.property(someDucts, fc.constantFrom(...SCALES.slice(3)), fc.boolean(), (ducts, scale, hasFace) => {
        const flat = flatBarrier(wallOf(ducts), hasFace ? faceOf(40_000, 3_400) : undefined);
        check(flat, planFace(flat, everything, WIDTH, scale));
      }),
      { numRuns: 150 },
    );
  });

  it('is the mirror image from the other side, rows in the other order', () => {
    fc.assert(
      fc.property(someDucts, (ducts) => {
        const flat = flatBarrier(wallOf(ducts), faceOf(40_000, 3_400));
        const plan = planFace(flat, everything, WIDTH, 50);
        const [a, b] = [rowsOf(plan, 'A'), rowsOf(plan, 'B').reverse()];
        for (const [i, row] of a.entries()) {
          const other = b[i]!;
          expect(other.width).toBe(row.width);
          for (const mark of row.marks) {
            const there = other.marks.find(({ penetration }) => penetration.id === mark.penetration.id)!;
            expect(there.at[0]).toBeCloseTo(row.width - mark.at[0], 9);
            expect(there.at[1]).toBe(mark.at[1]);
            expect(there.label.x + there.label.width).toBeCloseTo(row.width - mark.label.x, 9);
          }
          expect(bounds(other.solid).max[0]).toBeCloseTo(row.width - bounds(row.solid).min[0], 9);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('counts clusters right: what overlaps is joined, what does not stays apart', () => {
    const flat = flatBarrier(
      wallOf([
        { x: 2_000, z: 2_500, w: 200, h: 200 },
        { x: 2_250, z: 2_500, w: 200, h: 200 },
        { x: 2_500, z: 2_500, w: 200, h: 200 },
        { x: 9_000, z: 2_500, w: 200, h: 200 },
      ]),
      faceOf(12_000, 3_400),
    );
    const sizes = (scale: number): number[] =>
      rowsOf(planFace(flat, everything, WIDTH, scale)).flatMap(({ marks }) =>
        marks.map(({ members }) => members.length),
      );
    expect(sizes(100)).toEqual([3, 1]);
    expect(sizes(25)).toEqual([1, 1, 1, 1]);
    const members = flat.penetrations.slice(0, 3);
    const apart = separatingScale(members, 100);
    expect(apart).toBe(25);
    expect(near(members[0]!, members[1]!, unitOf(50))).toBe(true);
  });

  it('a cluster has the mark of its most serious member', () => {
    const wall = wallOf([
      { x: 2_000, z: 2_500, w: 200, h: 200 },
      { x: 2_100, z: 2_500, w: 200, h: 200 },
    ]);
    const [p, q] = wall.penetrations;
    const mixed = {
      ...wall,
      penetrations: [
        { ...p!, outcome: 'passed' as const },
        { ...q!, outcome: 'cantTell' as const },
      ],
    };
    const [mark] = rowsOf(planFace(flatBarrier(mixed), everything, WIDTH, 100))[0]!.marks;
    expect([mark?.outcome, mark?.penetration.id, mark?.members.length]).toEqual(['cantTell', 'P-1', 2]);
  });

  it('draws what the filter holds back without mark and label', () => {
    const flat = flatBarrier(template);
    const [first] = flat.penetrations;
    const rows = rowsOf(planFace(flat, (id) => id === first!.penetration.id, WIDTH, 25));
    expect(rows.flatMap(({ marks }) => marks)).toHaveLength(1);
    const faint = rows.flatMap(({ penetrations }) => penetrations.filter(({ isSeen }) => !isSeen));
    expect(faint).toHaveLength(flat.penetrations.length - 1);
  });

  it('shows the ends, foot and head of a wall and breaks between them', () => {
    const flat = flatBarrier(wallOf([{ x: 20_000, z: 2_500, w: 600, h: 400 }]), faceOf(40_000, 3_400));
    const [row] = rowsOf(planFace(flat, everything, WIDTH, 25));
    const { min, max } = bounds(row!.solid);
    // Both ends of 40 m of wall within the width of the region, and its whole height as it is between them.
    expect(max[0] - min[0]).toBeLessThan(WIDTH);
    expect(row!.edges.filter(([a, b]) => a[0] === b[0]).length).toBeGreaterThanOrEqual(2);
    expect(row!.breaks.length).toBeGreaterThan(0);
    expect(row!.solid.some((area) => contains(area, row!.marks[0]!.at))).toBe(true);
  });

  it('goes on to all sides where no outline is known', () => {
    const flat = flatBarrier(wallOf([{ x: 20_000, z: 2_500, w: 600, h: 400 }]));
    expect(flat.hasOutline).toBe(false);
    const [row] = rowsOf(planFace(flat, everything, WIDTH, 25));
    expect(row!.breaks).toHaveLength(4);
    expect(row!.levels).toHaveLength(0);
  });
});

describe('the scale', () => {
  it('is common where three of four ducts are easily seen', () => {
    const sized = (w: number): FlatBarrier => flatBarrier(wallOf([{ x: 0, z: 2_500, w, h: w }]));
    // At 1:25 a px is 6.615 mm: 600 mm are 90.7 px; at 1:50 they are 45.4, at 1:100 22.7.
    expect(commonScale([600, 600, 600, 600].map(sized))).toBe(50);
    expect(commonScale([200, 600, 600, 600].map(sized))).toBe(50);
    expect(commonScale([200, 200, 600, 600].map(sized))).toBe(10);
  });

  it('is larger for small ducts and smaller for what would not go into the row', () => {
    const sized = (w: number, h = w): FlatBarrier => flatBarrier(wallOf([{ x: 0, z: 2_500, w, h }]));
    expect(barrierScale(sized(600), 50, WIDTH)).toBe(50);
    expect(barrierScale(sized(200), 50, WIDTH)).toBe(25);
    expect(barrierScale(sized(9_000, 400), 50, WIDTH)).toBe(100);
  });

  it('leaves no mark on another one after a cluster is opened, unless ducts are in one place', () => {
    fc.assert(
      fc.property(someDucts, (ducts) => {
        const { penetrations } = flatBarrier(wallOf(ducts));
        const scale = separatingScale(penetrations, 500);
        const apart = penetrations.every((a, i) => penetrations.slice(i + 1).every((b) => !near(a, b, unitOf(scale))));
        expect(apart || scale === SCALES[0]).toBe(true);
      }),
    );
  });
});

describe('a shortened line', () => {
  it('keeps what is wanted at its length and in its order', () => {
    const interval = fc.tuple(fc.integer({ min: 0, max: 50_000 }), fc.integer({ min: 1, max: 3_000 }));
    fc.assert(
      fc.property(fc.array(interval, { minLength: 1, maxLength: 20 }), fc.constantFrom(2, 6.6, 13.2), (list, unit) => {
        const wanted = list.map(([from, size]) => ({ from, to: from + size }));
        const axis = axisOf(wanted, unit);
        for (const { from, to } of wanted)
          expect(placeOn(axis, to) - placeOn(axis, from)).toBeCloseTo((to - from) / unit, 6);
        const ends = axis.stretches.flatMap((stretch) => [stretch.at, endOf(axis, stretch)]);
        expect(ends).toEqual([...ends].sort((a, b) => a - b));
        expect(axis.length).toBeCloseTo(ends.at(-1)!, 9);
      }),
    );
  });
});

describe('labels in a line', () => {
  it('stand apart, in order, and where they were wished if there is room', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 440 }), { maxLength: 5 }), (list) => {
        const wished = [...list].sort((a, b) => a - b);
        const placed = spread(wished, 86, 441);
        for (const [i, at] of placed.entries()) {
          expect(at).toBeGreaterThanOrEqual(43 - 1e-9);
          expect(at).toBeLessThanOrEqual(441 - 43 + 1e-9);
          if (i > 0) expect(at - placed[i - 1]!).toBeGreaterThanOrEqual(86 - 1e-9);
        }
      }),
    );
    expect(spread([100, 250, 390], 86, 441)).toEqual([100, 250, 390]);
  });
});
