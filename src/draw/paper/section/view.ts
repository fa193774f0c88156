/** From millimetres along and across the duct to millimetres on paper; a duct too large for the sheet is shortened in its middle. */
import type { Polygon, Vec2 } from '../../../model.js';
import { type Box, middleOf } from '../layout.js';
import { scaleFor } from '../view.js';
import type { Cut, Interval } from './cut.js';

export interface SectionView {
  readonly scale: number;
  /** Along and across the duct. */
  readonly at: (along: number, across: number) => Vec2;
  readonly outline: (points: Polygon) => Polygon;
  /** The part of the duct that is left out; null: none. */
  readonly omitted: Interval | null;
  /** What of barrier and duct is drawn. */
  readonly along: Interval;
  readonly across: Interval;
}

/** What has to be in sight. */
export interface Extent {
  readonly along: Interval;
  readonly across: Interval;
}

/** On paper, between the two lines where a duct is broken. */
export const BREAK_GAP = 2;
/** Of the duct beside a break: as much is left at each of its sides, mm on paper. */
const KEPT = 6;

/** Of barrier beyond all that has to be in sight, mm on paper: on the lower side there is a dimension. */
const MARGINS = { lower: 7, higher: 3.5 } as const;

/** @param inside where on the paper all of it has to be */
export function sectionView(cut: Cut, extent: Extent, inside: Box): SectionView {
  const [long, wide] = cut.isLevel ? [inside.width, inside.height] : [inside.height, inside.width];
  const scale = scaleOf(cut, extent, long, wide - MARGINS.lower - MARGINS.higher);
  const omitted = omittedOf(cut, extent, scale, wide - MARGINS.lower - MARGINS.higher);
  const left = omitted ? omitted[1] - omitted[0] - BREAK_GAP * scale : 0;
  const folded = (across: number): number =>
    omitted === null || across <= omitted[0]
      ? across
      : across >= omitted[1]
        ? across - left
        : omitted[0] + ((across - omitted[0]) * BREAK_GAP * scale) / (omitted[1] - omitted[0]);
  const [px, py] = middleOf(inside);
  const [alongMiddle, acrossMiddle] = [middle(extent.along), (extent.across[0] + folded(extent.across[1])) / 2];
  const lift = ((MARGINS.lower - MARGINS.higher) / 2) * scale;
  const at = (along: number, across: number): Vec2 => {
    // What is left out lies in the duct, and goes with it where it is askew.
    const rise = cut.slope * along;
    const [a, c] = [(along - alongMiddle) / scale, (folded(across - rise) + rise + lift - acrossMiddle) / scale];
    return cut.isLevel ? [px + a, py - c] : [px + c, py - a];
  };
  // The barrier goes on as far as there is room, and so does a duct that does not leave the sheet.
  const more = (wide * scale - (folded(extent.across[1]) - extent.across[0])) / 2;
  const further = cut.slope === 0 ? (long * scale - (extent.along[1] - extent.along[0])) / 2 : 0;
  return {
    ...{ scale, at, omitted, outline: (points) => points.map(([a, c]) => at(a, c)) },
    along: [extent.along[0] - further, extent.along[1] + further],
    across: [extent.across[0] - more - lift, extent.across[1] + more - lift],
  };
}

const middle = ([a, b]: Interval): number => (a + b) / 2;

/** By what lies beside the duct; the duct itself can be shortened. */
function scaleOf({ duct }: Cut, { along, across }: Extent, long: number, wide: number): number {
  const size = across[1] - across[0];
  const beside = duct ? size - (duct[1] - duct[0]) : size;
  const kept = duct ? 2 * KEPT + BREAK_GAP : 0;
  const length = along[1] - along[0];
  const whole = scaleFor(length, size, { width: long, height: wide });
  return Math.min(whole, scaleFor(length, beside, { width: long, height: wide - kept }));
}

function omittedOf({ duct }: Cut, { across }: Extent, scale: number, wide: number): Interval | null {
  const over = across[1] - across[0] - wide * scale;
  if (!duct || over <= 0) return null;
  const by = (over + BREAK_GAP * scale) / 2;
  return [middle(duct) - by, middle(duct) + by];
}
