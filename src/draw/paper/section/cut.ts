/** Where a penetration is cut for its section, and what of barrier, opening and duct lies in that cut. */
import { cross, dot, sub, Z } from '../../../geometry/vector.js';
import type { Polygon, Side, Vec3 } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import { compass } from '../../../words/compass.js';
import { number } from '../../../words/text.js';

/** From lower to higher, mm across the duct or along it; 0 is where its axis passes the middle of the barrier. */
export type Interval = readonly [number, number];

/** A slice of the barrier along the duct. `frame`: studs and what lies between them. */
export interface Band {
  readonly kind: 'leaf' | 'board' | 'frame' | 'lining' | 'cavity';
  readonly at: Interval;
  readonly material: string | null;
}

export interface CutGap {
  readonly side: Side;
  /** As it was measured, else as it lies in the cut. */
  readonly value: number;
  /** As it lies in the cut. */
  readonly drawn: number;
}

export interface Cut {
  /** The pair of gaps that it passes. */
  readonly pair: 'top and bottom' | 'left and right';
  /** Of walls the duct lies level on paper, of floors and roofs it stands. */
  readonly isLevel: boolean;
  /** Which way one looks: a compass word, `down` or `up`. */
  readonly looking: string;
  /** 1 where what comes later along the duct on paper (to the right, up) comes later along the normal; else -1. */
  readonly sense: 1 | -1;
  /** Whether the thickness of the barrier is known; where not, it is drawn as {@link UNKNOWN_THICKNESS}. */
  readonly isThicknessKnown: boolean;
  readonly thickness: number;
  readonly bands: readonly Band[];
  /** null: its section is not known. */
  readonly duct: Interval | null;
  /** null: none is modelled, or none where the duct is. */
  readonly opening: Interval | null;
  /** Lower, higher; undefined where there is none. */
  readonly gaps: readonly [CutGap | undefined, CutGap | undefined];
  /** Rise across for each millimetre along; 0 where the duct is drawn square. */
  readonly slope: number;
  /** Whether the duct is askew in a way that the cut does not show. */
  readonly hidesSkew: boolean;
}

export const UNKNOWN_THICKNESS = 150;
/** A duct that is further off square is drawn square and said to be askew: parts of its sides would leave the sheet. */
const STEEPEST = Math.tan((30 * Math.PI) / 180);

const PAIRS = { 'top and bottom': ['bottom', 'top'], 'left and right': ['left', 'right'] } as const;
type Pair = keyof typeof PAIRS;

export function cutOf(p: ReportPenetration): Cut {
  const upright = through(p, 'top and bottom');
  const level = through(p, 'left and right');
  // What is off by most has to be seen.
  return worst(p, level) > worst(p, upright) ? level : upright;
}

/** Through that pair of gaps. */
export function through(p: ReportPenetration, pair: Pair): Cut {
  const { frame, barrier, outlines } = p;
  const isLevel = barrier.kind === 'wall';
  const along = isLevel
    ? cross(frame.right, frame.up)
    : dot(frame.normal, Z) < 0
      ? scaled(frame.normal, -1)
      : frame.normal;
  const across = pair === 'top and bottom' ? frame.up : frame.right;
  const looking = isLevel ? cross(across, along) : cross(along, across);
  const sense = dot(along, frame.normal) < 0 ? -1 : 1;
  const thickness = barrier.thickness ?? UNKNOWN_THICKNESS;
  const axis = pair === 'top and bottom' ? 1 : 0;
  const [outline] = outlines.duct;
  const middle = outline && outline.length > 2 ? middleOf(outline, (1 - axis) as 0 | 1) : 0;
  const duct = outline ? sliceOf(outline, axis, middle) : null;
  const openings = outlines.opening.flatMap((one) => sliceOf(one, axis, middle) ?? []);
  const opening = duct ? (pairsOf(openings).find((one) => meets(one, duct)) ?? null) : (pairsOf(openings)[0] ?? null);
  return {
    ...{ pair, isLevel, sense, thickness, duct, opening, looking: wayOf(looking) },
    isThicknessKnown: barrier.thickness !== null,
    bands: bandsOf(p, thickness, sense),
    gaps: gapsOf(p, pair, duct, opening),
    ...skewOf(p, along, across),
  };
}

const scaled = ([x, y, z]: Vec3, by: number): Vec3 => [x * by, y * by, z * by];
const meets = (a: Interval, b: Interval): boolean => a[0] < b[1] && b[0] < a[1];
const pairsOf = (values: readonly number[]): Interval[] =>
  values.flatMap((value, i) => (i % 2 === 0 ? [[value, values[i + 1]!] as const] : []));
const wayOf = (d: Vec3): string => (Math.abs(d[2]) > Math.SQRT1_2 ? (d[2] < 0 ? 'down' : 'up') : compass(d));

