/** One row of a barrier as it is drawn: where every outline, mark and label stands, px, y downwards. Pure. */
import type { Box } from '../../src/draw/paper/layout.js';
import type { Vec2 } from '../../src/model.js';
import { seriousness } from '../state/building.js';
import type { Side } from '../state/state.js';
import { type DrawnEdge, drawnIn, tilesOf } from './cut-out.js';
import type { FlatPenetration } from './flat.js';
import { mirroredRow } from './mirror.js';
import type { PlacedMark, PlacedPenetration, PlacedRow } from './placed.js';
import { type FacePlan, LABEL, type RowPlan, type Unit } from './plan.js';
import { MARK } from './scales.js';
import { type Axis, BREAK, endOf, placeOn } from './shorten.js';
import { spread } from './spread.js';

/** @param index as seen from that side: the first row of side B is the last of side A */
export function placeRow({ flat, rows }: FacePlan, index: number, side: Side): PlacedRow {
  const row = rowSeen(rows, index, side);
  const { x, y } = row;
  const point = pointIn(row);
  const tiles = tilesOf(x, y);
  const barrier = drawnIn(flat.outline, tiles);
  const openings = drawnIn(flat.openings, tiles);
  const across = (level: number | null): DrawnEdge[] =>
    level === null
      ? []
      : along(x).map(([from, to]) => [
          [from, placeOn(y, -level)],
          [to, placeOn(y, -level)],
        ]);
  const placed: PlacedRow = {
    ...{ width: row.width, height: row.height, drawingHeight: row.drawingHeight },
    ...{ solid: barrier.areas, edges: barrier.edges, openings: openings.areas, openingEdges: openings.edges },
    services: drawnIn(flat.services, tiles).areas,
    breaks: breaksOf(row, flat.bounds),
    levels: [...across(flat.floor), ...across(flat.ceiling)],
    penetrations: row.units.flatMap(({ members, isSeen }) =>
      members.map(
        (one): PlacedPenetration => ({
          penetration: one.penetration,
          duct: one.duct.map((outline) => outline.map(point)),
          opening: one.opening.map((outline) => outline.map(point)),
          box: boxBetween(point(one.ductBox.min), point(one.ductBox.max)),
          isSeen,
        }),
      ),
    ),
    marks: marksOf(row, point),
  };
  return side === 'A' ? placed : mirroredRow(placed);
}

/** Of side B the last row comes first. */
export const rowSeen = (rows: readonly RowPlan[], index: number, side: Side): RowPlan =>
  rows[side === 'A' ? index : rows.length - 1 - index]!;

/** From the plane of the face, mm, to the row as seen from side A, px. */
export const pointIn =
  ({ x, y }: RowPlan) =>
  ([px, py]: Vec2): Vec2 => [placeOn(x, px), placeOn(y, -py)];

const boxBetween = ([x0, y0]: Vec2, [x1, y1]: Vec2): Box => ({
  ...{ x: Math.min(x0, x1), y: Math.min(y0, y1) },
  ...{ width: Math.abs(x1 - x0), height: Math.abs(y1 - y0) },
});

/** The most serious of a cluster; the first of several. */
export const worstMember = ({ members }: Pick<Unit, 'members'>): FlatPenetration =>
  members.reduce((worst, one) =>
    seriousness(one.penetration.outcome) < seriousness(worst.penetration.outcome) ? one : worst,
  );

/** Labels stand in the order of their ducts, in one line or by turns in several. */
function marksOf({ units, tiers, width, drawingHeight }: RowPlan, point: (p: Vec2) => Vec2): PlacedMark[] {
  const marked = units
    .filter(({ isSeen }) => isSeen)
    .map((unit) => {
      const worst = worstMember(unit);
      return { unit, worst, at: point(worst.at), foot: point([worst.at[0], worst.ductBox.min[1]]) };
    })
    .sort((a, b) => a.at[0] - b.at[0] || b.at[1] - a.at[1]);
  const middles = marked.map(() => 0);
  for (let tier = 0; tier < tiers; tier++) {
    const inTier = marked.flatMap((_, i) => (i % tiers === tier ? [i] : []));
    const placed = spread(
      inTier.map((i) => marked[i]!.at[0]),
      LABEL.width,
      width,
    );
    for (const [k, i] of inTier.entries()) middles[i] = placed[k]!;
  }
  const top = drawingHeight + LABEL.above;
  return marked.map(({ unit, worst, at, foot }, i): PlacedMark => {
    const label: Box = {
      ...{ x: middles[i]! - (LABEL.width - APART) / 2, y: top + (i % tiers) * LABEL.height },
      ...{ width: LABEL.width - APART, height: LABEL.height - APART },
    };
    return {
      ...{ penetration: worst.penetration, members: unit.members, outcome: worst.penetration.outcome },
      ...{ at, size: MARK, label },
      leader: [foot, [foot[0], drawingHeight + 2], [middles[i]!, top - 2], [middles[i]!, label.y]],
    };
  });
}
/** Between two labels, px. */
const APART = 4;

/** Where the stretches of a line begin and end, px. */
const along = (axis: Axis): (readonly [number, number])[] =>
  axis.stretches.map((stretch) => [stretch.at, endOf(axis, stretch)]);

/** At both sides of what is left out, and where the row ends before the barrier does. */
function breaksOf({ x, y }: RowPlan, { min, max }: FacePlan['flat']['bounds']): DrawnEdge[] {
  const upright = cutsOf(x, min[0], max[0]).flatMap((at) =>
    along(y).map(
      ([from, to]): DrawnEdge => [
        [at, from],
        [at, to],
      ],
    ),
  );
  const level = cutsOf(y, -max[1], -min[1]).flatMap((at) =>
    along(x).map(
      ([from, to]): DrawnEdge => [
        [from, at],
        [to, at],
      ],
    ),
  );
  return [...upright, ...level];
}

/** @param from where the barrier begins, and where it ends, mm */
function cutsOf(axis: Axis, from: number, to: number): number[] {
  const [first, last] = [axis.stretches[0]!, axis.stretches.at(-1)!];
  return [
    ...(first.from > from ? [0] : []),
    ...axis.stretches.slice(1).flatMap(({ at }) => [at - BREAK, at]),
    ...(last.to < to ? [endOf(axis, last)] : []),
  ];
}
