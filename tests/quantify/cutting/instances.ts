/** Random instances, the same for the same seed; and all plans of small ones. */
import type { CutPart, Stock } from '../../../src/quantify/cutting/types.js';

/** Mulberry32 (public domain, from memory): even numbers from 0 to below 1. */
export function randomBy(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export type Whole = (from: number, to: number) => number;
export function wholeBy(seed: number): Whole {
  const random = randomBy(seed);
  return (from, to) => from + Math.floor(random() * (to - from + 1));
}

export const listOf = <T>(count: number, of: (i: number) => T): T[] => Array.from({ length: count }, (_, i) => of(i));

/** Every way to put items together in groups. */
export function* groupings<T>(items: readonly T[]): Generator<T[][]> {
  const [first, ...rest] = items;
  if (first === undefined) {
    yield [];
    return;
  }
  for (const groups of groupings(rest)) {
    yield [[first], ...groups];
    for (let i = 0; i < groups.length; i++) yield groups.map((group, j) => (i === j ? [first, ...group] : group));
  }
}

export const piecesOf = (parts: readonly CutPart[]): CutPart[] =>
  parts.flatMap((part) => listOf(part.count, () => part));

/** The least that has to be bought, by trying every grouping. */
export function leastByTrying(
  parts: readonly CutPart[],
  stocks: readonly Stock[],
  fits: (group: readonly CutPart[], stock: Stock) => boolean,
): number {
  const size = ({ length, width }: Stock): number => length * (width ?? 1);
  const pieces = piecesOf(parts).map((part, i) => ({ part, i }));
  const known = new Map<string, number>();
  const costOf = (group: readonly { part: CutPart; i: number }[]): number => {
    const key = group
      .map(({ i }) => i)
      .sort()
      .join();
    let cost = known.get(key);
    if (cost === undefined) {
      const taking = stocks.filter((stock) =>
        fits(
          group.map(({ part }) => part),
          stock,
        ),
      );
      cost = Math.min(...taking.map(size));
      known.set(key, cost);
    }
    return cost;
  };
  let least = Infinity;
  for (const groups of groupings(pieces))
    least = Math.min(
      least,
      groups.reduce((sum, group) => sum + costOf(group), 0),
    );
  return least;
}

export const fitsBar = (group: readonly CutPart[], { length, kerf }: Stock): boolean =>
  group.reduce((sum, part) => sum + part.length, 0) + (group.length - 1) * kerf <= length;

/** Whether strips of sections of parts hold a group, by trying all of them with all parts turned or not. */
export function fitsSheet(group: readonly CutPart[], stock: Stock): boolean {
  return turnings(group).some((sizes) =>
    [
      { sizes, length: stock.length, width: stock.width! },
      { sizes: sizes.map(([a, b]) => [b, a] as const), length: stock.width!, width: stock.length },
    ].some(({ sizes: lying, length, width }) => {
      for (const strips of groupings(lying)) {
        const heights = strips.map((strip) => lowest(strip, length, stock.kerf));
        if (heights.reduce((sum, height) => sum + height, 0) + (heights.length - 1) * stock.kerf <= width) return true;
      }
      return false;
    }),
  );
}

type Size = readonly [along: number, across: number];

function turnings(group: readonly CutPart[]): Size[][] {
  return group.reduce<Size[][]>(
    (all, { length, width, mayTurn }) =>
      all.flatMap((sizes) => [
        [...sizes, [length, width!] as const],
        ...(mayTurn ? [[...sizes, [width!, length] as const]] : []),
      ]),
    [[]],
  );
}

/** The least height of a strip of sections, each of parts of one length. */
function lowest(strip: readonly Size[], length: number, kerf: number): number {
  let least = Infinity;
  for (const sections of groupings(strip)) {
    if (sections.some((section) => section.some(([along]) => along !== section[0]![0]))) continue;
    const long = sections.reduce((sum, [first]) => sum + first![0], 0) + (sections.length - 1) * kerf;
    if (long > length) continue;
    const heights = sections.map(
      (section) => section.reduce((sum, [, across]) => sum + across, 0) + (section.length - 1) * kerf,
    );
    least = Math.min(least, Math.max(...heights));
  }
  return least;
}
