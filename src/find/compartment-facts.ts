/** One compartment as the report shows it: of the loops that it is made of, or as a model states it. */
import { inOrderOfRefs, refsOf } from '../element-refs.js';
import { lowestRating } from '../fire-rating/index.js';
import { type Outlines, patchesOf, patchHolds, totalArea, united } from '../geometry/areas.js';
import { interiorPoint } from '../geometry/polygon.js';
import type { Barrier, Compartment, Federation, Leak, Space, Storey, Vec2 } from '../model.js';
import { HEAD_JOINT, ROOM_HEIGHT } from '../tolerances.js';
import type { Heads } from './barrier-summary.js';
import { world } from './describe.js';
import { doorsIn } from './doors.js';
import { closedBy, emptyOpenings, enclosureOf, openingsOf } from './enclosure.js';
import { type End, joinedEnd } from './ends.js';
import type { Services } from './floors.js';
import type { Level } from './levels.js';
import { roundArea, roundLength, roundPolygon } from './rounding.js';
import type { Stack, StoreyLoop } from './stacked-loops.js';
import type { Footprint, StatedCompartment } from './zoned.js';

/** Before it has an id. */
export interface Draft {
  readonly compartment: Omit<Compartment, 'id'>;
  readonly footprints: readonly Footprint[];
}

/** What compartments are found in. */
export interface Building {
  readonly federation: Federation;
  readonly levels: readonly Level[];
  readonly heads: Heads;
  readonly stack: Stack;
  readonly services: Services;
  readonly spaces: readonly { readonly space: Space; readonly plan: Footprint }[];
}

/** Its storeys may each have loops of their own, or none. */
export function ofStated(building: Building, stated: StatedCompartment, loops: readonly StoreyLoop[]): Draft {
  const { zone, spaces, footprints, outlines, storey } = stated;
  return {
    compartment: {
      name: zone.name,
      from: zone.from,
      storey: storey ?? (loops.length === 1 ? loops[0]!.level.storey : null),
      ...facesOf(building, loops),
      ...drawn(building.federation, outlines),
      spaces: refsOf(spaces),
      shaft: zone.shaft ?? isShaft(spaces),
    },
    footprints: footprints.map((one) => ({ ...one, top: reachOf(one, building.levels) })),
  };
}

/** Ducts run over the ceilings that rooms end at, up to the next storey. */
function reachOf({ bottom, top }: Footprint, levels: readonly Level[]): number {
  const own = levels.filter((level) => level.base < top && bottom < level.top).map((level) => level.top);
  return own.length > 0 ? Math.max(top, ...own) : top + ROOM_HEIGHT;
}

/** @param loops upwards, at least one */
export function ofLoops(building: Building, loops: readonly StoreyLoop[]): Draft {
  const inside = [...new Set(loops.flatMap((loop) => spacesIn(loop, building)))];
  const storeys = [...new Set(loops.map(({ level }) => level.storey))];
  const outlines = loops.length === 1 ? loops[0]!.outlines : united(...loops.map((loop) => loop.outlines));
  return {
    compartment: {
      name: nameOf(storeys, inside),
      from: 'loop',
      storey: storeys.length === 1 ? storeys[0]! : null,
      ...facesOf(building, loops),
      ...drawn(building.federation, outlines),
      spaces: refsOf(inside),
      shaft: isShaft(inside),
    },
    footprints: loops.map((loop) => ({
      outlines: loop.outlines,
      patches: [loop.patch],
      bottom: loop.level.base,
      top: loop.level.top,
    })),
  };
}

const spacesIn = ({ patch, level }: StoreyLoop, { spaces }: Building): Space[] =>
  spaces
    .filter(
      ({ plan }) =>
        plan.bottom < level.cutAt &&
        level.cutAt < plan.top &&
        plan.patches.some(({ outer }) => patchHolds(patch, interiorPoint(outer))),
    )
    .map(({ space }) => space);

/** By what its rooms are called in common, else by its storeys alone. */
function nameOf(storeys: readonly (Storey | null)[], rooms: readonly Space[]): string {
  const [first, last] = [storeys[0]?.name, storeys.at(-1)?.name];
  const common = (part: (room: Space) => string | undefined) => {
    const parts = new Set(rooms.map(part));
    return parts.size === 1 ? [...parts][0] : undefined;
  };
  const storeyName = first && last && first !== last ? `${first} to ${last}` : (first ?? last);
  return [storeyName, common((room) => room.name), common((room) => room.longName)].filter((part) => part).join(' ');
}

