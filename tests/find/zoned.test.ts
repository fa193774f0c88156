/** Where compartments lie that models state; places on plan from the drawing. */
import { describe, expect, it } from 'vitest';
import { footprintOf, statedCompartments } from '../../src/find/zoned.js';
import { patchArea, totalArea } from '../../src/geometry/areas.js';
import { bounds } from '../../src/geometry/polygon.js';
import type { Prism, Space, Storey, Vec2, Zone } from '../../src/model.js';
import { between, federationOf, upright } from './elements.js';

const GROUND: Storey = { globalId: 'G', name: 'Ground', elevation: 0 };
const FIRST: Storey = { globalId: 'F', name: 'First', elevation: 3000 };
const room = (globalId: string, from: Vec2, to: Vec2, changes: Partial<Space> = {}): Space => ({
  ...{ model: 'm1', globalId, name: globalId, entity: 'IFCSPACE', storey: GROUND, longName: undefined },
  ...{ bodies: [upright(between(from, to), 0, 3000)], ...changes },
});
const zoneOf = (...spaces: string[]): Zone => {
  return { model: 'm1', globalId: 'Z', name: 'Z', from: 'zone', spaces, bodies: [] };
};
const one = (zone: Zone, ...spaces: readonly Space[]) =>
  statedCompartments(federationOf({ zones: [zone], spaces }))[0]!;

describe('a stated compartment', () => {
  const [a, b] = [room('A', [0, 0], [4000, 3000]), room('B', [8000, 0], [9000, 2000])];

  it('lies where its own spaces lie, those of other zones and of other files left out', () => {
    const other = room('A', [90_000, 0], [99_000, 5000], { model: 'm2' });
    const found = one(zoneOf('A', 'B'), a, other, room('C', [20_000, 0], [30_000, 9000]), b);
    expect(found.spaces).toEqual([a, b]);
    expect(found.footprints).toHaveLength(2);
    expect(totalArea(found.outlines)).toBeCloseTo(4000 * 3000 + 1000 * 2000, 0);
  });

  it('lies where its own solid is, if it has one, whatever its spaces are', () => {
    const drawn = { ...zoneOf('A'), bodies: [upright(between([0, 0], [6000, 6000]), -500, 9000)] };
    const found = one(drawn, a);
    expect(found.footprints.map(({ bottom, top }) => [bottom, top])).toEqual([[-500, 9000]]);
    expect(totalArea(found.outlines)).toBeCloseTo(6000 * 6000, 0);
    expect(found.storey).toEqual(GROUND);
  });

  it.each([
    ['20 mm apart are one area, what is between them closed', 20, 1, (4000 + 20 + 1000) * 3000],
    ['further apart are two', 21, 2, (4000 + 1000) * 3000],
  ])('rooms %s', (_, gap, areas, size) => {
    const found = one(zoneOf('A', 'B'), a, room('B', [4000 + gap, 0], [5000 + gap, 3000]));
    expect(found.outlines).toHaveLength(areas);
    expect(totalArea(found.outlines)).toBeCloseTo(size, 0);
  });

  it.each<[string, readonly (Storey | undefined)[], Storey | null]>([
    ['of one storey', [GROUND, GROUND], GROUND],
    ['of one storey, as two files tell of it', [GROUND, { ...GROUND }], GROUND],
    ['of one storey, and of one that says none', [undefined, FIRST], FIRST],
    ['of two', [GROUND, FIRST], null],
    ['of none that is said', [undefined, undefined], null],
  ])('with spaces %s', (_, storeys, expected) => {
    const spaces = storeys.map((storey, i) => ({ ...room(`R${i}`, [0, 0], [1000, 1000]), storey }));
    expect(one(zoneOf('R0', 'R1'), ...spaces).storey).toEqual(expected);
  });

  it('is nowhere if nothing shows its place; without zones there are none', () => {
    expect(one(zoneOf('X'), a)).toMatchObject({ spaces: [], footprints: [], outlines: [], storey: null });
    expect(statedCompartments(federationOf({ spaces: [a] }))).toEqual([]);
    expect(statedCompartments(federationOf({ zones: [zoneOf('A')] }))[0]!.spaces).toEqual([]);
  });
});

describe('on plan', () => {
  it('a room is what it is at half its height', () => {
    const dais = upright(between([0, 0], [9000, 9000]), 0, 1000);
    const hall = upright(between([0, 0], [4000, 3000]), 0, 3000);
    const { outlines, bottom, top } = footprintOf([dais, hall]);
    expect([bottom, top, bounds(outlines)]).toEqual([0, 3000, { min: [0, 0], max: [4000, 3000] }]);
  });

  it('a room round a core has a hole in it', () => {
    const round: Prism = {
      ...upright(between([0, 0], [4000, 4000]), 0, 3000),
      voids: [between([1000, 1000], [2000, 3000])],
    };
    const { outlines, patches } = footprintOf([round]);
    expect(totalArea(outlines)).toBeCloseTo(4000 * 4000 - 1000 * 2000, 0);
    expect(patches.map((patch) => [patch.holes.length, Math.round(patchArea(patch))])).toEqual([[1, 14_000_000]]);
  });
});
