/** Whether a place lies in the open, as far as the walls, floors and roofs of the models show it. */
import { once } from '../collect.js';
import { type Outlines, type Patch, patchArea, patchesOf, patchHolds, without } from '../geometry/areas.js';
import { boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { prismMesh } from '../geometry/loft.js';
import { lineHits } from '../geometry/mesh.js';
import { contains, convexHull, interiorPoint } from '../geometry/polygon.js';
import { Z } from '../geometry/vector.js';
import type { Barrier, Body, Polygon, Vec2, Vec3 } from '../model.js';
import { CONTACT, FLOOR_STEP, PLAN_CUT } from '../tolerances.js';
import { levelsOf, type Standing, standing, wallsAt } from './levels.js';
import { hullOf } from './loops.js';

/** Of what the walls of a plan enclose, so much must be roofed that a place without a roof is in the open. */
const ROOFED = 0.9;

/** The walls that stand at one height. */
interface Plan {
  readonly convex: Polygon;
  /** What walls go round, gaps up to a doorway's width closed; yards too. Worked out when asked. */
  readonly within: () => readonly Patch[];
  /** It has roofs over nearly all that it encloses; worked out when asked. */
  readonly isRoofed: () => boolean;
}

/**
 * True: nothing is over the place, and it lies on a roof, or beyond all walls of its storey. False: walls go round it and
 * something is over it. null: the models do not tell, e.g. under a canopy, in a yard, where no walls or no roofs are drawn.
 * Points in the inner frame.
 */
export function outsideFinder(barriers: readonly Barrier[]): (point: Vec3) => boolean | null {
  const surfaces = surfacesOf(barriers.filter(({ kind }) => kind !== 'wall'));
  const walls = standing(barriers);
  const plans = new Map<number, Plan>();
  const planAt = (cutAt: number): Plan => {
    const known = plans.get(cutAt) ?? planOf(walls, cutAt, surfaces);
    plans.set(cutAt, known);
    return known;
  };
  const cuts = once(() => levelsOf(barriers, () => true).map(({ cutAt }) => cutAt));

  return ([x, y, z]) => {
    const at: Vec2 = [x, y];
    const isCovered = surfaces.isOver(at, z);
    const floor = surfaces.under(at, z);
    const cutAt =
      floor !== undefined
        ? Math.round(floor / FLOOR_STEP) * FLOOR_STEP + PLAN_CUT
        : (cuts().findLast((cut) => cut - PLAN_CUT <= z + CONTACT) ?? cuts()[0]);
    if (cutAt === undefined) return null;
    const plan = planAt(cutAt);
    const isBeyond = !contains(plan.convex, at);
    if (!isBeyond && holds(plan.within(), at)) return isCovered ? false : null;
    if (isCovered) return null;
    // No walls stand on a roof, but there are some under it.
    if (plan.convex.length === 0)
      return floor !== undefined && cuts().some((cut) => cut < floor && holds(planAt(cut).within(), at)) ? true : null;
    return isBeyond || plan.isRoofed() ? true : null;
  };
}

const holds = (patches: readonly Patch[], at: Vec2): boolean => patches.some((patch) => patchHolds(patch, at));

/** Faces of floors and roofs on the upright line through a place. */
interface Surfaces {
  readonly isOver: (at: Vec2, height: number) => boolean;
  /** Height of the next one down, or there; undefined: none. */
  readonly under: (at: Vec2, height: number) => number | undefined;
}

/** Looked at first, mm: the next floor is seldom further off, and a tower has many. */
const STOREY = 5000;

function surfacesOf(plates: readonly Barrier[]): Surfaces {
  const meshOf = (body: Body) => (body.kind === 'mesh' ? body : prismMesh(body));
  const platesIn = boxIndex(
    plates.map(({ bodies }) => {
      return { box: boxOf(bodies), meshes: once(() => bodies.map(meshOf)) };
    }),
  );
  const between = ([x, y]: Vec2, from: number, to: number): number[] =>
    platesIn({ min: [x, y, from], max: [x, y, to] })
      .flatMap(({ meshes }) => meshes().flatMap((mesh) => lineHits(mesh, [x, y, 0], Z)))
      .filter((height) => height >= from && height <= to);
  const highest = (heights: readonly number[]) => (heights.length > 0 ? Math.max(...heights) : undefined);
  return {
    isOver: (at, height) =>
      [height + STOREY, Infinity].some((to) => between(at, height, to).some((one) => one > height)),
    under: (at, height) =>
      highest(between(at, height - STOREY, height)) ?? highest(between(at, -Infinity, height - STOREY)),
  };
}

function planOf(standingWalls: readonly Standing[], cutAt: number, surfaces: Surfaces): Plan {
  const walls = wallsAt(standingWalls, cutAt);
  const hull = once(() => hullOf({ rated: [], others: walls }));
  const outers = once((): Outlines => patchesOf(hull()).map(({ outer }) => outer));
  return {
    convex: walls.length > 0 ? convexHull(walls.flatMap(({ outlines }) => outlines.flat())) : [],
    within: once(() => patchesOf(outers())),
    isRoofed: once(() => {
      const rooms = patchesOf(without(outers(), hull())).map((patch) => {
        const isOpen = !surfaces.isOver(interiorPoint(patch.outer), cutAt);
        return { area: patchArea(patch), isOpen };
      });
      const sum = (list: typeof rooms) => list.reduce((total, { area }) => total + area, 0);
      return rooms.length > 0 && sum(rooms.filter(({ isOpen }) => !isOpen)) >= ROOFED * sum(rooms);
    }),
  };
}
