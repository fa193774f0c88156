/** Compartments that nobody stated: what rated walls on one storey go round, and where they fail to meet. */
import {
  closedOver,
  grownBy,
  type Outlines,
  outlinesOfPatch,
  type Patch,
  patchArea,
  patchesOf,
  patchHolds,
  shared,
  totalArea,
  united,
  without,
} from '../geometry/areas.js';
import { bounds, boxesNear, interiorPoint } from '../geometry/polygon.js';
import { length2, sub2 } from '../geometry/vector.js';
import type { Polygon, Vec2 } from '../model.js';
import { CONTACT, LEAST_COMPARTMENT, LOOP_JOINT, LOOP_LEAK } from '../tolerances.js';
import { type Level, nearWall, type WallOnPlan } from './levels.js';
import { type Bridge, bridgesOn } from './loop-bridges.js';

export interface Loop {
  readonly patch: Patch;
  /** Those that bound it. */
  readonly walls: readonly WallOnPlan[];
  readonly leaks: readonly Bridge[];
  /** As in `Compartment`. */
  readonly closed: boolean | null;
}

/** Between unrated walls more may be open: they only show where the building ends. */
const OUTER_GAP = 100;
/** What lies this far beside a gap tells what is there. */
const RIM = 5;
/** Beside a gap that is just too wide for a joint; what stands out at the corners of its ends is less, mm². */
const LEAST_STRIP = 12 * RIM;
/** A wall bounds an area that it touches over more than this, mm; else it only meets its corner. */
const LEAST_SIDE = 100;
/** A wall that stands free has no more than this share of what is round it outside the area: where it meets others. */
const MOSTLY = 0.4;

export function loopsOn(level: Level): Loop[] {
  const { rated, others } = level;
  const solid = closedOver(outlinesOf(rated), LOOP_JOINT);
  const hull = united(solid, hullOf(level));
  const bridges = bridgesOn(rated, others, outsideOf(hull));
  const planWith = (kept: readonly Bridge[]): Plan => {
    const filling = united(solid, ...kept.map(({ outlines }) => outlines));
    const building = filled(united(hull, filling));
    return { filling, building, areas: patchesOf(without(building, filling)).filter(isWide) };
  };
  const kept = [...partingBridges(bridges, planWith(bridges)).keys()];
  // Without those that part nothing areas are the same, but for what stood in them.
  const plan = planWith(kept);
  const sidesOf = [...partingBridges(kept, plan)];
  const sealed = united(solid, ...sidesOf.filter(([{ kind }]) => kind !== 'unrated').map(([{ outlines }]) => outlines));
  const enclosed = patchesOf(without(filled(sealed), sealed));
  return plan.areas.flatMap((patch) => {
    const beside = rated.flatMap((wall) => contactsOf(wall, patch));
    if (beside.length === 0) return [];
    const walls = beside.filter((contact) => !standsFree(contact, patch, rated)).map(({ wall }) => wall);
    const leaks = sidesOf.filter(([{ kind }, sides]) => kind === 'leak' && sides.has(patch)).map(([bridge]) => bridge);
    const isEnclosed = enclosed.some((one) => isSame(one, patch));
    return [{ patch, walls, leaks, closed: leaks.length > 0 ? false : isEnclosed || null }];
  });
}

const outlinesOf = (walls: readonly WallOnPlan[]) => united(...walls.map(({ outlines }) => outlines));

/** What shows where the building ends. */
export function hullOf({ rated, others }: Pick<Level, 'rated' | 'others'>): Outlines {
  return united(closedOver(outlinesOf([...rated, ...others]), OUTER_GAP), closedOver(outlinesOf(others), LOOP_LEAK));
}

/** Without what is open inside. */
const filled = (outlines: Outlines): Outlines => patchesOf(outlines).map(({ outer }) => outer);

function outsideOf(hull: Outlines): Outlines {
  if (hull.length === 0) return [];
  const { min, max } = bounds(hull);
  const [x0, y0, x1, y1] = [
    min[0] - 2 * LOOP_LEAK,
    min[1] - 2 * LOOP_LEAK,
    max[0] + 2 * LOOP_LEAK,
    max[1] + 2 * LOOP_LEAK,
  ];
  const all: Polygon = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return without([all], filled(hull));
}

