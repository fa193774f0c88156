/** Whatever the building, the take-off adds up, every piece is in one cutting plan, and what is ordered is enough. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Crossings, OpeningSubject, PartMeasures, Storey } from '../../src/model.js';
import { quantify } from '../../src/quantify/quantify.js';
import { QUANTITY_OF, type Takeoff } from '../../src/quantify/takeoff.js';
import { judge } from '../../src/rules/index.js';
import { demoTakeoff } from '../report/demo-report.js';
import { barrier, crossings, duct, run, stretch, stretchPart, wrapped } from '../rules/factories.js';
import { demonstrationBrief } from '../rules/protected.js';
import { rules } from '../shipped-rules.js';
import { expectCrossFooting } from './cross-footing.js';

/** Every piece that has a size and stock is cut as often as it is needed, from no less than it takes. */
function expectCutAndOrdered({ items, cutting, purchases, materials, totals }: Takeoff): void {
  for (const { material, parts, plan } of cutting) {
    const ids = parts.flatMap((part) => part.items);
    const sized = items.filter((item) => item.material === material && item.length !== null && item.pieces > 0);
    expect([...ids].sort()).toEqual(sized.map(({ id }) => id).sort());
    for (const part of parts) {
      const cut = plan.patterns.flatMap(({ times, cuts }) => cuts.map((one) => (one.part === part.part ? times : 0)));
      expect(cut.reduce((sum, times) => sum + times, 0)).toBe(part.count);
    }
    expect(plan.bought).toBeGreaterThanOrEqual(plan.lowerBound - 1e-6);
  }
  // What no plan cuts is ordered by the sum of the project.
  for (const { id, measure } of materials) {
    const orders = purchases.filter(({ material }) => material === id);
    const total = totals.find((one) => one.by === 'project' && one.material === id)!;
    expect(orders.length).toBeGreaterThan(0);
    if (orders.every(({ unit }) => unit === null))
      expect(orders.reduce((sum, { amount }) => sum + (amount ?? 0), 0)).toBeCloseTo(
        total[QUANTITY_OF[measure]] ?? 0,
        6,
      );
  }
}

it('adds up on the demo building', async () => {
  const takeoff = await demoTakeoff();
  expect(takeoff.items.length).toBeGreaterThan(1500);
  expectCrossFooting(takeoff);
  expectCutAndOrdered(takeoff);
  for (const { plan } of takeoff.cutting) expect(plan.gap).toBeLessThanOrEqual(0.02);
});

const STOREYS: readonly Storey[] = ['Ground', 'First', 'Second'].map((name, i) => ({
  ...{ globalId: `S${i}`, name, elevation: 3600 * i },
}));

const side = fc.integer({ min: 4, max: 36 }).map((step) => 50 * step);
const section = fc.oneof(
  fc.record({ width: side, height: side }).map((size) => ({ ...size, shape: 'rectangular' as const, diameter: null })),
  fc.constantFrom(200, 315, 630).map((diameter) => ({ ...NO_SIDES, shape: 'circular' as const, diameter })),
);
const NO_SIDES = { width: null, height: null };
const anyRun = fc.record({
  section,
  lengths: fc.array(
    fc.integer({ min: 1, max: 80 }).map((n) => n * 100),
    { minLength: 1, maxLength: 4 },
  ),
  storey: fc.constantFrom(null, ...STOREYS),
  system: fc.constantFrom('SA', 'SB', 'KX'),
  layers: fc.constantFrom(1, 2),
  construction: fc.constantFrom('steelStud', 'masonry', 'shaftWall' as const),
  gap: fc.constantFrom(10, 30, 50),
});

/** Ducts that each pass one wall. */
function building(runs: readonly (typeof anyRun extends fc.Arbitrary<infer R> ? R : never)[]): Crossings {
  const ways = runs.map(({ section: size, lengths, storey, system, layers, construction, gap }, i) => {
    const [id, penetration, globalId] = [`R-${i}`, `P-${i}`, `D${i}`];
    const protection = { kind: 'blanket', evidence: 'a drawing', layers, integrity: 120, insulation: 120 } as const;
    const measures: PartMeasures = {
      ...{ section: size, way: 'level', ends: [], surfaceM2: null, insulation: null, inBarrier: 64, unknown: null },
    };
    const parts = lengths.map((length, n) =>
      stretchPart({
        ...{
          globalId: n === 0 ? globalId : `${globalId}-${n}`,
          storey: storey?.globalId ?? null,
          protection,
          measures,
        },
        ...{ length, joins: [n - 1, n + 1].filter((at) => at >= 0 && at < lengths.length) },
      }),
    );
    const [width, height] = size.shape === 'circular' ? [size.diameter, size.diameter] : [size.width, size.height];
    const opening: OpeningSubject = {
      ...{ id: `O-${i}`, model: 'm2', globalId: `O${i}`, shape: 'rectangular', from: 'element', combined: false },
      ...{ width: width + 2 * gap, height: height + 2 * gap, barrier: { model: 'm2', globalId: `W${i}` } },
      ...{ penetrations: [penetration], services: [], position: [0, 0, 0] },
      areaM2: ((width + 2 * gap) * (height + 2 * gap)) / 1e6,
      freeAreaM2: ((width + 2 * gap) * (height + 2 * gap) - width * height) / 1e6,
    };
    return {
      opening,
      run: run({ id, system, stretches: [stretch({ id: `${id}.1`, parts, ends: [{ penetration, part: 0 }] })] }),
      penetration: wrapped({
        ...{ id: penetration, key: `key-${i}`, storey },
        duct: duct({ ...size, globalId, system, run: id }),
        barrier: barrier({ globalId: `W${i}`, construction, thickness: 190 }),
        treatment: { ...wrapped().treatment, layers },
      }),
    };
  });
  return crossings({
    penetrations: ways.map((one) => one.penetration),
    openings: ways.map((one) => one.opening),
    runs: ways.map((one) => one.run),
  });
}

describe('random buildings', () => {
  it('add up, are cut and ordered', async () => {
    const kinds = new Set<string>();
    await fc.assert(
      fc.asyncProperty(fc.array(anyRun, { minLength: 1, maxLength: 5 }), async (runs) => {
        const found = building(runs);
        const judgement = judge(found, rules, { brief: demonstrationBrief });
        const takeoff = await quantify({
          ...{ crossings: found, judgement, systems: rules.systems, storeys: STOREYS },
          choices: demonstrationBrief.choices,
        });
        expect(takeoff.items.length + takeoff.uncounted.length).toBeGreaterThan(0);
        expectCrossFooting(takeoff);
        expectCutAndOrdered(takeoff);
        for (const { run: along, formula } of takeoff.items) kinds.add(`${along === null ? 'at' : 'along'} ${formula}`);
      }),
      { numRuns: 25 },
    );
    expect([...kinds]).toEqual(
      expect.arrayContaining(['at packing', 'at frame', 'at wrap', 'along strip', 'along tape']),
    );
  });
});
