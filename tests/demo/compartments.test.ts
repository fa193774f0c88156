/** Compartments of the demo building against its plan: what its rated walls part, and nothing that leaks. */
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

const files = demoBuilding().files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
const { compartments, penetrations } = findPenetrations(await readFederation(files));

/** Square metres up to the outside of the outer walls, which are not rated: 300 mm beyond the slab of 30 m by 18 m. */
const SHAFT = 2.81 ** 2;
const STAIR = 6.242 ** 2;
const KITCHEN = 5.872 * 6.236;
const CONTROL_ROOM = 10.908 * 6.254;

it('has a shaft and a stair on each storey, the kitchen, the control room and the rest of each storey', () => {
  const shown = compartments.map(({ storey, areaM2, closed }) => [storey?.name, areaM2, closed] as const);
  const near = (area: number) => expect.closeTo(area, 3);
  const rest = expect.any(Number);
  expect(shown).toEqual([
    ['Ground floor', rest, null],
    ['Ground floor', near(STAIR), null],
    ['Ground floor', near(KITCHEN), null],
    ['Ground floor', near(SHAFT), true],
    ['First floor', rest, null],
    ['First floor', near(STAIR), null],
    ['First floor', near(SHAFT), true],
    ['Second floor', rest, null],
    ['Second floor', near(STAIR), null],
    ['Second floor', near(CONTROL_ROOM), null],
    ['Second floor', near(SHAFT), true],
  ]);
});

it('has no leaks: all its rated walls that should meet do', () => {
  expect(compartments.flatMap(({ leaks }) => leaks)).toEqual([]);
});

it('the kitchen exhaust goes from the kitchen through the rest of the storey into the shaft and up to the roof', () => {
  const nameOf = new Map(compartments.map(({ id, storey, areaM2 }) => [id, `${storey?.name} ${areaM2}`]));
  const sides = penetrations
    .filter(({ duct }) => duct.system === 'KX')
    .map((p) => [p.barrier.name, p.compartments.map((id) => nameOf.get(id ?? '') ?? null)]);
  const shaft = (storey: string) => `${storey} floor ${SHAFT.toFixed(4)}`;
  expect(sides).toEqual(
    expect.arrayContaining([
      ['Kitchen wall east', [`Ground floor ${KITCHEN.toFixed(4)}`, expect.stringContaining('Ground floor')]],
      ['Shaft wall west G', [expect.stringContaining('Ground floor'), shaft('Ground')]],
      ['First floor slab', [shaft('First'), shaft('Ground')]],
      ['Roof slab', [null, shaft('Second')]],
    ]),
  );
});

it('are the same in any order of the files', async () => {
  const turned = findPenetrations(await readFederation([...files].reverse()));
  expect(turned.compartments).toEqual(compartments);
});
