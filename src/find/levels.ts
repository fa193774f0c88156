/** The building storey by storey, as its walls show it: where rated walls stand, and what they are on plan. */

import { grownBy, type Outlines, totalArea, united } from '../geometry/areas.js';
import { boxOf } from '../geometry/box.js';
import { WORLD } from '../geometry/frame.js';
import { cutBodies } from '../geometry/section.js';
import { length2, sub2 } from '../geometry/vector.js';
import type { Barrier, Storey } from '../model.js';
import { LEVEL_STEP, PLAN_CUT } from '../tolerances.js';
import { isRated } from './barrier-summary.js';

/** A wall where the storey is cut; openings are not cut out. */
export interface WallOnPlan {
  readonly barrier: Barrier;
  readonly outlines: Outlines;
  readonly thickness: number;
}

export interface Level {
  /** Feet of its rated walls, and the highest of their tops or the feet of the next ones; inner frame. */
  readonly base: number;
  readonly top: number;
  readonly cutAt: number;
  readonly storey: Storey | null;
  readonly rated: readonly WallOnPlan[];
  readonly others: readonly WallOnPlan[];
}

export interface Standing {
  readonly barrier: Barrier;
  readonly foot: number;
  readonly top: number;
}

/**
 * Upwards. Heights are those of the walls: what storeys state of themselves is often another file's or
 * wrong.
 * @param makesLevel whose feet show where storeys begin
 */
export function levelsOf(barriers: readonly Barrier[], makesLevel: (wall: Barrier) => boolean = isRated): Level[] {
  const walls = standing(barriers);
  const levels = groupsByFoot(walls.filter(({ barrier }) => makesLevel(barrier))).flatMap((group) => {
    const base = medianOf(group.map(({ foot }) => foot));
    const cutAt = base + PLAN_CUT;
    // A bulkhead over other walls makes no storey of its own.
    if (!group.some((wall) => stands(wall, cutAt))) return [];
    const here = walls.filter((wall) => stands(wall, cutAt));
    const onPlan = here.map(({ barrier }) => cutWall(barrier, cutAt)).filter(({ outlines }) => outlines.length > 0);
    const tops = here.filter(({ barrier }) => makesLevel(barrier)).map(({ top }) => top);
    return [
      {
        base,
        top: Math.max(...tops),
        cutAt,
        storey: mostCommon(group.map(({ barrier }) => barrier.storey)),
        rated: onPlan.filter(({ barrier }) => isRated(barrier)),
        others: onPlan.filter(({ barrier }) => !isRated(barrier)),
      },
    ];
  });
  return levels.map((level, i) => ({ ...level, top: Math.min(level.top, levels[i + 1]?.base ?? Infinity) }));
}

/** All walls that stand at a height, cut there. */
export const wallsAt = (walls: readonly Standing[], height: number): WallOnPlan[] =>
  walls
    .filter((wall) => stands(wall, height))
    .map(({ barrier }) => cutWall(barrier, height))
    .filter(({ outlines }) => outlines.length > 0);

export const standing = (barriers: readonly Barrier[]): Standing[] =>
  barriers
    .filter(({ kind }) => kind === 'wall')
    .map((barrier) => {
      const { min, max } = boxOf(barrier.bodies);
      return { barrier, foot: min[2], top: max[2] };
    });

const stands = ({ foot, top }: Standing, at: number): boolean => foot < at && at < top;

function groupsByFoot(walls: readonly Standing[]): Standing[][] {
  const groups: Standing[][] = [];
  for (const wall of [...walls].sort((a, b) => a.foot - b.foot)) {
    const group = groups.at(-1);
    if (group && wall.foot - group[0]!.foot < LEVEL_STEP) group.push(wall);
    else groups.push([wall]);
  }
  return groups;
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}

function mostCommon(storeys: readonly (Storey | undefined)[]): Storey | null {
  const counts = new Map<string, { readonly storey: Storey; count: number }>();
  for (const storey of storeys) {
    if (!storey) continue;
    const known = counts.get(storey.globalId);
    if (known) known.count++;
    else counts.set(storey.globalId, { storey, count: 1 });
  }
  const [best] = [...counts.values()].sort(
    (a, b) => b.count - a.count || (a.storey.globalId < b.storey.globalId ? -1 : 1),
  );
  return best?.storey ?? null;
}

function cutWall(barrier: Barrier, height: number): WallOnPlan {
  const { outers, holes } = cutBodies(barrier.bodies, { ...WORLD, origin: [0, 0, height] });
  const outlines = united(
    outers,
    holes.map((hole) => [...hole].reverse()),
  );
  return { barrier, outlines, thickness: thicknessOf(outlines) };
}

/** Of a strip with this area and this way round it, however it turns: t² − t·P/2 + A = 0. */
function thicknessOf(outlines: Outlines): number {
  const half =
    outlines.reduce((sum, p) => sum + p.reduce((s, q, i) => s + length2(sub2(q, p[(i + 1) % p.length]!)), 0), 0) / 2;
  const area = totalArea(outlines);
  return (half - Math.sqrt(Math.max(0, half * half - 4 * area))) / 2;
}

/** All that is nearer to the wall than this. */
export const nearWall = ({ outlines }: WallOnPlan, distance: number): Outlines => grownBy(outlines, distance);
