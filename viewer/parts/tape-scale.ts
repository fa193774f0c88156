/** Where everything stands on a tape: one scale for all of it, cut where nothing is for long. */
import { compareNumbers } from '../../src/collect.js';

/** What a value in numbers is held against; `equals` is both bounds. */
export interface Bounds {
  readonly atLeast?: number | undefined;
  readonly atMost?: number | undefined;
}

/** Uncut: every unit is as long as in all other parts. */
export interface TapePart {
  readonly from: number;
  readonly to: number;
  /** px from the left end of the tape. */
  readonly x: number;
  readonly width: number;
}

export interface Tick {
  readonly value: number;
  readonly x: number;
  readonly isLabelled: boolean;
}

export interface TapeScale {
  readonly parts: readonly TapePart[];
  /** It begins beyond zero, where one would look for it. */
  readonly isCutAtZero: boolean;
  /** px; the allowed range in each part. */
  readonly allowed: readonly { readonly x: number; readonly width: number }[];
  /** Without those that a limit or its number stands at. */
  readonly ticks: readonly Tick[];
  readonly limits: readonly { readonly value: number; readonly x: number }[];
  /** px. */
  readonly notch: number;
}

/** A stretch is cut out where it is so many times as long as the shortest that has to be seen. */
const LONGEST = 24;
/** px that stand for what is cut out. */
const CUT = 14;
/** Beyond what has to be seen, as a share of it; more where the allowed range goes on. */
const BEYOND = 0.08;
const GOES_ON = 0.2;
/** px between numbers, and between ticks. */
const LABEL_ROOM = 42;
const TICK_ROOM = 5;

export function tapeScale(measured: number, { atLeast, atMost }: Bounds, width: number): TapeScale {
  const limits = [...new Set([atLeast, atMost])].filter((value) => value !== undefined);
  const { groups, isCutAtZero } = groupsOf(measured, limits);
  const seen = Math.max(...groups.map(extent)) || Math.abs(measured) / 2 || 1;
  const ends = groups.map((group, i) => {
    const isZero = group[0] === 0 && atMost !== 0 && measured !== 0;
    const before = i === 0 && atLeast === undefined ? GOES_ON : BEYOND;
    const after = i === groups.length - 1 && atMost === undefined ? GOES_ON : BEYOND;
    return { from: group[0]! - (isZero ? 0 : before * seen), to: group.at(-1)! + after * seen };
  });
  const cuts = ends.length - 1 + Number(isCutAtZero);
  const perUnit = (width - cuts * CUT) / ends.reduce((sum, { from, to }) => sum + to - from, 0);
  let x = isCutAtZero ? CUT : 0;
  const parts = ends.map(({ from, to }): TapePart => {
    const part = { from, to, x, width: (to - from) * perUnit };
    x += part.width + CUT;
    return part;
  });
  const at = (value: number): number => {
    const part = parts.find(({ from, to }) => value >= from && value <= to)!;
    return part.x + (value - part.from) * perUnit;
  };
  const placed = limits.map((value) => ({ value, x: at(value) }));
  return {
    ...{ parts, isCutAtZero, limits: placed, notch: at(measured) },
    allowed: parts.flatMap((part) => allowedIn(part, atLeast ?? -Infinity, atMost ?? Infinity, perUnit)),
    ticks: ticksIn(parts, perUnit, placed),
  };
}

/** What has to be seen together, from the left: parted where the way between is too long. */
function groupsOf(
  measured: number,
  limits: readonly number[],
): Pick<TapeScale, 'isCutAtZero'> & { groups: number[][] } {
  const needed = [measured, ...limits];
  const isPositive = needed.every((value) => value >= 0);
  const points = [...new Set([...needed, ...(isPositive ? [0] : [])])].sort(compareNumbers);
  const steps = points.slice(1).map((point, i) => point - points[i]!);
  const shortest = Math.min(...steps);
  const groups: number[][] = [[points[0]!]];
  for (const [i, step] of steps.entries()) {
    if (step > LONGEST * shortest) groups.push([]);
    groups.at(-1)!.push(points[i + 1]!);
  }
  const isCutAtZero = groups.length > 1 && groups[0]!.length === 1 && !needed.includes(0) && groups[0]![0] === 0;
  return { isCutAtZero, groups: isCutAtZero ? groups.slice(1) : groups };
}

const extent = (group: readonly number[]): number => group.at(-1)! - group[0]!;

/** A range that is one value is still to be seen. */
const LEAST_RANGE = 4;

function allowedIn({ from, to, x }: TapePart, low: number, high: number, perUnit: number): TapeScale['allowed'] {
  const [start, end] = [Math.max(from, low), Math.min(to, high)];
  if (start > end) return [];
  const width = (end - start) * perUnit;
  const left = x + (start - from) * perUnit;
  return [width >= LEAST_RANGE ? { x: left, width } : { x: left - (LEAST_RANGE - width) / 2, width: LEAST_RANGE }];
}

function ticksIn(parts: readonly TapePart[], perUnit: number, limits: TapeScale['limits']): Tick[] {
  const step = niceStep(LABEL_ROOM / perUnit);
  const fine = [step / 10, step / 5, step / 2, step].find((one) => one * perUnit >= TICK_ROOM) ?? step;
  const isFree = (x: number): boolean => limits.every((limit) => Math.abs(limit.x - x) >= LABEL_ROOM * 0.75);
  return parts.flatMap(({ from, to, x }) => {
    const first = Math.ceil(from / fine - 1e-9);
    const count = Math.floor(to / fine + 1e-9) - first + 1;
    return Array.from({ length: count }, (_, i): Tick => {
      const value = (first + i) * fine;
      const place = x + (value - from) * perUnit;
      const isWhole = Math.abs(value / step - Math.round(value / step)) < 1e-6;
      return { value, x: place, isLabelled: isWhole && isFree(place) };
    });
  });
}

/** 1, 2 or 5 of a power of ten, no less than asked for. */
function niceStep(least: number): number {
  const decade = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5, 10].find((one) => one * decade >= least * (1 - 1e-9)) ?? 10) * decade;
}
