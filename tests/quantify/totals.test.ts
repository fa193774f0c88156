import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DECIMALS,
  QUANTITIES,
  type Quantity,
  type TakeoffItem,
  type TakeoffTotal,
} from '../../src/quantify/takeoff.js';
import { totalsOf } from '../../src/quantify/totals.js';
import { exact, expectCrossFooting } from './cross-footing.js';
import { anItem, BLANKET, PIN, SEALANT } from './made-items.js';

const MATERIALS = [BLANKET, PIN, SEALANT];
const STOREYS = [
  { globalId: 'storey-2', name: 'Basement', elevation: -3000 },
  { globalId: 'storey-1', name: 'Ground', elevation: 0 },
];

describe('sums of items', () => {
  const items = [
    anItem({ id: 'Q-1', material: BLANKET.id, pieces: 2, lengthM: 4.4, areaM2: 2.684, massKg: 13.055 }),
    anItem({ id: 'Q-2', material: BLANKET.id, run: 'R-001', storey: null, pieces: 1, lengthM: 2, areaM2: 1.22 }),
    anItem({ id: 'Q-3', material: PIN.id, pieces: 48 }),
    anItem({ id: 'Q-4', material: PIN.id, penetration: 'P-0002', storey: 'storey-2', system: null, pieces: 12 }),
    anItem({ id: 'Q-5', material: SEALANT.id, pieces: 4, lengthM: 3.2 }),
  ];
  const totals = totalsOf(items, MATERIALS, STOREYS);
  const total = (by: TakeoffTotal['by'], id: string | null, material: string) =>
    totals.find((one) => one.by === by && one.id === id && one.material === material);

  it('have a row for each material of each place, storeys from the lowest, what is not known last', () => {
    expect(totals.map(({ by, id, material }) => `${by} ${id} ${material}`)).toEqual([
      'penetration P-0001 blanket-38',
      'penetration P-0001 pin-75',
      'penetration P-0001 sealant',
      'penetration P-0002 pin-75',
      'run R-001 blanket-38',
      'storey storey-2 pin-75',
      'storey storey-1 blanket-38',
      'storey storey-1 pin-75',
      'storey storey-1 sealant',
      'storey null blanket-38',
      'system KX blanket-38',
      'system KX pin-75',
      'system KX sealant',
      'system null pin-75',
      'project null blanket-38',
      'project null pin-75',
      'project null sealant',
    ]);
  });

  it('are of what is known, and say of how many items it is not', () => {
    // 2.684 + 1.22; the mass of the second is not known.
    expect(total('project', null, BLANKET.id)).toMatchObject({
      pieces: 3,
      lengthM: 6.4,
      areaM2: 3.904,
      massKg: 13.055,
      unknownIn: [{ quantity: 'massKg', items: 1 }],
    });
    expect(total('run', 'R-001', BLANKET.id)).toMatchObject({
      massKg: null,
      unknownIn: [{ quantity: 'massKg', items: 1 }],
    });
  });

  it('say nothing of what does not apply, and miss what a material is bought by', () => {
    expect(total('project', null, PIN.id)).toMatchObject({ pieces: 60, areaM2: null, cost: null, unknownIn: [] });
    expect(total('project', null, SEALANT.id)).toMatchObject({
      volumeL: null,
      unknownIn: [{ quantity: 'volumeL', items: 1 }],
    });
  });
});

describe('sums of random items', () => {
  // Values as items have them: rounded once, to the decimals of each quantity.
  const quantity = (name: Quantity) =>
    fc.integer({ min: 0, max: 10_000_000 }).map((units) => units / 10 ** DECIMALS[name]);
  const mayBe = (name: Quantity) => fc.option(quantity(name), { freq: 4 });
  const place = fc.oneof(
    fc.constantFrom('P-1', 'P-2', 'P-3').map((penetration) => ({ penetration, run: null })),
    fc.constantFrom('R-1', 'R-2').map((run) => ({ penetration: null, run })),
  );
  const item: fc.Arbitrary<TakeoffItem> = fc
    .record({
      place,
      material: fc.constantFrom(...MATERIALS.map(({ id }) => id)),
      storey: fc.constantFrom('A', 'B', null),
      system: fc.constantFrom('KX', 'SA', null),
      pieces: fc.integer({ min: 0, max: 500 }),
      ...{ lengthM: mayBe('lengthM'), areaM2: mayBe('areaM2'), volumeL: mayBe('volumeL'), massKg: mayBe('massKg') },
      ...{ cost: mayBe('cost'), hours: mayBe('hours'), labourCost: mayBe('labourCost') },
    })
    .map(({ place: where, ...given }) => anItem({ id: '', ...where, ...given }));
  const many = fc.array(item, { maxLength: 60 });

  it('cross-foot: pieces to penetrations and runs, to storeys, systems and the project', () => {
    fc.assert(
      fc.property(many, (items) => {
        expectCrossFooting({ items, materials: MATERIALS, totals: totalsOf(items, MATERIALS, STOREYS) });
      }),
      { numRuns: 100 },
    );
  });

  it('that are wrong are found by this test: one gram too many, one item that is left out', () => {
    const items = [
      anItem({ id: 'Q-1', material: BLANKET.id, massKg: 1 }),
      anItem({ id: 'Q-2', material: BLANKET.id, massKg: 2 }),
    ];
    const totals = totalsOf(items, MATERIALS, STOREYS);
    const wrong = totals.map((one) => (one.by === 'storey' ? { ...one, massKg: 3.001 } : one));
    expect(() => expectCrossFooting({ items, materials: MATERIALS, totals: wrong })).toThrow();
    const short = totalsOf(items.slice(1), MATERIALS, STOREYS);
    expect(() => expectCrossFooting({ items, materials: MATERIALS, totals: short })).toThrow();
  });

  it('are each the sum of their own items', () => {
    fc.assert(
      fc.property(many, (items) => {
        for (const total of totalsOf(items, MATERIALS, STOREYS)) {
          const own = items.filter(
            (one) => one.material === total.material && (total.by === 'project' || one[total.by] === total.id),
          );
          for (const name of QUANTITIES)
            expect(exact([total[name]], name)).toBe(
              exact(
                own.map((one) => one[name]),
                name,
              ),
            );
        }
      }),
      { numRuns: 50 },
    );
  });
});
