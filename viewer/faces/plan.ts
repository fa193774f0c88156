/**
 * How a barrier is parted into rows, before anything of it is drawn: what stands in each, what is left out between break lines,
 * how high it is. As seen from side A; side B is the mirror image with its rows the other way round.
 */
import type { FlatBarrier, FlatPenetration } from './flat.js';
import { MARKS_APART, near, unitOf } from './scales.js';
import { type Axis, axisOf, type Interval } from './shorten.js';

/** Penetrations with one mark: one, or several whose marks would overlap; or one that the filter holds back. */
export interface Unit {
  /** From left to right. */
  readonly members: readonly FlatPenetration[];
  readonly isSeen: boolean;
}

export interface RowPlan {
  readonly units: readonly Unit[];
  readonly x: Axis;
  /** Downwards: of -y. */
  readonly y: Axis;
  /** px. */
  readonly width: number;
  readonly drawingHeight: number;
  /** Labels stand in so many lines under the drawing. */
  readonly tiers: number;
  readonly height: number;
}

export interface FacePlan {
  readonly flat: FlatBarrier;
  /** n of 1:n. */
  readonly scale: number;
  readonly rows: readonly RowPlan[];
}

/** px: room of a label with what lies between it and the next, and of the leaders over it. */
export const LABEL = { width: 86, height: 66, above: 16 } as const;
/** px of barrier beside and over what stands in it. */
const BESIDE = 16;
/** px of a wall that are kept at its ends, foot and head. */
const END = 14;
/** px beyond the outline. */
const OUTSIDE = 6;

export function planFace(flat: FlatBarrier, isSeen: (id: string) => boolean, width: number, scale: number): FacePlan {
  const unit = unitOf(scale);
  const rows: Kept[][] = [];
  let row: Kept[] = [];
  const atoms = atomsOf(unitsOf(flat, isSeen, unit), flat, unit);
  for (const [i, atom] of atoms.entries()) {
    const longer = [...row, ...atom];
    const fits =
      labelsOf(longer) * LABEL.width <= width &&
      alongOf(longer, flat, unit, rows.length === 0, i === atoms.length - 1).length <= width;
    if (row.length > 0 && !fits) {
      rows.push(row);
      row = [...atom];
    } else row = longer;
  }
  rows.push(row);
  return { flat, scale, rows: rows.map((kept, i) => rowOf(kept, flat, unit, width, i === 0, i === rows.length - 1)) };
}

/** Marks that would overlap, one after the other, make one unit; what is not seen has no mark. */
function unitsOf({ penetrations }: FlatBarrier, isSeen: (id: string) => boolean, unit: number): Unit[] {
  const units: { members: FlatPenetration[]; isSeen: boolean; right: number }[] = [];
  for (const one of penetrations) {
    const seen = isSeen(one.penetration.id);
    // Sorted by x: what is near to any member of more than one unit joins them.
    const inReach = one.at[0] - MARKS_APART * unit;
    const joined = seen
      ? units.filter((u) => u.isSeen && u.right > inReach && u.members.some((other) => near(one, other, unit)))
      : [];
    const [first, ...others] = joined;
    if (!first) {
      units.push({ members: [one], isSeen: seen, right: one.at[0] });
      continue;
    }
    first.right = one.at[0];
    first.members.push(...others.flatMap(({ members }) => members), one);
    for (const other of others) units.splice(units.indexOf(other), 1);
  }
  return units;
}

/** A unit with what of the barrier is kept for it, mm. */
interface Kept extends Interval {
  readonly unit: Unit;
  /** Of what stands in it. */
  readonly span: Interval;
}

