/** Compartments of the demo building against its plan: what its rated walls part, and nothing that leaks. */
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const files = demoBuilding().files.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
const crossings = findPenetrations(await readFederation(files));
const { compartments } = crossings;

/** Square metres up to the outside of the outer walls, which are not rated: 300 mm beyond the slab of 30 m by 18 m. */
const SHAFT = 2.81 ** 2;
const STAIR = 6.242 ** 2;
const KITCHEN = 5.872 * 6.236;
const ROOM = 5.81 * 6.81;
const LOFT_SHAFT = 1.31 ** 2;
/** Between the middles of its walls 1 m by 6 m, less half of 100 and of 190 mm, and 190 mm. */
const RISER = 0.855 * 5.81;
const CONTROL_ROOM = 10.908 * 6.254;

it('has one stair, a shaft on each storey, the kitchen, the control room and the rest of each storey', () => {
  const shown = compartments.map(({ storey, areaM2, walled, floor, ceiling }) => [
    storey?.name ?? null,
    areaM2,
    walled,
    floor.state,
    ceiling.state,
  ]);
  const near = (area: number) => expect.closeTo(area, 3);
  const rest = expect.any(Number);
  expect(shown).toEqual([
    ['Ground floor', rest, null, 'ground', 'rated'],
    // Through the voids in the slabs.
    [null, near(STAIR), null, 'ground', 'rated'],
    ['Ground floor', near(KITCHEN), null, 'ground', 'rated'],
    // What passes the slabs in a shaft leaves them closed.
    ['Ground floor', near(SHAFT), true, 'ground', 'rated'],
    ['Ground floor', near(RISER), true, 'ground', 'rated'],
    // The pavilion: four rooms, and two shafts in the last.
    ...[ROOM, ROOM, ROOM, ROOM - 2 * 1.69 ** 2, LOFT_SHAFT, LOFT_SHAFT].map((area) => [
      ...['Ground floor', near(area), true, 'ground', 'rated'],
    ]),
    ['First floor', rest, null, 'rated', 'rated'],
    ['First floor', near(SHAFT), true, 'rated', 'rated'],
    ['Second floor', rest, null, 'rated', 'rated'],
    ['Second floor', near(CONTROL_ROOM), null, 'rated', 'rated'],
    ['Second floor', near(SHAFT), true, 'rated', 'rated'],
  ]);
});

it('has shafts that are called so, but for one each enclosed by 120 minutes on all sides; the stair ends at outer walls', () => {
  const shafts = compartments.filter(({ shaft }) => shaft);
  const shown = shafts.map(({ name, closed, enclosure: { complete, reasons } }) => [
    ...[name, closed, complete, reasons.map(({ gap }) => gap)],
  ]);
  const whole = (name: string) => [name, true, true, []];
  expect(shown).toEqual([
    whole('Ground floor G.SH Shaft'),
    whole('Ground floor W.RI Winch riser'),
    ['Ground floor P.SB Shaft B', false, false, ['wallHead']],
    whole('Ground floor P.SA Shaft A'),
    whole('First floor F.SH Shaft'),
    whole('Second floor S.SH Shaft'),
  ]);
  expect(shafts.map(({ enclosure: { leastRating } }) => leastRating)).toMatchObject(
    shafts.map(() => ({ integrity: 120, insulation: 120 })),
  );
  const stair = compartments.find(({ storey }) => storey === null)!;
  expect(stair.name).toBe('Ground floor to Second floor Stair');
  expect(stair.enclosure).toMatchObject({ complete: null, reasons: [{ gap: 'wallUnknown' }] });
});

it('has no leaks: all its rated walls that should meet do', () => {
  expect(compartments.flatMap(({ leaks }) => leaks)).toEqual([]);
});

/** Of the kitchen exhaust: what it passes, from where to where. */
const kitchenExhaust = ({ compartments: all, penetrations: through }: Crossings) => {
  const nameOf = new Map(all.map(({ id, storey, areaM2 }) => [id, `${storey?.name ?? 'Several'} ${areaM2}`]));
  return through
    .filter(({ duct }) => duct.system === 'KX')
    .map((p) => [p.barrier.name, p.compartments.map((id) => nameOf.get(id ?? '') ?? null)]);
};

it('the kitchen exhaust goes from the kitchen through the rest of the storey into the shaft and up to the roof', () => {
  const shaft = (storey: string) => `${storey} floor ${SHAFT.toFixed(4)}`;
  expect(kitchenExhaust(crossings)).toEqual(
    expect.arrayContaining([
      ['Kitchen wall east', [`Ground floor ${KITCHEN.toFixed(4)}`, expect.stringContaining('Ground floor')]],
      ['Shaft wall west G', [expect.stringContaining('Ground floor'), shaft('Ground')]],
      ['First floor slab', [shaft('First'), shaft('Ground')]],
      ['Roof slab', [null, shaft('Second')]],
    ]),
  );
});

// Finds anew, so that a mutant that changes anything above differs here from what was found as files were loaded.
it('are the same in any order of the files', async () => {
  const turned = findPenetrations(await readFederation([...files].reverse()));
  expect(turned.compartments).toEqual(compartments);
  expect(kitchenExhaust(turned).sort()).toEqual(kitchenExhaust(crossings).sort());
});
