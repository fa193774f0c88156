import * as z from 'zod';
import { millimetres, sentence } from './document-parts.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Values that hold for every size of duct, or go by size in a table. */

const size = z
  .strictObject({
    width: millimetres.optional(),
    height: millimetres.optional(),
    longestSide: millimetres.optional(),
    shortestSide: millimetres.optional(),
    diameter: millimetres.optional(),
  })
  .describe('width and height; or longestSide, with or without shortestSide; or diameter.');

const row = z.strictObject({
  above: size.optional().describe('Where the row begins; if given, it must be where the row before ends.'),
  upTo: size.describe('The largest size the row holds for.'),
  value: millimetres,
});

export const sizeRows = z.array(row).min(1).max(200);

export const sizeValue = z.union(
  [
    millimetres,
    z
      .strictObject({
        value: millimetres.optional(),
        bySize: sizeRows.optional(),
        source: sentence.optional().describe("Where it comes from, if not from the document's own source."),
      })
      .refine(
        ({ value, bySize }) => (value === undefined) !== (bySize === undefined),
        'give either "value" or "bySize"',
      )
      // For validators of JSON Schema, which no refinement reaches.
      .meta({ oneOf: [{ required: ['value'] }, { required: ['bySize'] }] }),
  ],
  { error: 'must be a number, or { value: … }, or { bySize: [ … ] }' },
);

export type Size = z.infer<typeof size>;
export type SizeRow = z.infer<typeof row>;
export type SizeValue = z.infer<typeof sizeValue>;
export interface SizeTable {
  readonly bySize: SizeRow[];
}

/** What is known of a duct's section. */
export interface DuctSize {
  readonly shape?: string | undefined;
  readonly width?: number | undefined;
  readonly height?: number | undefined;
  readonly diameter?: number | undefined;
}

/** None of a value that holds for every size. */
const rowsOf = (value: SizeValue): SizeRow[] => (value as Partial<SizeTable>).bySize ?? [];

/** undefined: the size is not known, or lies beyond the table. */
export function valueAt(value: SizeValue, duct: DuctSize): number | undefined {
  if (typeof value === 'number') return value;
  if (value.value !== undefined) return value.value;
  const rows = rowsOf(value).filter(({ upTo }) => (duct.shape === 'circular') === (upTo.diameter !== undefined));
  const measures = rows[0] && measuresOf(rows[0].upTo, duct);
  if (!measures || duct.shape === undefined) return undefined;
  return rows.find(({ upTo }) => Object.entries(measures).every(([key, mm]) => mm <= upTo[key as keyof Size]!))?.value;
}

/** The largest that it is for any size. */
export function largestValue(value: SizeValue): number {
  if (typeof value === 'number') return value;
  return value.value ?? Math.max(...rowsOf(value).map((row) => row.value));
}

/** The duct's measures by the names that a row uses; undefined where one of them is not known. */
function measuresOf(
  form: Size,
  { width, height, diameter }: DuctSize,
): { readonly [name: string]: number } | undefined {
  if (form.diameter !== undefined) return diameter === undefined ? undefined : { diameter };
  if (width === undefined || height === undefined) return undefined;
  if (form.width !== undefined) return { width, height };
  return {
    longestSide: Math.max(width, height),
    ...(form.shortestSide !== undefined && { shortestSide: Math.min(width, height) }),
  };
}

/** All sizes at which a value may change, each as the largest duct that its row holds for. */
export function cornersOf(value: SizeValue): DuctSize[] {
  return rowsOf(value).map(({ upTo }) =>
    upTo.diameter !== undefined
      ? { shape: 'circular', diameter: upTo.diameter }
      : {
          shape: 'rectangular',
          width: upTo.width ?? upTo.longestSide,
          height: upTo.height ?? upTo.shortestSide ?? upTo.longestSide,
        },
  );
}

/** Refuses tables that are not ascending, overlap, or leave a hole. */
export function requireSizeValue(source: YamlSource, path: Path, value: SizeValue | undefined): void {
  if (value === undefined) return;
  const rows = rowsOf(value).map((given, i) => ({ ...given, path: [...path, 'bySize', i] }));
  for (const { upTo, above, path: at } of rows) {
    requireForm(source, [...at, 'upTo'], upTo);
    if (above) requireForm(source, [...at, 'above'], above);
  }
  for (const circular of [true, false]) {
    const group = rows.filter(({ upTo }) => (upTo.diameter !== undefined) === circular);
    for (const [i, next] of group.entries()) requireNext(source, group[i - 1], next);
  }
}