/** So much beside each that its label can stand under it, and not beyond the barrier. */
function keptFor(unit: Unit, { bounds: { min, max } }: FlatBarrier, mm: number): Kept {
  let [from, to] = [Infinity, -Infinity];
  for (const { box } of unit.members) {
    from = Math.min(from, box.min[0]);
    to = Math.max(to, box.max[0]);
  }
  const beside = Math.max(BESIDE * mm, unit.isSeen ? (LABEL.width * mm - (to - from)) / 2 : 0);
  return {
    ...{ unit, span: { from, to } },
    from: Math.max(from - beside, Math.min(from, min[0] - OUTSIDE * mm)),
    to: Math.min(to + beside, Math.max(to, max[0] + OUTSIDE * mm)),
  };
}

/** Units that lie over each other can't be parted between rows. */
function atomsOf(units: readonly Unit[], flat: FlatBarrier, mm: number): Kept[][] {
  const sorted = units.map((unit) => keptFor(unit, flat, mm)).sort((a, b) => a.span.from - b.span.from);
  const atoms: Kept[][] = [];
  let end = -Infinity;
  for (const kept of sorted) {
    if (kept.span.from <= end) atoms.at(-1)!.push(kept);
    else atoms.push([kept]);
    end = Math.max(end, kept.span.to);
  }
  return atoms;
}

const labelsOf = (kept: readonly Kept[]): number => kept.reduce((sum, { unit }) => sum + Number(unit.isSeen), 0);

function rowOf(
  kept: readonly Kept[],
  flat: FlatBarrier,
  unit: number,
  width: number,
  isFirst: boolean,
  isLast: boolean,
): RowPlan {
  const units = kept.map((one) => one.unit);
  const x = alongOf(kept, flat, unit, isFirst, isLast);
  const y = uprightOf(units, flat, unit);
  const labels = labelsOf(kept);
  const inLine = Math.max(1, Math.floor(Math.max(width, x.length) / LABEL.width));
  const tiers = Math.ceil(labels / inLine);
  const drawingHeight = y.length;
  return {
    ...{ units, x, y, tiers, drawingHeight },
    width: Math.max(x.length, Math.min(labels, inLine) * LABEL.width),
    height: drawingHeight + (tiers > 0 ? LABEL.above + tiers * LABEL.height : 0),
  };
}

/** What is kept for each, and the ends of a wall in its first and last row. */
function alongOf(
  kept: readonly Kept[],
  { isWall, hasOutline, bounds: { min, max } }: FlatBarrier,
  unit: number,
  isFirst: boolean,
  isLast: boolean,
): Axis {
  const wanted: Interval[] = [...kept];
  const stub = (end: number, by: 1 | -1): Interval => {
    const [a, b] = [end - by * OUTSIDE * unit, end + by * END * unit];
    return { from: Math.min(a, b), to: Math.max(a, b) };
  };
  if (isWall && hasOutline && isFirst) wanted.push(stub(min[0], 1));
  if (isWall && hasOutline && isLast) wanted.push(stub(max[0], -1));
  return axisOf(wanted, unit);
}

/** Of -y: what passes, and foot and head of a wall. */
function uprightOf(units: readonly Unit[], flat: FlatBarrier, unit: number): Axis {
  const {
    isWall,
    hasOutline,
    bounds: { min, max },
  } = flat;
  const wanted = units.flatMap(({ members }) =>
    members.map(
      ({ box }): Interval => ({
        from: -Math.min(box.max[1] + BESIDE * unit, Math.max(box.max[1], max[1] + OUTSIDE * unit)),
        to: -Math.max(box.min[1] - BESIDE * unit, Math.min(box.min[1], min[1] - OUTSIDE * unit)),
      }),
    ),
  );
  if (isWall && hasOutline) {
    const head = Math.max(max[1], flat.ceiling ?? -Infinity);
    const foot = Math.min(min[1], flat.floor ?? Infinity);
    wanted.push({ from: -head - OUTSIDE * unit, to: -max[1] + END * unit });
    wanted.push({ from: -min[1] - END * unit, to: -foot + OUTSIDE * unit });
  }
  return axisOf(wanted, unit);
}