function middleOf(outline: Polygon, axis: 0 | 1): number {
  const values = outline.map((q) => q[axis]);
  return (Math.min(...values) + Math.max(...values)) / 2;
}

/** Where a line through an outline enters and leaves it. @param axis that the line runs along; @param at where it stands */
function sliceOf(outline: Polygon, axis: 0 | 1, at: number): Interval | null {
  const other = (1 - axis) as 0 | 1;
  const hits = outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!;
    const [from, to] = [a[other] - at, b[other] - at];
    if (from === 0) return [a[axis]];
    return from * to < 0 ? [a[axis] + ((b[axis] - a[axis]) * from) / (from - to)] : [];
  });
  const slice: Interval = [Math.min(...hits), Math.max(...hits)];
  return hits.length > 0 && slice[1] - slice[0] > 1e-6 ? slice : null;
}

/** What the duct passes, one after the other; one band where it is not known, or does not add up to what was measured. */
function bandsOf({ barrier }: ReportPenetration, thickness: number, sense: 1 | -1): Band[] {
  const { buildUp, boards } = barrier;
  const total = buildUp.reduce((sum, part) => sum + part.thickness, 0);
  if (buildUp.length === 0 || Math.abs(total - thickness) > 1)
    return [{ kind: 'leaf', at: [-thickness / 2, thickness / 2], material: null }];
  const leaves = buildUp.filter(({ kind }) => kind === 'leaf');
  const kindOf = (part: (typeof buildUp)[number]): Band['kind'] => {
    if (part.kind !== 'leaf' || !boards || leaves.length < boards[0] + boards[1] + 1) return part.kind;
    const place = leaves.indexOf(part);
    return place < boards[0] || place >= leaves.length - boards[1] ? 'board' : 'frame';
  };
  const bands = buildUp.map((part) => ({ kind: kindOf(part), material: part.material, thickness: part.thickness }));
  let from = -thickness / 2;
  return (sense > 0 ? bands : bands.reverse()).map(({ thickness: size, ...band }) => {
    const at: Interval = [from, from + size];
    from += size;
    return { ...band, at };
  });
}

function gapsOf(p: ReportPenetration, pair: Pair, duct: Interval | null, opening: Interval | null): Cut['gaps'] {
  if (!duct || !opening) return [undefined, undefined];
  const [lower, higher] = PAIRS[pair];
  const gap = (side: Side, drawn: number): CutGap => {
    const measured = p.gaps.facing[side] === undefined ? p.gaps[side] : null;
    return { side, drawn, value: measured ?? Math.round(drawn * 10) / 10 };
  };
  return [gap(lower, duct[0] - opening[0]), gap(higher, opening[1] - duct[1])];
}

/** How far a pair of gaps is off what the chosen detail was tested with; without one, how wide the wider gap is. */
function worst({ treatment }: ReportPenetration, { gaps }: Cut): number {
  const limit = treatment.chosen?.scope.find(({ name }) => name === 'widestGap')?.limit;
  const values = gaps.flatMap((gap) => (gap ? [gap.value] : []));
  const off = (value: number): number => {
    if (value < 0) return Infinity;
    if (limit?.atLeast === undefined || limit.atMost === undefined) return value;
    return Math.max(limit.atLeast - value, value - limit.atMost);
  };
  return Math.max(-Infinity, ...values.map(off));
}

function skewOf({ duct, skew, frame }: ReportPenetration, along: Vec3, across: Vec3): Pick<Cut, 'slope' | 'hidesSkew'> {
  if (skew === 0) return { slope: 0, hidesSkew: false };
  if (!duct.axis) return { slope: 0, hidesSkew: true };
  const way = sub(duct.axis[1], duct.axis[0]);
  const advance = dot(way, along);
  const [rise, aside] = [dot(way, across), dot(way, across === frame.up ? frame.right : frame.up)];
  const slope = rise / advance;
  const isDrawn = Number.isFinite(slope) && Math.abs(slope) <= STEEPEST;
  return { slope: isDrawn ? slope : 0, hidesSkew: !isDrawn || Math.abs(aside / advance) > 0.01 };
}

/** `Cut through gaps top and bottom, looking west`. */
export const cutWords = ({ pair, looking }: Cut): string => `Cut through gaps ${pair}, looking ${looking}`;

/** `600`, `Ø 315`: the duct as it lies in the cut. */
export function ductSize({ duct }: ReportPenetration, cut: Cut): string {
  if (!cut.duct) return '';
  // Square to the duct.
  const drawn = (cut.duct[1] - cut.duct[0]) / Math.hypot(1, cut.slope);
  if (duct.shape === 'circular' && duct.diameter !== null) return `Ø ${number(duct.diameter)}`;
  const stated = cut.pair === 'top and bottom' ? duct.height : duct.width;
  return number(stated !== null && Math.abs(stated - drawn) < 1 ? stated : Math.round(drawn * 10) / 10);
}
