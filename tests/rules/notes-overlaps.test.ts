import { expect, it } from 'vitest';
import type { CheckDefinition } from '../../src/rules/check-set.js';
import { checkOverlaps, systemOverlaps } from '../../src/rules/notes-overlaps.js';
import type { Detail } from '../../src/rules/tested-detail.js';
import type { Fixing, TestedSystem } from '../../src/rules/tested-system.js';
import { checkFields } from './factories.js';
import { GOOD, MASONRY, PINS, STUD, said, withScope } from './proof-read.js';

const overlaps = (system: TestedSystem) => said(systemOverlaps(system));

it('rows of barriers overlap in the kinds that both hold for; a row without kinds holds for all', () => {
  const rows = (a: object, b: object): string[] => {
    const row = { construction: 'masonry', thicknessAtLeast: 140, ...a } as const;
    return overlaps(withScope({ barriers: [row, { ...row, thicknessAtLeast: 100, ...b }] }, { details: [] }));
  };
  const both = (kinds: string) =>
    `overlap at scope.barriers.1: rows 1 and 2 both hold for ${kinds} of masonry; the thinner, 100 mm, counts and the other never does. Keep the one that was tested, or say which kinds each is about.`;
  expect(rows({}, {})).toEqual([both('wall, floor and roof')]);
  expect(rows({ kinds: ['wall', 'floor'] }, { kinds: ['floor', 'roof'] })).toEqual([both('floor')]);
  expect(rows({ kinds: ['roof'] }, {})).toEqual([both('roof')]);
  expect(rows({ kinds: ['wall'] }, { kinds: ['floor'] })).toEqual([]);
  expect(rows({}, { construction: 'concrete' })).toEqual([]);
});

it('each two of three rows are told apart by their numbers', () => {
  const row = (thicknessAtLeast: number) => ({ construction: 'masonry' as const, thicknessAtLeast });
  const told = systemOverlaps(withScope({ barriers: [row(140), row(120), row(90)] }, { details: [] }));
  expect(told.map(({ path, message }) => `${path.join('.')} ${message.split(';')[0]}`)).toEqual([
    'scope.barriers.1 rows 1 and 2 both hold for wall, floor and roof of masonry',
    'scope.barriers.2 rows 1 and 3 both hold for wall, floor and roof of masonry',
    'scope.barriers.2 rows 2 and 3 both hold for wall, floor and roof of masonry',
  ]);
});

it('rows for three sides overlap where they share a construction and a kind, and the larger gap counts', () => {
  type Row = NonNullable<TestedSystem['scope']['threeSided']>[number];
  const rows = (a: Partial<Row>, b: Partial<Row>): string[] =>
    overlaps(
      withScope({
        threeSided: [
          { constructions: ['masonry', 'concrete'], gapAtMost: 9, ...a },
          { constructions: ['concrete', 'masonry'], gapAtMost: 5, ...b },
        ],
      }),
    );
  expect(rows({}, { kinds: ['wall', 'floor'] })).toEqual([
    'overlap at scope.threeSided.1: rows 1 and 2 both hold against wall and floor of masonry and concrete; the larger gap, 9 mm, counts. Keep the one that was tested, or say which kinds and constructions each is about.',
  ]);
  expect(rows({ kinds: ['floor'] }, { kinds: ['wall'] })).toEqual([]);
  expect(rows({ constructions: ['masonry'] }, { constructions: ['concrete'] })).toEqual([]);
});

it('fixings of the same ducts, and two lengths of pins for as many layers', () => {
  const fixings = (...changes: Partial<Fixing>[]): string[] =>
    overlaps({ ...GOOD, fixings: [PINS, ...changes.map((one) => ({ ...PINS, id: 'more', ...one }))] });
  expect(fixings({})).toEqual([
    'overlap at fixings.1.limits: the fixings "pins" and "more" hold the same ducts; the first counts where the brief names none. If both were tested on ducts of these sizes leave it so; else correct the limits.',
  ]);
  expect(fixings({ undersideAtMost: 400 })).toEqual([]);
  expect(fixings({ limits: { circular: { diameter: 600 } } })).toEqual([]);
  const lengths = [1, 2, 1].map((layers, i) => ({ layers, length: 40 + i }));
  expect(overlaps({ ...GOOD, fixings: [{ ...PINS, pattern: { pins: { grid: 200, lengths } } }] })).toEqual([
    'overlap at fixings.0.pattern.pins.lengths.2: the fixing "pins" has two lengths of pins for 1 layers: 40 and 42 mm. Keep the one that was tested.',
  ]);
  const straps = { straps: { width: 9, spacing: 300 } };
  expect(overlaps({ ...GOOD, fixings: [{ ...PINS, pattern: straps }] })).toEqual([]);
});

