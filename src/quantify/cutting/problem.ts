/**
 * Parts and stock in whole numbers, so that sums are exact and bounds are proven, not estimated. A cut is counted to the
 * part before it: parts and stock alike are longer by the kerf, and the last part needs no cut.
 */
import { compareNumbers } from '../../collect.js';
import { CUT_LENGTH_STEP } from '../../tolerances.js';
import type { CutPart, Stock } from './types.js';

/** Parts of one size; `parts` in the order that they are cut in. */
export interface Kind {
  readonly length: number;
  readonly width: number;
  readonly mayTurn: boolean;
  readonly count: number;
  readonly parts: readonly { readonly part: CutPart; readonly count: number }[];
}

/** One kind of stock, in whole steps. */
export interface Sheet {
  readonly stock: Stock;
  readonly length: number;
  readonly width: number;
  readonly kerf: number;
  /** Length or area in units of {@link Problem.unit}; 0 for what is on hand. */
  readonly cost: number;
  readonly onHand: number;
}

export interface Problem {
  /** Every part is as wide as the stock, or there are no widths. */
  readonly lengthsOnly: boolean;
  readonly kinds: readonly Kind[];
  readonly sheets: readonly Sheet[];
  /** Millimetres of a step of length. */
  readonly step: number;
  /** mm or mm² of a unit of cost: what anything that is bought is a multiple of. */
  readonly unit: number;
}

/** @param parts checked, with a count of at least 1 each, and stock that takes them */
export function problemOf(parts: readonly CutPart[], stocks: readonly Stock[]): Problem {
  const lengthsOnly = stocks.every(({ width }) => parts.every((part) => spans(part, width)));
  const given = [
    ...parts.flatMap(({ length, width }) => [length, width ?? 0]),
    ...stocks.flatMap(({ length, width, kerf }) => [length, width ?? 0, kerf]),
  ];
  const step = given.every(Number.isInteger) ? 1 : CUT_LENGTH_STEP;
  const sizes = stocks.map(({ length, width }) => Math.round((lengthsOnly ? length : length * width!) / step / step));
  const bought = sizes.filter((_, i) => stocks[i]!.onHand === undefined);
  const divisor = bought.length === 0 ? 1 : bought.reduce(greatestCommonDivisor);
  return {
    lengthsOnly,
    step,
    kinds: kindsOf(parts, stocks[0]!, lengthsOnly, step),
    sheets: stocks.map((stock, i) => ({
      stock,
      length: down(stock.length, step),
      width: lengthsOnly ? 0 : down(stock.width!, step),
      kerf: up(stock.kerf, step),
      cost: stock.onHand === undefined ? sizes[i]! / divisor : 0,
      onHand: stock.onHand ?? Infinity,
    })),
    unit: divisor * step * step,
  };
}

/** Whether a part goes from one edge of the stock to the other, so that only lengths count. */
function spans(part: CutPart, width: number | undefined): boolean {
  if (width === undefined || part.width === undefined) return true;
  return part.width === width && !(part.mayTurn && part.length <= width);
}

/** The greatest first: they are the hardest to place. */
function kindsOf(parts: readonly CutPart[], stock: Stock, lengthsOnly: boolean, step: number): Kind[] {
  const kinds = new Map<string, { kind: Omit<Kind, 'parts' | 'count'>; parts: { part: CutPart; count: number }[] }>();
  for (const part of parts) {
    const kind = {
      length: up(part.length, step),
      width: lengthsOnly ? 0 : up(part.width ?? stock.width!, step),
      mayTurn: !lengthsOnly && part.mayTurn === true && part.length !== part.width,
    };
    const key = `${kind.length} ${kind.width} ${kind.mayTurn}`;
    const same = kinds.get(key) ?? { kind, parts: [] };
    same.parts.push({ part, count: part.count });
    kinds.set(key, same);
  }
  return [...kinds.values()]
    .map(({ kind, parts: of }) => ({ ...kind, count: of.reduce((sum, { count }) => sum + count, 0), parts: of }))
    .sort(
      (a, b) =>
        compareNumbers(b.length * (b.width || 1), a.length * (a.width || 1)) ||
        compareNumbers(b.length, a.length) ||
        compareNumbers(Number(a.mayTurn), Number(b.mayTurn)),
    );
}

/** A length such as 0.3 mm is 2.9999999999999996 steps of 0.1 mm; that noise is no step. */
const NOISE = 1e-6;
const up = (length: number, step: number): number => Math.ceil(length / step - NOISE);
const down = (length: number, step: number): number => Math.floor(length / step + NOISE);

export const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

/** Kinds beyond which sums of tenths of a millimetre are too many to look at each. */
const FINE_KINDS = 30;

/** Steps that sizes of sheets are counted in where every sum of them is looked at. */
export const coarseUnit = ({ kinds, step }: Problem): number => (kinds.length > FINE_KINDS ? Math.round(1 / step) : 1);

/** How a part lies on a piece of stock: sizes along it and across it, each with the kerf. */
export interface Lie {
  readonly kind: number;
  readonly turned: boolean;
  readonly along: number;
  readonly across: number;
}

/** Every way in which a part lies within the piece of stock. */
export function liesOn(problem: Problem, { length, width, kerf }: Sheet): Lie[] {
  return problem.kinds.flatMap((kind, i) =>
    [false, ...(kind.mayTurn ? [true] : [])].flatMap((turned) => {
      const [along, across] = turned ? [kind.width, kind.length] : [kind.length, kind.width];
      return along <= length && across <= width
        ? [{ kind: i, turned, along: along + kerf, across: across + kerf }]
        : [];
    }),
  );
}
