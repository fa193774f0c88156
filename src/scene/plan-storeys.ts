/**
 * The storeys that plans are drawn of, as walls show them. What models call storeys gives only names: several files may
 * name one storey differently, or several alike, and what they state of heights is often wrong.
 */
import { compareTexts } from '../collect.js';
import { levelsOf, type Standing, standing, type WallOnPlan } from '../find/levels.js';
import { type Box, boxesMeet, boxOf, boxOfPoints, grown } from '../geometry/box.js';
import type { Barrier, BarrierKind, Vec3 } from '../model.js';
import { FLOOR_BESIDE_FEET, LEVEL_STEP, PLAN_CUT, STOREY_MARGIN } from '../tolerances.js';

/** Heights of the inner frame. */
export interface PlanStorey {
  readonly names: readonly string[];
  /** GlobalIds of the storeys that its walls name. */
  readonly storeyIds: ReadonlySet<string>;
  readonly base: number;
  /** The feet of the walls that stand over it; infinite where none do. */
  readonly top: number;
  readonly cutAt: number;
  /** Where it is, at any height: two buildings side by side have storeys of their own unless these are level. */
  readonly region: Box;
  readonly walls: readonly WallOnPlan[];
}

export interface PlacedOn {
  readonly at: Vec3;
  readonly kind: BarrierKind;
}

/** Upwards. Where no wall makes a storey, places that lie together in height do. */
export function planStoreys(barriers: readonly Barrier[], places: readonly PlacedOn[]): PlanStorey[] {
  const walls = standing(barriers);
  // Bulkheads, parapets and what stands over a door are lower than a storey, and make none.
  const tall = new Set(walls.filter(({ foot, top }) => top - foot > LEVEL_STEP).map(({ barrier }) => barrier));
  const levels = levelsOf(barriers, (wall) => tall.has(wall));
  if (levels.length === 0) return storeysOfPlaces(barriers, places);
  const storeys = levels.map(({ base, cutAt, rated, others }) => {
    const own = walls.filter(({ barrier, foot }) => tall.has(barrier) && Math.abs(foot - base) < LEVEL_STEP);
    const region = regionOf(own.map(({ barrier }) => boxOf(barrier.bodies)));
    return { base, cutAt, region, ...named(own), walls: [...rated, ...others].filter((wall) => isIn(wall, region)) };
  });
  return storeys.map((storey) => ({ ...storey, top: topOf(storey, storeys) }));
}

const isIn = ({ barrier }: WallOnPlan, region: Box): boolean => boxesMeet(boxOf(barrier.bodies), region);

function regionOf(boxes: readonly Box[]): Box {
  const { min, max } = grown(boxOfPoints(boxes.flatMap((box) => [box.min, box.max])), STOREY_MARGIN);
  return { min: [min[0], min[1], -Infinity], max: [max[0], max[1], Infinity] };
}

const topOf = ({ base, region }: Omit<PlanStorey, 'top'>, all: readonly Omit<PlanStorey, 'top'>[]): number =>
  Math.min(...all.filter((other) => other.base > base && boxesMeet(other.region, region)).map((other) => other.base));

/** The commonest name first. */
function named(walls: readonly Standing[]): Pick<PlanStorey, 'names' | 'storeyIds'> {
  const counts = new Map<string, number>();
  const storeyIds = new Set<string>();
  for (const { storey } of walls.map(({ barrier }) => barrier)) {
    if (!storey) continue;
    storeyIds.add(storey.globalId);
    if (storey.name !== '') counts.set(storey.name, (counts.get(storey.name) ?? 0) + 1);
  }
  const names = [...counts].sort((a, b) => b[1] - a[1] || compareTexts(a[0], b[0])).map(([name]) => name);
  return { names, storeyIds };
}

/** Floors alone: storeys are where something passes. */
function storeysOfPlaces(barriers: readonly Barrier[], places: readonly PlacedOn[]): PlanStorey[] {
  if (places.length === 0) return [];
  const groups: PlacedOn[][] = [];
  for (const place of [...places].sort((a, b) => a.at[2] - b.at[2])) {
    const group = groups.at(-1);
    if (group && place.at[2] - group[0]!.at[2] < LEVEL_STEP) group.push(place);
    else groups.push([place]);
  }
  const region = regionOf([...barriers.map(({ bodies }) => boxOf(bodies)), boxOfPoints(places.map(({ at }) => at))]);
  const bases = groups.map((group) => group[0]!.at[2]);
  return bases.map((base, i) => ({
    ...{ names: [], storeyIds: new Set<string>(), base, cutAt: base + PLAN_CUT },
    ...{ top: bases[i + 1] ?? Infinity, region, walls: [] },
  }));
}

/** Which of the storeys a penetration is marked on: a floor's on the storey that stands on it. */
export function storeyOf(
  storeys: readonly PlanStorey[],
  { at, kind }: PlacedOn,
): { readonly storey: PlanStorey; readonly isOverhead: boolean } {
  const point: Box = { min: at, max: at };
  const here = storeys.filter(({ region }) => boxesMeet(region, point));
  // What stands clear of every storey's walls is shown by height alone: no place is left out.
  const candidates = here.length > 0 ? here : storeys;
  const height = at[2];
  if (kind !== 'wall') {
    const on = candidates.find(({ base }) => base > height - FLOOR_BESIDE_FEET && base < height + LEVEL_STEP);
    if (on) return { storey: on, isOverhead: false };
  }
  const storey = candidates.findLast(({ base }) => base <= height) ?? candidates[0]!;
  return { storey, isOverhead: kind !== 'wall' && storey.base < height };
}
