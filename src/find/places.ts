/** Names the place of a penetration as people do who look for it: by grid lines, and by the rooms on both sides. */
import { WORLD } from '../geometry/frame.js';
import { area, contains, pointSegmentDistance } from '../geometry/polygon.js';
import { cutBodies, extent, type Region } from '../geometry/section.js';
import { add, dot2, scale, sub2, Z, ZERO } from '../geometry/vector.js';
import type { Federation, Frame, Grid, GridAxis, Place, Room, Space, Storey, Vec2, Vec3 } from '../model.js';
import { ON_AXIS, ROOM_HEIGHT, ROOM_PROBE } from '../tolerances.js';
import { roundLength } from './rounding.js';

export interface Located {
  /** Where the duct meets the barrier's middle, inner frame. */
  readonly position: Vec3;
  readonly normal: Vec3;
  /** Of the barrier. */
  readonly thickness: number;
  readonly storey: Storey | null;
}

export function placeFinder({ grids = [], spaces = [] }: Federation): (at: Located) => Place {
  const plans = spaces.map(planOf);
  return (at) => {
    const side = (sign: 1 | -1) => roomOn(plans, at, sign);
    return { grid: gridWords(grids, [at.position[0], at.position[1]]), rooms: [side(-1), side(1)] };
  };
}

interface Plan {
  readonly space: Space;
  /** At half height. */
  readonly region: Region;
  readonly area: number;
  readonly bottom: number;
  readonly top: number;
}

function planOf(space: Space): Plan {
  const [bottom, top] = extent(space.bodies, ZERO, Z);
  const level: Frame = { ...WORLD, origin: [0, 0, (bottom + top) / 2] };
  const region = cutBodies(space.bodies, level);
  return { space, region, area: region.outers.reduce((sum, outer) => sum + area(outer), 0), bottom, top };
}

/** A little beyond the face; above or under the room too, since ducts run over ceilings that rooms end at. */
function roomOn(plans: readonly Plan[], { position, normal, thickness, storey }: Located, sign: 1 | -1): Room | null {
  const probe = add(position, scale(normal, sign * (thickness / 2 + ROOM_PROBE)));
  const at: Vec2 = [probe[0], probe[1]];
  const isFloor = Math.abs(normal[2]) > 0.5;
  // Between two storeys a wall's ceiling void is nearer to the room above than to its own.
  const isOnStorey = ({ space, bottom }: Plan) =>
    storey && space.storey ? Math.abs(space.storey.elevation - storey.elevation) < ROOM_HEIGHT : bottom < probe[2];
  const away = ({ bottom, top }: Plan) => Math.max(0, bottom - probe[2], probe[2] - top);
  const found = plans
    .filter((plan) => away(plan) === 0 || (away(plan) <= ROOM_HEIGHT && (isFloor || isOnStorey(plan))))
    // Of a floor's two rooms one is all above and one all below, however thick the layers on it.
    .filter(({ bottom, top }) => !isFloor || (bottom + top) / 2 > position[2] === probe[2] > position[2])
    .filter(({ region }) => region.outers.some((p) => contains(p, at)) && !region.holes.some((p) => contains(p, at)));
  const [best] = found.sort(
    (a, b) => away(a) - away(b) || a.area - b.area || (a.space.globalId < b.space.globalId ? -1 : 1),
  );
  return best ? roomOf(best.space) : null;
}

function roomOf({ model, globalId, name, longName }: Space): Room {
  return { model, globalId, name: [name, longName].filter((part) => part).join(' ') || globalId };
}

/** Of several grids the one whose lines reach nearest to the point; storeys often repeat the same one. */
function gridWords(grids: readonly Grid[], at: Vec2): string | null {
  const [nearest] = grids
    .map((grid) => ({ grid, reach: Math.max(...grid.families.map((family) => reachOf(family, at))) }))
    .sort((a, b) => a.reach - b.reach);
  return nearest ? nearest.grid.families.map((family) => axisWords(family, at)).join(' / ') : null;
}

const flat = ([x, y]: Vec3): Vec2 => [x, y];
const reachOf = (family: readonly GridAxis[], at: Vec2): number =>
  Math.min(...family.map(({ ends }) => pointSegmentDistance(at, flat(ends[0]), flat(ends[1]))));

/** `C`, `C + 1.2 m`, `D - 0.8 m`. */
function axisWords(family: readonly GridAxis[], at: Vec2): string {
  const [nearest] = family
    .map((axis) => ({ axis, offset: offsetFrom(axis, family, at) }))
    .sort((a, b) => roundLength(Math.abs(a.offset)) - roundLength(Math.abs(b.offset)));
  const { axis, offset } = nearest!;
  const metres = (Math.abs(offset) / 1000).toFixed(1);
  return Math.abs(offset) < ON_AXIS ? axis.tag : `${axis.tag} ${offset > 0 ? '+' : '-'} ${metres} m`;
}

/** mm square to the axis; towards the later axes of the family, or +x and +y for a single one, is positive. */
function offsetFrom({ ends }: GridAxis, family: readonly GridAxis[], at: Vec2): number {
  const [from, to] = [flat(ends[0]), flat(ends[1])];
  const run = sub2(to, from);
  const size = Math.hypot(...run);
  const square: Vec2 = [-run[1] / size, run[0] / size];
  const middle = ({ ends: [a, b] }: GridAxis): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const order = dot2(sub2(middle(family.at(-1)!), middle(family[0]!)), square);
  const isForward = family.length > 1 && order !== 0 ? order > 0 : square[0] + square[1] > 0;
  return dot2(sub2(at, from), square) * (isForward ? 1 : -1);
}