const FORMS = ['width and height', 'longestSide', 'longestSide and shortestSide', 'diameter'];

function requireForm(source: YamlSource, path: Path, given: Size): void {
  if (FORMS.includes(formOf(given))) return;
  throw source.errorAt(path, `a size is given by ${FORMS.join(', or ')}; here is ${formOf(given) || 'nothing'}`);
}

const formOf = (given: Size): string => namesIn(given).join(' and ');
const namesIn = (given: Size): (keyof Size)[] =>
  (['width', 'height', 'longestSide', 'shortestSide', 'diameter'] as const).filter((name) => given[name] !== undefined);

type PlacedRow = SizeRow & { readonly path: Path };

function requireNext(source: YamlSource, before: PlacedRow | undefined, next: PlacedRow): void {
  const at = [...next.path, 'upTo'];
  if (!before) {
    if (next.above && namesIn(next.above).some((name) => next.above![name]! > 0)) {
      throw source.errorAt(
        [...next.path, 'above'],
        `the table leaves a hole below ${sizeWords(next.above)}; the first row begins at 0, so leave "above" out`,
      );
    }
    return;
  }
  if (formOf(before.upTo) !== formOf(next.upTo)) {
    throw source.errorAt(at, `the row before goes by ${formOf(before.upTo)}; rows for one shape must all do so`);
  }
  const steps = namesIn(next.upTo).map((name) => next.upTo[name]! - before.upTo[name]!);
  if (steps.every((step) => step <= 0)) {
    throw source.errorAt(
      at,
      `rows must ascend: ${sizeWords(next.upTo)} is not larger than ${sizeWords(before.upTo)} in the row before`,
    );
  }
  if (steps.some((step) => step < 0)) {
    throw source.errorAt(
      at,
      `the row overlaps the one before: ${sizeWords(next.upTo)} is larger one way and smaller the other than ${sizeWords(before.upTo)}`,
    );
  }
  requireBeginning(source, before, next);
}

function requireBeginning(source: YamlSource, before: PlacedRow, { above, path }: PlacedRow): void {
  if (!above || sizeWords(above) === sizeWords(before.upTo)) return;
  const isHole = namesIn(above).every((name) => above[name]! >= (before.upTo[name] ?? 0));
  throw source.errorAt(
    [...path, 'above'],
    isHole
      ? `the table leaves a hole between ${sizeWords(before.upTo)} and ${sizeWords(above)}`
      : `the row overlaps the one before, which ends at ${sizeWords(before.upTo)}`,
  );
}

const sizeWords = (given: Size): string =>
  namesIn(given)
    .map((name) => `${name} ${given[name]}`)
    .join(', ');

export interface SizeRange {
  readonly atLeast?: SizeValue | undefined;
  readonly atMost?: SizeValue | undefined;
}

/** Refuses a range in which some size of duct has its least above its most. */
export function requireRange(source: YamlSource, path: Path, { atLeast, atMost }: SizeRange): void {
  if (atLeast === undefined || atMost === undefined) return;
  requireSizeValue(source, [...path, 'atLeast'], atLeast);
  requireSizeValue(source, [...path, 'atMost'], atMost);
  // A value changes only at the ends of rows, so these sizes and any one for plain numbers show every contradiction.
  for (const size of [{}, ...cornersOf(atLeast), ...cornersOf(atMost)]) {
    const [least, most] = [valueAt(atLeast, size), valueAt(atMost, size)];
    if (least === undefined || most === undefined || least <= most) continue;
    throw source.errorAt(
      [...path, 'atLeast'],
      `nothing can be at least ${least} and at most ${most}${cornerWords(size)}; atLeast must not be greater than atMost`,
    );
  }
}

const cornerWords = ({ width, height, diameter }: DuctSize): string => {
  if (diameter !== undefined) return ` (diameter ${diameter})`;
  return width === undefined ? '' : ` (width ${width}, height ${height})`;
};
