/** Holes: sizes, layers, constructions and kinds within the scope for which a document has no value or no detail. */
import { listed } from '../words/text.js';
import { valueWords } from '../words/values.js';
import { isForBarrier, testedConstructions } from './detail-facts.js';
import type { Noted } from './noted.js';
import { type DuctSize, largestValue, type SizeValue, valueAt } from './size-value.js';
import type { TestedDamper } from './tested-damper.js';
import type { Detail } from './tested-detail.js';
import type { LimitsByShape } from './tested-parts.js';
import type { TestedSystem } from './tested-system.js';
import type { Path } from './yaml-source.js';

const REMEDY_TABLE =
  'Add rows up to the end of the scope, or end the scope where the test ended; what no row holds for is not known.';

export function systemHoles(system: TestedSystem): Noted[] {
  const { fixings, scope, ...rest } = system;
  const largest = largestOf(scope.duct);
  const { duct: _, ...limits } = scope;
  return [
    ...tableHoles(limits, ['scope'], largest),
    ...tableHoles({ ...rest, examples: [] }, [], largest),
    ...fixings.flatMap(({ limits: own, ...fixing }, i) => tableHoles(fixing, ['fixings', i], largestOf(own))),
    ...detailHoles(system),
    ...fixingHoles(system),
    ...stressHoles(system),
  ];
}

export function damperHoles({ scope }: TestedDamper): Noted[] {
  const { rectangular, circular } = scope.sizes;
  const largest = largestOf({
    ...(rectangular && { rectangular: { width: rectangular.width.atMost, height: rectangular.height.atMost } }),
    ...(circular && { circular: { diameter: circular.diameter.atMost } }),
  });
  const { sizes: _, ...limits } = scope;
  return tableHoles(limits, ['scope'], largest);
}

/** The largest ducts within the limits: values are found for smaller ones where they are found for these. */
export function largestOf(limits: LimitsByShape): DuctSize[] {
  const sections = (['rectangular', 'oval'] as const).flatMap((shape): DuctSize[] => {
    const given = limits[shape];
    if (!given) return [];
    const { width, height, longestSide, shortestSide } = given;
    // Loading has seen to it that there are width and height, or the longest side.
    const a = largestValue((width ?? longestSide)!);
    const b = largestValue((height ?? shortestSide ?? longestSide)!);
    const asNamed = { shape, width: a, height: b };
    return width !== undefined || a === b ? [asNamed] : [asNamed, { shape, width: b, height: a }];
  });
  const { circular } = limits;
  return circular ? [...sections, { shape: 'circular', diameter: largestValue(circular.diameter) }] : sections;
}

/** Tables by size may stand anywhere; one that ends before the scope has a hole, one of other shapes too. */
function tableHoles(node: unknown, path: Path, largest: readonly DuctSize[]): Noted[] {
  if (typeof node !== 'object' || node === null) return [];
  if ('bySize' in node) {
    const without = largest.filter((size) => valueAt(node as SizeValue, size) === undefined);
    if (without.length === 0) return [];
    const message = `the table "${String(path.at(-1))}" has no value for ${listed(without.map(sizeWords), 'or')}, which the scope goes up to`;
    return [{ kind: 'hole', path: [...path, 'bySize'], message, remedy: REMEDY_TABLE }];
  }
  const inner: [PropertyKey, unknown][] = Array.isArray(node) ? [...node.entries()] : Object.entries(node);
  return inner.flatMap(([key, value]) => tableHoles(value, [...path, key], largest));
}

export const sizeWords = ({ shape, width, height, diameter }: DuctSize): string =>
  diameter === undefined ? `${shape} ducts of ${width} × ${height} mm` : `circular ducts of ${diameter} mm`;

const KINDS = { walls: ['wall'], floors: ['floor', 'roof'] } as const;

/** Every kind and construction of barrier within the scope, with the row that says so, and what its details were tested in. */
export const barriersOf = ({ scope }: Pick<TestedSystem, 'scope'>) =>
  scope.barriers.flatMap(({ construction, kinds, thicknessAtLeast }, row) =>
    (kinds ?? scope.orientation.flatMap((one) => KINDS[one])).map((kind) => ({
      kind,
      construction,
      thicknessAtLeast,
      row,
      testedIn: testedConstructions(scope.barriers, construction),
    })),
  );

type Barrier = ReturnType<typeof barriersOf>[number];

