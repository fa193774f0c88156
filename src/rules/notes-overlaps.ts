/** Overlaps: two parts of one document that hold for the same situation. */
import { listed } from '../words/text.js';
import { valueWords } from '../words/values.js';
import type { CheckDefinition } from './check-set.js';
import type { Noted } from './noted.js';
import { barriersOf, holdsIn } from './notes-holes.js';
import { largestValue } from './size-value.js';
import type { Detail } from './tested-detail.js';
import type { TestedSystem } from './tested-system.js';

export const systemOverlaps = (system: TestedSystem): Noted[] => [
  ...barrierOverlaps(system),
  ...threeSidedOverlaps(system),
  ...fixingOverlaps(system),
  ...detailOverlaps(system),
];

/** Every two of a list, the later one second. */
const pairs = <T>(list: readonly T[]): (readonly [a: T, i: number, b: T, j: number])[] =>
  list.flatMap((b, j) => list.slice(0, j).map((a, i) => [a, i, b, j] as const));

/** What both lists have; a list that is left out has all. */
function common<T>(a: readonly T[] | undefined, b: readonly T[] | undefined, all: readonly T[]): T[] {
  return all.filter((one) => (!a || a.includes(one)) && (!b || b.includes(one)));
}

const ALL_KINDS = ['wall', 'floor', 'roof'] as const;

const barrierOverlaps = ({ scope }: TestedSystem): Noted[] =>
  pairs(scope.barriers).flatMap(([a, i, b, j]): Noted[] => {
    const kinds = common(a.kinds, b.kinds, ALL_KINDS);
    if (a.construction !== b.construction || kinds.length === 0) return [];
    return [
      {
        kind: 'overlap',
        path: ['scope', 'barriers', j],
        message: `rows ${i + 1} and ${j + 1} both hold for ${listed(kinds, 'and')} of ${valueWords(a.construction)}; the thinner, ${Math.min(a.thicknessAtLeast, b.thicknessAtLeast)} mm, counts and the other never does`,
        remedy: 'Keep the one that was tested, or say which kinds each is about.',
      },
    ];
  });

const threeSidedOverlaps = ({ scope }: TestedSystem): Noted[] =>
  pairs(scope.threeSided ?? []).flatMap(([a, i, b, j]): Noted[] => {
    const kinds = common(a.kinds, b.kinds, ALL_KINDS);
    const constructions = a.constructions.filter((one) => b.constructions.includes(one));
    if (kinds.length === 0 || constructions.length === 0) return [];
    return [
      {
        kind: 'overlap',
        path: ['scope', 'threeSided', j],
        message: `rows ${i + 1} and ${j + 1} both hold against ${listed(kinds, 'and')} of ${listed(constructions.map((one) => valueWords(one)))}; the larger gap, ${Math.max(a.gapAtMost, b.gapAtMost)} mm, counts`,
        remedy: 'Keep the one that was tested, or say which kinds and constructions each is about.',
      },
    ];
  });

const fixingOverlaps = ({ fixings }: TestedSystem): Noted[] => [
  ...pairs(fixings).flatMap(([a, , b, j]): Noted[] =>
    JSON.stringify([a.limits, a.undersideAtMost]) === JSON.stringify([b.limits, b.undersideAtMost])
      ? [
          {
            kind: 'overlap',
            path: ['fixings', j, 'limits'],
            message: `the fixings "${a.id}" and "${b.id}" hold the same ducts; the first counts where the brief names none`,
            remedy: 'If both were tested on ducts of these sizes leave it so; else correct the limits.',
          },
        ]
      : [],
  ),
  ...fixings.flatMap(({ id, pattern }, f) =>
    pairs(pattern.pins?.lengths ?? []).flatMap(([a, , b, j]): Noted[] =>
      a.layers === b.layers
        ? [
            {
              kind: 'overlap',
              path: ['fixings', f, 'pattern', 'pins', 'lengths', j],
              message: `the fixing "${id}" has two lengths of pins for ${a.layers} layers: ${a.length} and ${b.length} mm`,
              remedy: 'Keep the one that was tested.',
            },
          ]
        : [],
    ),
  ),
];

/** A detail built from one face stands beside one built on both: which holds, the faces tell. */
function detailOverlaps(system: TestedSystem): Noted[] {
  const { details, scope } = system;
  const layers = scope.ratings.map((row) => row.layers);
  const within = barriersOf(system);
  return pairs(details).flatMap(([a, , b, j]): Noted[] => {
    const places = within.filter((barrier) => holdsIn(a, barrier) && holdsIn(b, barrier));
    if (a.faces !== b.faces || places.length === 0 || common(a.layers, b.layers, layers).length === 0) return [];
    if (areApart(a.gap, b.gap)) return [];
    const words = [...new Set(places.map(({ kind, construction }) => `${kind} of ${valueWords(construction)}`))];
    return [
      {
        kind: 'overlap',
        path: ['details', j],
        message: `the details "${a.id}" and "${b.id}" both hold for ${listed(words, 'and')}; the one with most margin counts`,
        remedy:
          'If both were tested there leave it so; else say in each for which kinds, constructions, layers and gaps it was.',
      },
    ];
  });
}

/** Details for narrow and for wide gaps stand beside each other. */
const areApart = (a: Detail['gap'], b: Detail['gap']): boolean =>
  a !== undefined && b !== undefined && (ends(a).most < ends(b).least || ends(b).most < ends(a).least);

const ends = ({ atLeast, atMost }: NonNullable<Detail['gap']>) => ({
  least: typeof atLeast === 'number' ? atLeast : 0,
  most: largestValue(atMost),
});

/** Two checks of one document that judge the same measure of the same subjects, by limits of which one says it all. */
export const checkOverlaps = (checks: readonly CheckDefinition[]): Noted[] =>
  pairs(checks).flatMap(([a, , b, j]): Noted[] => {
    const ranged = (['atLeast', 'atMost'] as const).filter((side) => a[side] !== undefined && b[side] !== undefined);
    const same = (['equals', 'among'] as const).filter(
      (side) => a[side] !== undefined && JSON.stringify(a[side]) === JSON.stringify(b[side]),
    );
    const sides = [...ranged, ...same];
    if (a.measure === undefined || sides.length === 0 || subjectOf(a) !== subjectOf(b)) return [];
    return [
      {
        kind: 'overlap',
        path: ['checks', j],
        message: `the checks "${a.id}" and "${b.id}" judge the same: ${oneSpace(a.measure)} of each ${a.each}, by ${listed(sides, 'and')}`,
        remedy: 'Keep one, or tell them apart by "where", "services" or their code; else each fault counts twice.',
      },
    ];
  });

const subjectOf = ({ each, where = '', services = [], measure = '', basis }: CheckDefinition): string =>
  JSON.stringify([each, oneSpace(where), [...services].sort(), oneSpace(measure), basis.code]);

const oneSpace = (text: string): string => text.replace(/\s+/g, ' ').trim();
