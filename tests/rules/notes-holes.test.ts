import { expect, it } from 'vitest';
import type { Noted } from '../../src/rules/noted.js';
import { damperHoles, systemHoles } from '../../src/rules/notes-holes.js';
import type { TestedDamper } from '../../src/rules/tested-damper.js';
import type { Fixing, TestedSystem } from '../../src/rules/tested-system.js';
import { GOOD, MASONRY, PINS, STUD, said, withScope } from './proof-read.js';

const holes = (system: TestedSystem) => said(systemHoles(system));
const messages = (notes: readonly Noted[]) => notes.map(({ path, message }) => `${path.join('.')}: ${message}`);

it('a detail that is missing is named by barrier and layers, and by kinds that the orientation stands for', () => {
  const remedy =
    'Add the detail that was tested there, or take the row away: without it nothing is known of the faces.';
  const row = { construction: 'masonry', thicknessAtLeast: 140 } as const;
  const of = (system: Partial<TestedSystem>, scope: Partial<TestedSystem['scope']> = {}) =>
    holes(withScope({ barriers: [row], ...scope }, system));
  expect(of({ details: [MASONRY] })).toEqual([]);
  expect(of({ details: [] })).toEqual([
    `hole at scope.barriers.0: no detail holds for masonry (wall), which the scope has. ${remedy}`,
  ]);
  // Of two rows each is asked for its own details.
  const studs = { construction: 'steelStud', thicknessAtLeast: 100 } as const;
  expect(of({ details: [STUD] }, { barriers: [studs, row] })).toEqual([
    `hole at scope.barriers.1: no detail holds for masonry (wall), which the scope has. ${remedy}`,
  ]);
  expect(of({ details: [MASONRY] }, { orientation: ['walls', 'floors'] })).toEqual([
    `hole at scope.barriers.0: no detail holds for masonry (floor, roof), which the scope has. ${remedy}`,
  ]);
  expect(of({ details: [{ ...MASONRY, layers: [3] }] })).toEqual([
    `hole at scope.barriers.0: no detail holds for masonry (wall), which the scope has. ${remedy}`,
  ]);
  expect(of({ details: [{ ...MASONRY, layers: [2] }] })).toEqual([
    `hole at scope.barriers.0: no detail holds for masonry (wall with 1 layers), which the scope has. ${remedy}`,
  ]);
  const ratings = [1, 2, 3].map((layers) => ({ layers, integrity: 60, insulation: 60 }));
  const lengths = ratings.map(({ layers }) => ({ layers, length: 40 }));
  const fixings = [{ ...PINS, pattern: { pins: { grid: 200, lengths } } }];
  expect(of({ details: [{ ...MASONRY, layers: [3] }], fixings }, { ratings })).toEqual([
    `hole at scope.barriers.0: no detail holds for masonry (wall with 1 or 2 layers), which the scope has. ${remedy}`,
  ]);
});

it('an orientation wants a barrier of one of its kinds', () => {
  const kinds = (...given: ('wall' | 'floor' | 'roof')[]) =>
    holes(
      withScope(
        {
          orientation: ['walls', 'floors'],
          barriers: [{ construction: 'masonry', thicknessAtLeast: 140, kinds: given }],
        },
        { details: [{ ...MASONRY, kinds: undefined }] },
      ),
    );
  expect(kinds('wall', 'roof')).toEqual([]);
  expect(kinds('wall', 'floor')).toEqual([]);
  expect(kinds('wall')).toEqual([
    'hole at scope.orientation: the scope has floors, but no row of barriers holds for floor or roof. Add what was tested in floors to barriers, or take "floors" away.',
  ]);
  expect(kinds('floor')).toEqual([
    'hole at scope.orientation: the scope has walls, but no row of barriers holds for wall. Add what was tested in walls to barriers, or take "walls" away.',
  ]);
});

it('a fixing holds the largest ducts of the scope by each of their measures', () => {
  const scope = {
    rectangular: { width: 1000, height: 600 },
    oval: { longestSide: 800, shortestSide: 400 },
    circular: { diameter: 500 },
  };
  const held = (limits: Fixing['limits']): string[] =>
    messages(
      systemHoles(
        withScope(
          { duct: { ...GOOD.scope.duct, ...scope } },
          {
            fixings: [{ ...PINS, limits: { ...scope, ...limits } }],
            details: [MASONRY, { ...STUD, parts: MASONRY.parts }],
          },
        ),
      ),
    );
  const none = (ducts: string) => [`fixings: no fixing holds ${ducts}, which the scope goes up to`];
  expect(held({})).toEqual([]);
  expect(held({ rectangular: { width: 999, height: 600 } })).toEqual(none('rectangular ducts of 1000 × 600 mm'));
  expect(held({ rectangular: { width: 1000, height: 599 } })).toEqual(none('rectangular ducts of 1000 × 600 mm'));
  expect(held({ rectangular: { longestSide: 1000 } })).toEqual([]);
  expect(held({ circular: { diameter: 499 } })).toEqual(none('circular ducts of 500 mm'));
  expect(held({ circular: undefined, rectangular: undefined })).toEqual(
    none('rectangular ducts of 1000 × 600 mm or circular ducts of 500 mm'),
  );
  // As long and as short as the other, whichever way it lies.
  expect(held({ oval: { longestSide: 800, shortestSide: 399 } })).toEqual(
    none('oval ducts of 800 × 400 mm or oval ducts of 400 × 800 mm'),
  );
  expect(held({ oval: { width: 800, height: 400 } })).toEqual(none('oval ducts of 400 × 800 mm'));
});