export const holdsIn = (detail: Pick<Detail, 'kinds' | 'constructions'>, { kind, testedIn }: Barrier): boolean =>
  isForBarrier(detail, kind, testedIn);

function detailHoles(system: TestedSystem): Noted[] {
  const { scope, details } = system;
  const barriers = barriersOf(system);
  const bare = scope.orientation
    .filter((one) => !barriers.some(({ kind }) => KINDS[one].some((own) => own === kind)))
    .map(
      (one): Noted => ({
        kind: 'hole',
        path: ['scope', 'orientation'],
        message: `the scope has ${one}, but no row of barriers holds for ${listed(KINDS[one], 'or')}`,
        remedy: `Add what was tested in ${one} to barriers, or take "${one}" away.`,
      }),
    );
  const holes = scope.barriers.flatMap(({ construction }, row): Noted[] => {
    const missing = barriers
      .filter((one) => one.row === row)
      .flatMap((barrier) => {
        const { kind } = barrier;
        const own = details.filter((detail) => holdsIn(detail, barrier));
        const layers = scope.ratings.map((rating) => rating.layers);
        const without = layers.filter((count) => !own.some((detail) => isFor(detail.layers, count)));
        if (without.length === 0) return [];
        return [without.length === layers.length ? kind : `${kind} with ${listed(without.map(String), 'or')} layers`];
      });
    if (missing.length === 0) return [];
    return [
      {
        kind: 'hole',
        path: ['scope', 'barriers', row],
        message: `no detail holds for ${valueWords(construction)} (${missing.join(', ')}), which the scope has`,
        remedy: 'Add the detail that was tested there, or take the row away: without it nothing is known of the faces.',
      },
    ];
  });
  return [...bare, ...holes];
}

const isFor = <T>(list: readonly T[] | undefined, one: NoInfer<T>): boolean => !list || list.includes(one);

function fixingHoles({ scope, fixings }: TestedSystem): Noted[] {
  if (fixings.length === 0) return [];
  // Each fixing holds all that is smaller than its limits, so the largest ducts tell of the others.
  const without = largestOf(scope.duct).filter((size) => !fixings.some(({ limits }) => holds(limits, size)));
  const sizes: Noted[] =
    without.length === 0
      ? []
      : [
          {
            kind: 'hole',
            path: ['fixings'],
            message: `no fixing holds ${listed(without.map(sizeWords), 'or')}, which the scope goes up to`,
            remedy: 'Add the fixing that was tested on ducts of this size, or end the scope where the fixings end.',
          },
        ];
  const pins = fixings.flatMap(({ id, pattern }, i): Noted[] => {
    if (!pattern.pins) return [];
    const { lengths } = pattern.pins;
    const layers = scope.ratings
      .map((row) => row.layers)
      .filter((count) => !lengths.some((row) => row.layers === count));
    return layers.length === 0
      ? []
      : [
          {
            kind: 'hole',
            path: ['fixings', i, 'pattern', 'pins', 'lengths'],
            message: `the fixing "${id}" has no length of pins for ${listed(layers.map(String), 'or')} layers, which the scope rates`,
            remedy: 'Add the length that was tested with as many layers.',
          },
        ];
  });
  return [...sizes, ...pins];
}

function holds(limits: LimitsByShape, { shape, width = 0, height = 0, diameter = 0 }: DuctSize): boolean {
  return largestOf(limits).some(
    (one) =>
      one.shape === shape &&
      width <= (one.width ?? 0) &&
      height <= (one.height ?? 0) &&
      diameter <= (one.diameter ?? 0),
  );
}

/** Steel is held to a time; a duct that resists for longer than the last step has nothing to go by. */
function stressHoles({ scope, supports }: TestedSystem): Noted[] {
  const longest = Math.max(...scope.ratings.flatMap(({ integrity, insulation }) => [integrity, insulation]));
  return (['rodStress', 'bearerStress'] as const).flatMap((key): Noted[] => {
    const last = supports?.[key]?.at(-1);
    if (!last || last.upTo >= longest) return [];
    return [
      {
        kind: 'hole',
        path: ['supports', key],
        message: `"${key}" ends at ${last.upTo} minutes, but the scope rates ${longest}`,
        remedy: 'Add the stress that was tested for so long; for longer than the last step nothing is allowed.',
      },
    ];
  });
}