const isWide = (patch: Patch): boolean => grownBy(outlinesOfPatch(patch), -LEAST_COMPARTMENT / 2).length > 0;

/** What goes on through walls that are not rated is enclosed by others, or by none. */
function isSame(a: Patch, b: Patch): boolean {
  const [p, q] = [bounds([a.outer]), bounds([b.outer])];
  const isInPlace = length2(sub2(p.min, q.min)) < CONTACT && length2(sub2(p.max, q.max)) < CONTACT;
  return isInPlace && Math.abs(patchArea(a) - patchArea(b)) < LEAST_SIDE;
}

interface Contact {
  readonly wall: WallOnPlan;
  /** The wall and what is round it, and how much of that is the area's. */
  readonly near: Outlines;
  readonly inside: number;
}

function contactsOf(wall: WallOnPlan, patch: Patch): Contact[] {
  const reach = LOOP_JOINT + RIM;
  if (!boxesNear(bounds(wall.outlines), bounds([patch.outer]), reach)) return [];
  const near = nearWall(wall, reach);
  const inside = totalArea(shared(near, outlinesOfPatch(patch)));
  return inside > reach * LEAST_SIDE ? [{ wall, near, inside }] : [];
}

/** Nothing but the area is round a wall, and walls that it meets: it does not bound the area. */
function standsFree({ wall, near, inside }: Contact, patch: Patch, rated: readonly WallOnPlan[]): boolean {
  const around = totalArea(near) - totalArea(wall.outlines);
  // Most of what is round a wall that parts two areas is not in one of them.
  if (around - inside > MOSTLY * around) return false;
  const box = bounds(near);
  const walls = rated.filter(({ outlines }) => boxesNear(bounds(outlines), box, 0)).map((one) => nearWall(one, RIM));
  const elsewhere = without(near, united(outlinesOfPatch(patch), ...walls));
  return totalArea(elsewhere) <= (LOOP_JOINT + RIM) * LEAST_SIDE;
}

interface Plan {
  /** Rated walls and bridges. */
  readonly filling: Outlines;
  /** All that lies within its outer walls. */
  readonly building: Outlines;
  readonly areas: readonly Patch[];
}

type Side = Patch | 'outside';

/** Bridges that have different areas on their sides, with those. Where several meet in one place they part together. */
function partingBridges(bridges: readonly Bridge[], { filling, building, areas }: Plan): Map<Bridge, Set<Side>> {
  const parting = new Map<Bridge, Set<Side>>();
  for (const place of patchesOf(united(...bridges.map(({ outlines }) => grownBy(outlines, LOOP_JOINT / 2))))) {
    const here = bridges.filter((bridge) => shared(bridge.outlines, outlinesOfPatch(place)).length > 0);
    const outline = united(...here.map(({ outlines }) => outlines));
    const rim = without(grownBy(outline, RIM), united(outline, filling));
    const inside = patchesOf(shared(rim, building)).filter(isSeen);
    const sides = new Set<Side>(inside.map(({ outer }) => areaAt(areas, interiorPoint(outer))));
    // What ends at the outside of the building parts nothing from it.
    if (!here.some(({ endsOutside }) => endsOutside) && patchesOf(without(rim, building)).some(isSeen))
      sides.add('outside');
    if (sides.size < 2 || [...sides].some((side) => here.some((bridge) => isOpenEnd(bridge, side)))) continue;
    for (const bridge of here) parting.set(bridge, sides);
  }
  return parting;
}

/** What is as wide as the area behind it is the open end of a passage. */
const isOpenEnd = ({ kind, width }: Bridge, side: Side): boolean =>
  kind === 'leak' && side !== 'outside' && grownBy(outlinesOfPatch(side), -width / 2 - CONTACT).length === 0;

const isSeen = ({ outer }: Patch): boolean => totalArea([outer]) > LEAST_STRIP;
const areaAt = (areas: readonly Patch[], at: Vec2): Side => areas.find((patch) => patchHolds(patch, at)) ?? 'outside';
