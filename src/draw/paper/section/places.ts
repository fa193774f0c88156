/** Places on the faces of the barrier and along the duct: from a face outwards (w), from a side of the duct outwards (u). */
import type { Polygon, Vec2 } from '../../../model.js';
import type { Cut, Interval } from './cut.js';

/** -1: the one that is earlier along the duct on paper. */
export type Face = -1 | 1;
/** 0: the lower one. */
export type Side = 0 | 1;
export const SIDES = [0, 1] as const;

/** Where a face and a side of the duct meet. */
export interface Corner {
  readonly face: Face;
  readonly side: Side;
}

export class Places {
  /** @param base from the outline of the duct to what fills the gap beside it */
  constructor(
    private readonly cut: Cut,
    private readonly duct: Interval,
    readonly faces: readonly Face[],
    private readonly base: number,
  ) {}

  /** @param faces one: of several that are built the last */
  corners(faces: 'both' | 'one'): Corner[] {
    const own = faces === 'one' ? this.faces.slice(-1) : this.faces;
    return own.flatMap((face) => SIDES.map((side) => ({ face, side })));
  }

  /** On the higher side, now on the one and now on the other face, so that numbers have room. */
  pointed(corners: readonly Corner[], turn: number, w: number, u: number): Vec2[] {
    const higher = corners.filter(({ side }) => side === 1);
    const corner = higher[turn % Math.max(1, higher.length)];
    return corner ? [this.point(corner, w, u)] : [];
  }

  /** Along the duct. */
  off(face: Face, w: number): number {
    return face * (this.cut.thickness / 2 + w);
  }

  across(side: Side, along: number, u: number): number {
    return this.duct[side] + (side === 1 ? u : -u) + this.cut.slope * along;
  }

  point({ face, side }: Corner, w: number, u: number): Vec2 {
    return [this.off(face, w), this.across(side, this.off(face, w), u)];
  }

  /** What stands square on a face keeps its form where the duct is askew. */
  onFace({ face, side }: Corner, points: Polygon): Polygon {
    return points.map(([w, u]) => [this.off(face, w), this.across(side, this.off(face, 0), u)]);
  }

  /** What lies along the duct goes with it. */
  onDuct(corner: Corner, from: number, to: number, inner: number, outer: number): Polygon {
    return rectangleOf(from, to, inner, outer).map(([w, u]) => this.point(corner, w, u));
  }

  /** From one place along the duct to another, whatever is between. */
  strip(side: Side, from: number, to: number, inner: number, outer: number): Polygon {
    return rectangleOf(from, to, inner, outer).map(([along, u]) => [along, this.across(side, along, u)]);
  }

  /** The gap at one side, between two places along the duct, each as far before a face; undefined where there is none. */
  gap(side: Side, from: number, to: number): Polygon | undefined {
    const gap = this.cut.gaps[side];
    if (!gap || gap.drawn <= this.base || to <= from) return undefined;
    const edge = this.cut.opening![side];
    const inner = (along: number): Vec2 => [along, this.across(side, along, this.base)];
    return [inner(from), inner(to), [to, edge], [from, edge]];
  }

  /** Across from the duct to the middle of what fills the gap on the higher side. */
  get gapMiddle(): number {
    return (this.base + (this.cut.gaps[1]?.drawn ?? 0)) / 2;
  }

  get half(): number {
    return this.cut.thickness / 2;
  }
}

export const rectangleOf = (from: number, to: number, inner: number, outer: number): Polygon => [
  [from, inner],
  [to, inner],
  [to, outer],
  [from, outer],
];
