/** Whether a place lies in the open, as far as the walls, floors and roofs of the models show it. */
import { type Outlines, type Patch, patchArea, patchesOf, patchHolds, without } from '../geometry/areas.js';
import { boxOf } from '../geometry/box.js';
import { prismMesh } from '../geometry/loft.js';
import { lineHits } from '../geometry/mesh.js';
import { contains, convexHull, interiorPoint } from '../geometry/polygon.js';
import { Z } from '../geometry/vector.js';
import type { Barrier, Body, Polygon, Vec2, Vec3 } from '../model.js';
import { CONTACT, FLOOR_STEP, PLAN_CUT } from '../tolerances.js';
import { levelsOf, type Standing, standing, wallsAt } from './levels.js';
import { hullOf } from './loops.js';
import { boxIndex } from './search.js';

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
  const surfacesOn = uprightLines(barriers.filter(({ kind }) => kind !== 'wall'));
  const walls = standing(barriers);
  const plans = new Map<number, Plan>();
  const planAt = (cutAt: number): Plan => {
    const known = plans.get(cutAt) ?? planOf(walls, cutAt, surfacesOn);
    plans.set(cutAt, known);
    return known;
  };
  const cuts = once(() => levelsOf(barriers, () => true).map(({ cutAt }) => cutAt));

  return ([x, y, z]) => {
    const at: Vec2 = [x, y];
    const surfaces = surfacesOn(at);
    const isCovered = surfaces.some((height) => height > z);
    const floor = Math.max(...surfaces.filter((height) => height <= z));
    const hasFloor = Number.isFinite(floor);
    const cutAt = hasFloor
      ? Math.round(floor / FLOOR_STEP) * FLOOR_STEP + PLAN_CUT
      : (cuts().findLast((cut) => cut - PLAN_CUT <= z + CONTACT) ?? cuts()[0]);
    if (cutAt === undefined) return null;
    const plan = planAt(cutAt);
    const isBeyond = !contains(plan.convex, at);
    if (!isBeyond && holds(plan.within(), at)) return isCovered ? false : null;
    if (isCovered) return null;
    // No walls stand on a roof, but there are some under it.
    if (plan.convex.length === 0)
      return hasFloor && cuts().some((cut) => cut < floor && holds(planAt(cut).within(), at)) ? true : null;
    return isBeyond || plan.isRoofed() ? true : null;
  };
}

const holds = (patches: readonly Patch[], at: Vec2): boolean => patches.some((patch) => patchHolds(patch, at));

/** Heights at which the upright line through a point passes faces of floors and roofs. */
function uprightLines(plates: readonly Barrier[]): (at: Vec2) => number[] {
  const meshOf = (body: Body) => (body.kind === 'mesh' ? body : prismMesh(body));
  const platesIn = boxIndex(
    plates.map(({ bodies }) => {
      return { box: boxOf(bodies), meshes: once(() => bodies.map(meshOf)) };
    }),
  );
  return ([x, y]) =>
    platesIn({ min: [x, y, -Infinity], max: [x, y, Infinity] }).flatMap(({ meshes }) =>
      meshes().flatMap((mesh) => lineHits(mesh, [x, y, 0], Z)),
    );
}

function planOf(standingWalls: readonly Standing[], cutAt: number, surfacesOn: (at: Vec2) => number[]): Plan {
  const walls = wallsAt(standingWalls, cutAt);
  const hull = once(() => hullOf({ rated: [], others: walls }));
  const outers = once((): Outlines => patchesOf(hull()).map(({ outer }) => outer));
  return {
    convex: walls.length > 0 ? convexHull(walls.flatMap(({ outlines }) => outlines.flat())) : [],
    within: once(() => patchesOf(outers())),
    isRoofed: once(() => {
      const rooms = patchesOf(without(outers(), hull())).map((patch) => {
        const isOpen = !surfacesOn(interiorPoint(patch.outer)).some((height) => height > cutAt);
        return { area: patchArea(patch), isOpen };
      });
      const sum = (list: typeof rooms) => list.reduce((total, { area }) => total + area, 0);
      return rooms.length > 0 && sum(rooms.filter(({ isOpen }) => !isOpen)) >= ROOFED * sum(rooms);
    }),
  };
}

function once<T>(work: () => T): () => T {
  let result: { readonly value: T } | undefined;
  return () => {
    result ??= { value: work() };
    return result.value;
  };
}
