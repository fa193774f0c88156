/** Storey plans of buildings drawn for the purpose, whose walls have closed forms on plan. */
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { type BuilderOptions, ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { totalArea } from '../../src/geometry/areas.js';
import type { StoreyPlan } from '../../src/scene/storey-plan.js';
import { storeyPlans } from '../../src/scene/storey-plans.js';
import { review } from '../one-wall.js';
import { demoPlans } from '../report/demo-report.js';

type Build = (b: ModelBuilder) => void;

async function plansOf(...files: (readonly [Build, Partial<BuilderOptions>?])[]): Promise<StoreyPlan[]> {
  const written = files.map(([build, options], i) => {
    const fileName = `file-${i + 1}.ifc`;
    const b = new ModelBuilder({ ...options, fileName });
    build(b);
    return { name: fileName, bytes: new TextEncoder().encode(b.toString()) };
  });
  const { federation, report } = await review(written);
  const plans = storeyPlans(federation, report);
  const marked = plans.flatMap(({ penetrations }) => penetrations.map(({ id }) => id)).sort();
  expect(marked).toEqual(report.penetrations.map(({ id }) => id).sort());
  return plans;
}

const areaOf = (plan: StoreyPlan): number => totalArea(plan.walls.flatMap(({ outlines }) => outlines));

/** Clipper2 keeps 0.001 mm, along 10 m of edges. */
const ROUNDED = 10;

const oneWall: Build = (b) => {
  b.opening(b.wall(WALL), OPENING);
  b.duct(DUCT);
};

describe('a wall with a duct', () => {
  it('is cut at 1.2 m, under the duct, with its rating, the duct over it and the penetration in its middle', async () => {
    const [plan, ...more] = await plansOf([oneWall]);
    expect(more).toEqual([]);
    expect(plan).toMatchObject({ elevation: 0, cutAt: 1200, up: 'planNorth', names: ['Ground floor'], openings: [] });
    expect(areaOf(plan!)).toBeCloseTo(5000 * 128, 0);
    expect(plan!.walls).toMatchObject([{ rated: true, rating: { text: '-/120/120' } }]);
    const [duct] = plan!.ducts;
    expect(plan!.ducts).toHaveLength(1);
    expect(duct).toMatchObject({ lies: 'above', isUpright: false, isDamper: false });
    expect(totalArea(duct!.outlines)).toBeCloseTo(600 * 5000, 0);
    const ends = duct!.centreLine!.map(([x, y]) => [x + plan!.origin[0], y + plan!.origin[1]]);
    expect(ends.sort((a, b) => a[1]! - b[1]!)).toEqual([
      [3000, -2500],
      [3000, 2500],
    ]);
    const [p] = plan!.penetrations;
    expect(p).toMatchObject({ kind: 'wall', isOverhead: false, outlines: [] });
    expect([p!.at[0] + plan!.origin[0], p!.at[1] + plan!.origin[1]]).toEqual([3000, 0]);
    expect(Math.abs(p!.along[0])).toBeCloseTo(1, 9);
  });

  it.each([
    ['5,800 km from the origin', { offset: [4_100_000_000, 4_100_000_000, 0] }],
    ['turned by 33 degrees there', { offset: [4_100_000_000, -4_100_000_000, 12_000], rotation: 33 }],
    ['in feet', { unit: 'foot' }],
  ] as [string, Partial<BuilderOptions>][])('is the same %s', async (_, options) => {
    const [plan] = await plansOf([oneWall, options]);
    expect(Math.abs(areaOf(plan!) - 5000 * 128)).toBeLessThan(ROUNDED);
    const turn = ((options.rotation ?? 0) * Math.PI) / 180;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const [x, y] = [3000 * c + (options.offset?.[0] ?? 0), 3000 * s + (options.offset?.[1] ?? 0)];
    const [p] = plan!.penetrations;
    // Positions are reported to 0.1 mm.
    expect(Math.abs(p!.at[0] + plan!.origin[0] - x)).toBeLessThan(0.11);
    expect(Math.abs(p!.at[1] + plan!.origin[1] - y)).toBeLessThan(0.11);
    expect(Math.abs(p!.along[0] * c + p!.along[1] * s)).toBeCloseTo(1, 6);
  });

  it('of two files with map conversions that differ has the north of the map on top', async () => {
    const map = (eastings: number) => ({ mapConversion: { eastings, northings: 5_000_000_000, rotation: 20 } });
    const plans = await plansOf(
      [(b) => b.opening(b.wall(WALL), OPENING), map(4e8)],
      [(b) => b.duct(DUCT), map(4e8 + 1)],
    );
    expect(plans).toMatchObject([{ up: 'mapNorth', penetrations: [{ kind: 'wall' }] }]);
    expect(Math.abs(areaOf(plans[0]!) - 5000 * 128)).toBeLessThan(ROUNDED);
    const [dx, dy] = plans[0]!.penetrations[0]!.along;
    expect(Math.abs(dx * Math.cos(Math.PI / 9) + dy * Math.sin(Math.PI / 9))).toBeCloseTo(1, 6);
  });
});

it('cuts doors out of walls, and tells them from other openings', async () => {
  const [plan] = await plansOf([
    (b) => {
      const wall = b.wall(WALL);
      b.door(b.opening(wall, { centre: [1000, 0, 1000], width: 900, height: 2000 }), { name: 'Door' });
      b.opening(wall, { centre: [4000, 0, 1500], width: 400, height: 900 });
    },
  ]);
  expect(areaOf(plan!)).toBeCloseTo((5000 - 900 - 400) * 128, 0);
  const areas = plan!.openings.map(({ isDoor, outlines }) => [isDoor, Math.round(totalArea(outlines))]);
  expect(areas.sort()).toEqual([
    [false, 400 * 128],
    [true, 900 * 128],
  ]);
});

it('cuts curved walls as a part of a ring', async () => {
  const [plan] = await plansOf([
    (b) => b.curvedWall({ name: 'Drum', centre: [0, 0], radius: 6000, thickness: 200, from: 0, to: 90, height: 3000 }),
  ]);
  // Arcs are drawn within 0.01 mm: over 9.4 m of wall, both faces, that is at most 190 mm².
  expect(Math.abs(areaOf(plan!) - (Math.PI / 2) * 6000 * 200)).toBeLessThan(190);
});

describe('storeys', () => {
  const storey = (b: ModelBuilder, name: string, base: number, x = 0): void => {
    b.storey(name, base);
    const [from, to] = [[x, 0] as const, [x + 5000, 0] as const];
    b.wall({ ...WALL, name: `Wall of ${name} at ${x}`, from, to, base });
    const ends = { from: [x + 3000, -2500, base + 2000], to: [x + 3000, 2500, base + 2000] } as const;
    b.duct({ ...DUCT, name: `Duct of ${name} at ${x}`, ...ends });
  };
  const shown = (plans: readonly StoreyPlan[]) =>
    plans.map(({ names, elevation, penetrations }) => [names.join(), elevation, penetrations.length]);

  it('of one name in two files are one; two of one name at two heights are two', async () => {
    const both: Build = (b) => {
      storey(b, 'Level', 0);
      storey(b, 'Level', 4000);
    };
    const plans = await plansOf([both], [(b) => storey(b, 'Level', 0, 8000)]);
    expect(shown(plans)).toEqual([
      ['Level', 0, 2],
      ['Level', 4000, 1],
    ]);
  });

  it('of one height with two names are one with both names', async () => {
    const plans = await plansOf([(b) => storey(b, 'EG', 0)], [(b) => storey(b, 'Ground', 100, 8000)]);
    expect(shown(plans)).toEqual([['EG,Ground', expect.any(Number), 2]]);
  });

  it('of two buildings side by side on a slope stay apart', async () => {
    const plans = await plansOf([
      (b) => {
        for (const base of [0, 4000, 8000]) storey(b, `A ${base}`, base);
        for (const base of [2000, 6000]) storey(b, `B ${base}`, base, 40_000);
      },
    ]);
    expect(shown(plans)).toEqual([0, 2000, 4000, 6000, 8000].map((h) => [h % 4000 ? `B ${h}` : `A ${h}`, h, 1]));
    for (const { walls, ducts } of plans) expect([walls.length, ducts.length]).toEqual([1, 1]);
  });

  it('have the penetrations of a shaft that goes through them, and of a wall that stands on another storey', async () => {
    const plans = await plansOf([
      (b) => {
        storey(b, 'One', 0);
        storey(b, 'Two', 4000);
        b.wall({ ...WALL, name: 'Shaft', from: [0, 3000], to: [5000, 3000], base: 0, height: 8000 });
        for (const z of [2000, 6000])
          b.duct({ ...DUCT, name: `Into the shaft at ${z}`, from: [1000, 2000, z], to: [1000, 4000, z] });
      },
    ]);
    expect(shown(plans)).toEqual([
      ['One,Two', 0, 2],
      ['Two', 4000, 2],
    ]);
  });

  it('have the penetrations of the floor they stand on; those of the roof are overhead', async () => {
    const plans = await plansOf([
      (b) => {
        storey(b, 'One', 0);
        for (const [name, top] of [
          ['Floor', 4000],
          ['Roof', 8000],
        ] as const)
          b.slab({
            name,
            outline: rectangle([-1000, -6000], [6000, 6000]),
            thickness: 300,
            top,
            rating: '120/120/120',
          });
        storey(b, 'Two', 4000);
        b.duct({ name: 'Riser', from: [500, 4000, 200], to: [500, 4000, 9000], width: 400, height: 300 });
      },
    ]);
    const floors = plans.map(({ penetrations }) => penetrations.filter(({ kind }) => kind !== 'wall'));
    expect(floors.map((list) => list.map(({ isOverhead }) => isOverhead).sort())).toEqual([[], [false, true]]);
    expect(totalArea(floors[1]![0]!.outlines)).toBeCloseTo(400 * 300, 0);
    expect(plans.map(({ ducts }) => ducts.filter(({ isUpright }) => isUpright).length)).toEqual([1, 1]);
  });

  it('without any wall are where something passes', async () => {
    const plans = await plansOf([
      (b) => {
        for (const top of [0, 4000])
          b.slab({
            name: `Slab ${top}`,
            outline: rectangle([0, 0], [9000, 9000]),
            thickness: 300,
            top,
            rating: '-/60/60',
          });
        b.duct({ name: 'Riser', from: [4000, 4000, -2000], to: [4000, 4000, 6000], width: 400, height: 300 });
      },
    ]);
    expect(shown(plans).map(([name, , count]) => [name, count])).toEqual([
      ['', 1],
      ['', 1],
    ]);
  });

  it('are none where there is nothing', async () => {
    expect(await plansOf([() => {}])).toEqual([]);
    expect(await plansOf([(b) => void b.storey('Empty', 0)])).toEqual([]);
  });
});

it('shows each penetration of the demo building once, where the report has it, on the storey that the model names', async () => {
  const { plans, report } = await demoPlans();
  expect(plans.map(({ names }) => names)).toEqual([['Ground floor'], ['First floor'], ['Second floor']]);
  const byId = new Map(report.penetrations.map((p) => [p.id, p]));
  const all = plans.flatMap((plan) => plan.penetrations.map((marked) => ({ plan, marked })));
  expect(new Set(all.map(({ marked }) => marked.id)).size).toBe(report.penetrations.length);
  expect(all).toHaveLength(report.penetrations.length);
  for (const { plan, marked } of all) {
    const { position, tag, outcome, storey, barrier } = byId.get(marked.id)!;
    expect([marked.tag, marked.outcome]).toEqual([tag, outcome]);
    expect(marked.at[0] + plan.origin[0]).toBeCloseTo(position[0], 6);
    expect(marked.at[1] + plan.origin[1]).toBeCloseTo(position[1], 6);
    if (barrier.kind === 'wall') expect(plan.names).toEqual([storey!.name]);
  }
});
