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
export const LABEL = { width: 86, height: 62, above: 16 } as const;
/** px of barrier beside and over what stands in it. */
const BESIDE = 16;
/** px of a wall that are kept at its ends, foot and head. */
const END = 14;
/** px beyond the outline. */
const OUTSIDE = 6;

export function planFace(flat: FlatBarrier, isSeen: (id: string) => boolean, width: number, scale: number): FacePlan {
  const unit = unitOf(scale);
  const rows: Unit[][] = [];
  let row: Unit[] = [];
  const atoms = atomsOf(unitsOf(flat, isSeen, unit));
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
  return { flat, scale, rows: rows.map((units, i) => rowOf(units, flat, unit, width, i === 0, i === rows.length - 1)) };
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

const spanOf = ({ members }: Unit): Interval => ({
  from: Math.min(...members.map(({ box }) => box.min[0])),
  to: Math.max(...members.map(({ box }) => box.max[0])),
});

/** Units that lie over each other can't be parted between rows. */
function atomsOf(units: readonly Unit[]): Unit[][] {
  const sorted = units.map((unit) => ({ unit, span: spanOf(unit) })).sort((a, b) => a.span.from - b.span.from);
  const atoms: Unit[][] = [];
  let end = -Infinity;
  for (const { unit, span } of sorted) {
    if (span.from <= end) atoms.at(-1)!.push(unit);
    else atoms.push([unit]);
    end = Math.max(end, span.to);
  }
  return atoms;
}

const labelsOf = (units: readonly Unit[]): number => units.filter(({ isSeen }) => isSeen).length;

function rowOf(
  units: readonly Unit[],
  flat: FlatBarrier,
  unit: number,
  width: number,
  isFirst: boolean,
  isLast: boolean,
): RowPlan {
  const x = alongOf(units, flat, unit, isFirst, isLast);
  const y = uprightOf(units, flat, unit);
  const labels = labelsOf(units);
  const inLine = Math.max(1, Math.floor(Math.max(width, x.length) / LABEL.width));
  const tiers = Math.ceil(labels / inLine);
  const drawingHeight = y.length;
  return {
    ...{ units, x, y, tiers, drawingHeight },
    width: Math.max(x.length, Math.min(labels, inLine) * LABEL.width),
    height: drawingHeight + (tiers > 0 ? LABEL.above + tiers * LABEL.height : 0),
  };
}

/** So much beside each that its label can stand under it; the ends of a wall in its first and last row. */
function alongOf(
  units: readonly Unit[],
  { isWall, hasOutline, bounds: { min, max } }: FlatBarrier,
  unit: number,
  isFirst: boolean,
  isLast: boolean,
): Axis {
  const wanted = units.map((one): Interval => {
    const { from, to } = spanOf(one);
    const beside = Math.max(BESIDE * unit, one.isSeen ? (LABEL.width * unit - (to - from)) / 2 : 0);
    return {
      from: Math.max(from - beside, Math.min(from, min[0] - OUTSIDE * unit)),
      to: Math.min(to + beside, Math.max(to, max[0] + OUTSIDE * unit)),
    };
  });
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