it('where nothing holds the protection, no fixing is missing; where one does, its pins go by layers', () => {
  expect(holes({ ...GOOD, fixings: [] })).toEqual([]);
  const fixing = (pins: Fixing['pattern']): string[] => holes({ ...GOOD, fixings: [{ ...PINS, pattern: pins }] });
  expect(fixing({ straps: { width: 9, spacing: 300 } })).toEqual([]);
  expect(fixing({ pins: { grid: 200, lengths: [{ layers: 3, length: 9 }] } })).toEqual([
    'hole at fixings.0.pattern.pins.lengths: the fixing "pins" has no length of pins for 1 or 2 layers, which the scope rates. Add the length that was tested with as many layers.',
  ]);
  expect(holes({ ...GOOD, fixings: [{ ...PINS, limits: { circular: { diameter: 600 } } }] })).toEqual([
    'hole at fixings: no fixing holds rectangular ducts of 1000 × 1000 mm, which the scope goes up to. Add the fixing that was tested on ducts of this size, or end the scope where the fixings end.',
  ]);
});

it('tables of a fixing go as far as its own limits, those of the scope and of the rest as far as the scope', () => {
  const upTo = (longestSide: number) => ({
    bySize: [
      { upTo: { longestSide }, value: 500 },
      { upTo: { diameter: 600 }, value: 500 },
    ],
  });
  const remedy =
    'Add rows up to the end of the scope, or end the scope where the test ended; what no row holds for is not known.';
  const missing = (path: string, table: string) => [
    `hole at ${path}.bySize: the table "${table}" has no value for rectangular ducts of 1000 × 1000 mm, which the scope goes up to. ${remedy}`,
  ];
  const small = { ...PINS, id: 'small', limits: { rectangular: { longestSide: 700 } }, undersideAtMost: upTo(700) };
  expect(holes({ ...GOOD, fixings: [PINS, small] })).toEqual([]);
  expect(holes({ ...GOOD, fixings: [{ ...PINS, undersideAtMost: upTo(999) }] })).toEqual(
    missing('fixings.0.undersideAtMost', 'undersideAtMost'),
  );
  expect(holes(withScope({ separationAtLeast: upTo(1000) }))).toEqual([]);
  expect(holes(withScope({ separationAtLeast: upTo(999) }))).toEqual(
    missing('scope.separationAtLeast', 'separationAtLeast'),
  );
  expect(holes(withScope({ gap: { atLeast: 5, atMost: upTo(999) } }))).toEqual(missing('scope.gap.atMost', 'atMost'));
  expect(holes({ ...GOOD, supports: { spacingAtMost: upTo(999) } })).toEqual(
    missing('supports.spacingAtMost', 'spacingAtMost'),
  );
});

it('a table of a damper goes as far as the largest of its sizes, each way', () => {
  const range = (atMost: number) => ({ atLeast: 100, atMost });
  const scope = (sizes: object, offsetAtMost: unknown) =>
    messages(damperHoles({ scope: { sizes, offsetAtMost } } as unknown as TestedDamper));
  const table = (upTo: object) => ({ bySize: [{ upTo, value: 30 }] });
  const rectangular = { width: range(800), height: range(600) };
  expect(scope({ rectangular }, table({ width: 800, height: 600 }))).toEqual([]);
  const told = (ducts: string) => [
    `scope.offsetAtMost.bySize: the table "offsetAtMost" has no value for ${ducts}, which the scope goes up to`,
  ];
  expect(scope({ rectangular }, table({ width: 800, height: 599 }))).toEqual(told('rectangular ducts of 800 × 600 mm'));
  expect(scope({ circular: { diameter: range(400) } }, table({ diameter: 400 }))).toEqual([]);
  expect(scope({ circular: { diameter: range(400) } }, table({ diameter: 399 }))).toEqual(
    told('circular ducts of 400 mm'),
  );
});

it('steel has a stress for as long as the longest rating of either kind', () => {
  const stresses = (supports: object, ...ratings: [integrity: number, insulation: number][]) =>
    holes(
      withScope(
        { ratings: ratings.map(([integrity, insulation], i) => ({ layers: i + 1, integrity, insulation })) },
        { supports: { spacingAtMost: 1500, ...supports }, fixings: [] },
      ),
    );
  const steps = (...times: number[]) => times.map((upTo) => ({ upTo, stress: 6 }));
  const ends = (key: string, at: number, longest: number) =>
    `hole at supports.${key}: "${key}" ends at ${at} minutes, but the scope rates ${longest}. Add the stress that was tested for so long; for longer than the last step nothing is allowed.`;
  expect(stresses({ rodStress: steps(60, 120) }, [120, 60])).toEqual([]);
  expect(stresses({ rodStress: steps(60) }, [90, 60])).toEqual([ends('rodStress', 60, 90)]);
  expect(stresses({ rodStress: steps(120, 60) }, [60, 30], [90, 120])).toEqual([ends('rodStress', 60, 120)]);
  expect(stresses({ rodStress: steps(60), bearerStress: steps(30) }, [60, 60])).toEqual([ends('bearerStress', 30, 60)]);
  expect(stresses({}, [60, 60])).toEqual([]);
  expect(holes({ ...GOOD, supports: undefined })).toEqual([]);
});