/** Where all that is in it is called a shaft; a storey with a riser in it is none. */
function isShaft(spaces: readonly Space[]): boolean | null {
  const said = spaces.map(({ shaft }) => shaft).filter((shaft) => shaft !== undefined);
  return said.length > 0 ? said.every((shaft) => shaft) : null;
}

type FaceFacts = Pick<
  Compartment,
  'barriers' | 'leastRating' | 'doors' | 'floor' | 'ceiling' | 'walled' | 'closed' | 'leaks' | 'enclosure'
>;

function facesOf({ federation, heads, stack, services }: Building, loops: readonly StoreyLoop[]): FaceFacts {
  const ends = stack.ends(loops);
  const [floor, ceiling] = [joinedEnd(ends.floor), joinedEnd(ends.ceiling)];
  const walls = [...new Set(loops.flatMap((loop) => loop.walls.map(({ barrier }) => barrier)))];
  const floors = [...new Set([...ends.floor, ...ends.ceiling].flatMap(({ barriers }: End) => barriers))];
  const openings = loops.flatMap((loop) => openingsOf(loop, floors));
  const faces = {
    floor,
    ceiling,
    walled: walledBy(loops),
    leaks: loops.flatMap((loop) => leaksOf(federation, loop)),
    doors: inOrderOfRefs(openings.flatMap(({ barrier, opening }) => doorsIn(federation, barrier, opening))),
    leastRating: lowestRating([
      ...walls.map(({ rating }) => rating),
      ...[floor, ceiling].flatMap((end) => (end.leastRating ? [end.leastRating] : [])),
    ]),
  };
  const gapOver = (wall: Barrier) => heads.get(wall)?.facts.gap ?? null;
  const more = {
    short: refsOf(walls.filter((wall) => (gapOver(wall) ?? 0) > HEAD_JOINT)),
    unmeasured: refsOf(walls.filter((wall) => !heads.has(wall))),
    empty: inOrderOfRefs(emptyOpenings(openings, services)),
  };
  return {
    ...faces,
    barriers: refsOf(walls),
    closed: closedBy({ ...faces, ...more }),
    enclosure: enclosureOf({ ...faces, ...more }),
  };
}

function walledBy(loops: readonly StoreyLoop[]): boolean | null {
  const closed = loops.map((loop) => loop.closed);
  if (closed.includes(false)) return false;
  return loops.length > 0 && closed.every((one) => one === true) ? true : null;
}

function leaksOf(federation: Federation, { leaks, level }: StoreyLoop): Leak[] {
  return leaks
    .map(({ at, width, between }): Leak => {
      const [a, b] = refsOf(between);
      return { at: world(federation, [...at, level.cutAt]), width: roundLength(width), between: [a!, b ?? a!] };
    })
    .sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

/** Each outline begins at its least corner, so that it is the same whatever was drawn first. */
function drawn({ origin: [x, y] }: Federation, outlines: Outlines) {
  const toWorld = (outline: readonly Vec2[]) => fromLeast(roundPolygon(outline.map((p) => [p[0] + x, p[1] + y])));
  const patches = patchesOf(outlines);
  const all = (list: readonly (readonly Vec2[])[]) => list.map(toWorld).sort((a, b) => compare(a[0]!, b[0]!));
  return {
    areaM2: outlines.length > 0 ? roundArea(totalArea(outlines) / 1e6) : null,
    outlines: all(patches.map(({ outer }) => outer)),
    holes: all(patches.flatMap(({ holes }) => holes)),
  };
}

function fromLeast(outline: readonly Vec2[]): readonly Vec2[] {
  const first = outline.reduce((least, p, i) => (compare(p, outline[least]!) < 0 ? i : least), 0);
  return [...outline.slice(first), ...outline.slice(0, first)];
}

const compare = (a: Vec2, b: Vec2): number => a[0] - b[0] || a[1] - b[1];

export function inOrder(a: Draft, b: Draft): number {
  const bottom = ({ footprints }: Draft) => Math.min(...footprints.map((one) => Math.round(one.bottom)));
  const [p, q] = [a, b].map(({ compartment }) => compartment.outlines[0]?.[0] ?? ([0, 0] as const));
  return (
    (bottom(a) === bottom(b) ? 0 : bottom(a) - bottom(b)) ||
    compare(p!, q!) ||
    (a.compartment.areaM2 ?? 0) - (b.compartment.areaM2 ?? 0) ||
    (a.compartment.name < b.compartment.name ? -1 : 1)
  );
}
