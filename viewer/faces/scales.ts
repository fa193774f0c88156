/** At which scale a barrier is drawn: the same for a storey where that can be read, else its own. */
import type { FlatBarrier, FlatPenetration } from './flat.js';

/** n of 1:n: those of ISO 5455, and 1:25, as is usual on building drawings. */
export const SCALES = [1, 2, 5, 10, 20, 25, 50, 100, 200, 500] as const;

/** mm in the building for each px of 1/96 inch. */
export const unitOf = (scale: number): number => (scale * 25.4) / 96;

/** A duct is easily seen from here on, px; and no longer told from its mark under the second. */
const READABLE = 40;
const LEAST = 24;
/** Of the height of a region, for what is drawn of one row. */
const HIGHEST = 380;
/** Beside a duct that fills the row. */
const BESIDE = 32;
/** No mark lies on another one this far off, px. */
export const MARK = 22;
export const MARKS_APART = MARK + 2;

const longest = ({ ductBox: { min, max } }: FlatPenetration): number => Math.max(max[0] - min[0], max[1] - min[1]);

/** The smallest scale at which three of four ducts of a storey are easily seen. */
export function commonScale(barriers: readonly FlatBarrier[]): number {
  const sizes = barriers.flatMap(({ penetrations }) => penetrations.map(longest)).sort((a, b) => a - b);
  const most = sizes[Math.floor(sizes.length / 4)] ?? 0;
  return [...SCALES].reverse().find((n) => most / unitOf(n) >= READABLE) ?? SCALES[0];
}

/** The storey's scale, larger where a duct would be too small, smaller where one would not go into the row. */
export function barrierScale({ penetrations }: FlatBarrier, common: number, width: number): number {
  const least = Math.min(...penetrations.map(longest));
  const [wide, high] = [0, 1].map((axis) =>
    Math.max(...penetrations.map(({ box }) => box.max[axis]! - box.min[axis]!)),
  ) as [number, number];
  const seen = (n: number): boolean => least / unitOf(n) >= LEAST;
  const fits = (n: number): boolean => wide / unitOf(n) + BESIDE <= width && high / unitOf(n) <= HIGHEST;
  const wished = seen(common) ? common : ([...SCALES].reverse().find((n) => n < common && seen(n)) ?? SCALES[0]);
  return SCALES.find((n) => n >= wished && fits(n)) ?? SCALES.at(-1)!;
}

/** The scale at which no two marks of a cluster overlap; the largest there is for ducts in one place. */
export function separatingScale(members: readonly FlatPenetration[], now: number): number {
  const apart = (n: number): boolean =>
    members.every((a, i) => members.slice(i + 1).every((b) => !near(a, b, unitOf(n))));
  return [...SCALES].reverse().find((n) => n < now && apart(n)) ?? SCALES[0];
}

/** Whether two marks would overlap. @param unit mm for each px */
export const near = (a: FlatPenetration, b: FlatPenetration, unit: number): boolean =>
  Math.abs(a.at[0] - b.at[0]) < MARKS_APART * unit && Math.abs(a.at[1] - b.at[1]) < MARKS_APART * unit;
