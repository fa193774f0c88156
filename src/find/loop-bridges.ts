/** Where walls on plan nearly meet: what would have to be filled for them to meet, and how wide it is. */
import {
  closedOver,
  grownBy,
  type Outlines,
  outlinesOfPatch,
  patchArea,
  patchesOf,
  shared,
  totalArea,
  united,
  without,
} from '../geometry/areas.js';
import { edgeDistance } from '../geometry/edge-distance.js';
import { nearestPoints } from '../geometry/nearest-points.js';
import { bounds, boxesNear, centroid, isConvex } from '../geometry/polygon.js';
import { length2, sub2 } from '../geometry/vector.js';
import type { Barrier, Vec2 } from '../model.js';
import { CONTACT, LOOP_JOINT, LOOP_LEAK } from '../tolerances.js';
import { nearWall, type WallOnPlan } from './levels.js';

export interface Bridge {
  readonly outlines: Outlines;
  /** `leak`: open; `own`: within one wall, such as a doorway in its body; `unrated`: a wall not known to be rated is there. */
  readonly kind: 'leak' | 'own' | 'unrated';
  readonly at: Vec2;
  readonly width: number;
  readonly between: readonly [Barrier, Barrier];
  /** It goes through the outer wall. */
  readonly endsOutside?: boolean;
}

/** A gap faces the end of a wall, which is as wide as the wall is thick, or somewhat more where it is askew. */
const MOST_FACING = 1.5;
/** So much of a gap is filled by other walls, as a share, that none of it is open. */
const FILLED = 0.95;

/** @param outside all round the building */
export function bridgesOn(rated: readonly WallOnPlan[], others: readonly WallOnPlan[], outside: Outlines): Bridge[] {
  const boxes = new Map([...rated, ...others].map((wall) => [wall, bounds(wall.outlines)]));
  const near = (a: WallOnPlan, b: WallOnPlan) => boxesNear(boxes.get(a)!, boxes.get(b)!, LOOP_LEAK);
  return rated.flatMap((a, i) => {
    const beside = others.filter((other) => near(a, other));
    const own = doorways(a);
    const toOthers = rated.slice(i + 1).flatMap((b) => (near(a, b) ? gapsBetween(a, b, beside) : []));
    return [...own, ...toOthers, ...gapsToOutside(a, outside, beside)];
  });
}

/** Between the parts of one wall: its body is whole over them. */
function doorways(wall: WallOnPlan): Bridge[] {
  const parts = patchesOf(wall.outlines).map(outlinesOfPatch);
  return parts.flatMap((part, i) =>
    parts
      .slice(i + 1)
      .flatMap((other) =>
        fillings(part, other, wall.thickness).map(
          (filling): Bridge => ({ ...filling, kind: 'own', between: [wall.barrier, wall.barrier] }),
        ),
      ),
  );
}

function gapsBetween(a: WallOnPlan, b: WallOnPlan, beside: readonly WallOnPlan[]): Bridge[] {
  const thickness = Math.max(a.thickness, b.thickness);
  return fillings(a.outlines, b.outlines, thickness).map((filling): Bridge => {
    const isFilled = filledBy(filling.outlines, beside) >= FILLED;
    return { ...filling, kind: isFilled ? 'unrated' : 'leak', between: [a.barrier, b.barrier] };
  });
}

/** A rated wall that ends at an outer wall which is not rated goes on through it. */
function gapsToOutside(wall: WallOnPlan, outside: Outlines, beside: readonly WallOnPlan[]): Bridge[] {
  const here = shared(outside, nearWall(wall, LOOP_LEAK));
  if (here.length === 0) return [];
  return fillings(wall.outlines, here, wall.thickness).flatMap((filling): Bridge[] => {
    const open = filling.width * (1 - filledBy(filling.outlines, beside));
    const [nearest] = beside
      .filter((other) => shared(other.outlines, grownBy(filling.outlines, LOOP_JOINT)).length > 0)
      .sort((a, b) => (a.barrier.globalId < b.barrier.globalId ? -1 : 1));
    if (!nearest) return [];
    const between = [wall.barrier, nearest.barrier] as const;
    return [{ ...filling, width: open, kind: open > LOOP_JOINT ? 'leak' : 'unrated', between, endsOutside: true }];
  });
}

const filledBy = (gap: Outlines, walls: readonly WallOnPlan[]): number =>
  totalArea(shared(gap, united(...walls.map(({ outlines }) => outlines)))) / totalArea(gap);

type Filling = Pick<Bridge, 'outlines' | 'at' | 'width'>;

/** Everything that fills a gap in front of an end; ends that do not face each other are joined by their nearest corners. */
function fillings(a: Outlines, b: Outlines, thickness: number): Filling[] {
  const apart = distanceBetween(a, b);
  if (apart > LOOP_LEAK || (apart <= LOOP_JOINT && isPlain(a) && isPlain(b))) return [];
  const both = united(a, b);
  const touching = patchesOf(without(closedOver(both, LOOP_LEAK), both)).flatMap((patch) => {
    const outlines = outlinesOfPatch(patch);
    const around = grownBy(outlines, CONTACT);
    const width = distanceBetween(shared(a, around), shared(b, around));
    return Number.isFinite(width) ? [{ outlines, at: centroid(patch.outer), width, area: patchArea(patch) }] : [];
  });
  const gaps = touching.filter(
    ({ width, area }) => width > LOOP_JOINT && width <= LOOP_LEAK && area / width <= thickness * MOST_FACING,
  );
  return touching.length > 0 || apart <= LOOP_JOINT ? gaps : [acrossCorners(a, b, apart)];
}

/** Between two convex outlines that meet there is no second gap. */
const isPlain = (outlines: Outlines): boolean => outlines.length === 1 && isConvex(outlines[0]!);

function acrossCorners(a: Outlines, b: Outlines, width: number): Filling {
  const [p, q] = nearestPoints(a, b);
  const [x, y] = sub2(q, p);
  const size = length2([x, y]);
  const [along, across]: [Vec2, Vec2] = [
    [(x / size) * CONTACT, (y / size) * CONTACT],
    [(-y / size) * LOOP_JOINT, (x / size) * LOOP_JOINT],
  ];
  const outline: Vec2[] = [
    [p[0] - along[0] - across[0], p[1] - along[1] - across[1]],
    [q[0] + along[0] - across[0], q[1] + along[1] - across[1]],
    [q[0] + along[0] + across[0], q[1] + along[1] + across[1]],
    [p[0] - along[0] + across[0], p[1] - along[1] + across[1]],
  ];
  return { outlines: [outline], at: [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], width };
}

function distanceBetween(a: Outlines, b: Outlines): number {
  return Math.min(...a.flatMap((p) => b.map((q) => edgeDistance(p, q))));
}