it('details overlap in the barriers, layers and gaps that both were tested in', () => {
  const both = (a: Partial<Detail>, b: Partial<Detail>): string[] =>
    overlaps({
      ...GOOD,
      details: [
        { ...STUD, constructions: undefined, ...a },
        { ...MASONRY, ...b },
      ],
    });
  const told = (words: string) => [
    `overlap at details.1: the details "stud-wall" and "masonry-wall" both hold for ${words}; the one with most margin counts. If both were tested there leave it so; else say in each for which kinds, constructions, layers and gaps it was.`,
  ];
  expect(both({}, {})).toEqual(told('wall of masonry'));
  expect(both({}, { constructions: ['masonry', 'steelStud'] })).toEqual(
    told('wall of steel studs and wall of masonry'),
  );
  expect(both({ constructions: ['concrete'] }, {})).toEqual([]);
  expect(both({ faces: 'one' }, {})).toEqual([]);
  expect(both({ layers: [1] }, { layers: [2] })).toEqual([]);
  expect(both({ layers: [1, 2] }, { layers: [2] })).toEqual(told('wall of masonry'));
  // Three layers are outside the scope, so nothing is built with them.
  expect(both({ layers: [3] }, { layers: [3] })).toEqual([]);
  expect(both({ layers: [2] }, {})).toEqual(told('wall of masonry'));
});

it('details for gaps that meet at one width overlap there, and so do those whose gaps go by size', () => {
  const gaps = (a: Detail['gap'], b: Detail['gap']): number =>
    systemOverlaps({
      ...GOOD,
      details: [
        { ...STUD, constructions: undefined, gap: a },
        { ...MASONRY, gap: b },
      ],
    }).length;
  const narrow = { atLeast: 10, atMost: 20 };
  expect(gaps(narrow, { atLeast: 20, atMost: 40 })).toBe(1);
  expect(gaps({ atLeast: 20, atMost: 40 }, narrow)).toBe(1);
  expect(gaps(narrow, { atLeast: 21, atMost: 40 })).toBe(0);
  expect(gaps({ atLeast: 21, atMost: 40 }, narrow)).toBe(0);
  expect(gaps(narrow, undefined)).toBe(1);
  expect(gaps(undefined, narrow)).toBe(1);
  // What a table begins with is not looked up: it may begin at nothing.
  const bySize = { bySize: [{ upTo: { longestSide: 500 }, value: 30 }] };
  expect(gaps(narrow, { atLeast: bySize, atMost: 40 })).toBe(1);
  expect(gaps({ atLeast: 31, atMost: 40 }, { atLeast: 10, atMost: bySize })).toBe(0);
});

it('checks overlap by each side of a limit that both have, or by the same words', () => {
  const twice = (a: object, b: object = {}): string[] =>
    said(
      checkOverlaps(
        [{ id: 'one' }, { id: 'two', ...b }].map((own) => checkFields({ ...a, ...own }) as unknown as CheckDefinition),
      ),
    );
  const told = (by: string, measure = 'penetration.skew') => [
    `overlap at checks.1: the checks "one" and "two" judge the same: ${measure} of each penetration, by ${by}. Keep one, or tell them apart by "where", "services" or their code; else each fault counts twice.`,
  ];
  expect(twice({})).toEqual(told('atMost'));
  // Another number is another opinion of the same.
  expect(twice({}, { atMost: 20 })).toEqual(told('atMost'));
  expect(twice({ atLeast: 1 })).toEqual(told('atLeast and atMost'));
  expect(twice({ atMost: undefined, equals: 0 })).toEqual(told('equals'));
  expect(twice({ atMost: undefined, equals: 0 }, { equals: 1 })).toEqual([]);
  expect(twice({ atMost: undefined, among: [0, 5] })).toEqual(told('among'));
  expect(twice({ atMost: undefined, among: [0, 5] }, { among: [0] })).toEqual([]);
  expect(twice({}, { atMost: undefined, atLeast: 2 })).toEqual([]);
  expect(twice({ atMost: undefined })).toEqual([]);
  expect(twice({ measure: undefined })).toEqual([]);
  expect(twice({}, { measure: 'penetration.angle' })).toEqual([]);
  expect(twice({}, { each: 'face' })).toEqual([]);
  // Spaces and the order of services say nothing.
  expect(twice({ where: 'a == 1', measure: 'x  +\n y ' }, { where: ' a  ==  1', measure: 'x + y' })).toEqual(
    told('atMost', 'x + y'),
  );
  expect(twice({ services: ['extract', 'supply'] }, { services: ['supply', 'extract'] })).toEqual(told('atMost'));
  expect(twice({ services: ['extract'] }, { services: ['supply'] })).toEqual([]);
  expect(twice({ services: ['extract'] }, { services: undefined })).toEqual([]);
});
