/** What must hold of any layers, whatever they are; the names are common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { builtOf, type LayerText } from '../../src/construction/built-of.js';
import { shippedConstructions as table } from '../rules/rule-cases.js';

const NAMES = {
  solid: ['Concrete block', 'Reinforced concrete', 'Brick', 'Aerated concrete', 'CLT 120'],
  lining: ['Plaster', 'Plasterboard', 'Mineral wool', 'Timber battens', 'Cladding', 'Default', 'Concrete screed'],
  air: ['Air gap', 'Air', 'Cavity'],
  frame: ['Steel studs', 'Timber studs', 'C-H studs'],
} as const;
const texts = (names: readonly string[]): readonly LayerText[] => names.map((material) => ({ material }));
const of = (names: readonly string[]) => builtOf(texts(names), true, [], table);

const some = fc.constantFrom(...Object.values(NAMES).flat());
const layers = fc.array(some, { minLength: 1, maxLength: 8 });
const around = fc.array(fc.constantFrom(...NAMES.lining, ...NAMES.air), { maxLength: 4 });
const settings = { numRuns: 2000, seed: 20261125 };

describe('layers told apart', () => {
  it('are the same from the other side', () => {
    fc.assert(
      fc.property(layers, (names) => {
        const [one, other] = [of(names), of([...names].reverse())];
        expect(other.construction).toBe(one.construction);
        expect([...other.roles].reverse()).toEqual(one.roles);
        expect(other.boards && [...other.boards].reverse()).toEqual(one.boards && [...one.boards]);
      }),
      settings,
    );
  });

  it('have a role each, and a leaf, wherever the construction is told by them', () => {
    fc.assert(
      fc.property(layers, (names) => {
        const { construction, roles } = of(names);
        expect(roles.length).toBe(names.length);
        // On a bare side of a frame what no word tells of may be its board.
        const open = names.filter((_, i) => roles[i] === undefined);
        if (construction !== 'unknown') expect(new Set([...open, 'Default'])).toEqual(new Set(['Default']));
        expect(roles.includes('leaf')).toBe(construction !== 'unknown');
      }),
      settings,
    );
  });

  it('of one solid material: it is the leaf, air is a cavity, all else a lining', () => {
    fc.assert(
      fc.property(fc.constantFrom(...NAMES.solid), around, around, (solid, before, after) => {
        const roleOf = (name: string) => (NAMES.air.some((air) => air === name) ? 'cavity' : 'lining');
        expect(of([...before, solid, ...after]).roles).toEqual([...before.map(roleOf), 'leaf', ...after.map(roleOf)]);
      }),
      settings,
    );
  });

  it('of a frame between boards: what is fixed on the boards changes nothing', () => {
    const fixed = fc.array(fc.constantFrom('Timber battens', 'Air gap', 'Mineral wool', 'Plaster'), { maxLength: 3 });
    fc.assert(
      fc.property(fc.constantFrom(...NAMES.frame), fixed, fixed, (frame, before, after) => {
        const wall = ['Plasterboard', frame, 'Plasterboard', 'Plasterboard'];
        const { roles, boards } = of([...before, ...wall, ...after]);
        expect(roles.slice(before.length, before.length + wall.length)).toEqual(wall.map(() => 'leaf'));
        expect(roles.filter((role) => role === 'leaf').length).toBe(wall.length);
        expect(boards).toEqual([1, 2]);
      }),
      settings,
    );
  });

  it('air by IsVentilated is never the leaf of a solid barrier, whatever it is called', () => {
    fc.assert(
      fc.property(fc.constantFrom(...NAMES.solid), some, (solid, name) => {
        const { construction, roles } = builtOf(
          [{ material: solid }, { material: name, isAir: true }],
          true,
          [],
          table,
        );
        expect([construction, roles[1]]).toEqual([of([solid]).construction, 'cavity']);
      }),
      settings,
    );
  });
});
