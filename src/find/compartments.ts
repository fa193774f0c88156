/** Compartments: those that the models state, and where they state none those that rated walls go round. */
import { lowerRating } from '../fire-rating/index.js';
import { type Outlines, outlinesOfPatch, patchesOf, patchHolds, shared, totalArea } from '../geometry/areas.js';
import { interiorPoint } from '../geometry/polygon.js';
import { add, scale } from '../geometry/vector.js';
import type {
  Barrier,
  Compartment,
  ElementRef,
  Federation,
  Leak,
  Rating,
  Space,
  Storey,
  Vec2,
  Vec3,
} from '../model.js';
import { CONTACT, ROOM_HEIGHT, ROOM_PROBE } from '../tolerances.js';
import { world } from './describe.js';
import { type Level, levelsOf, type WallOnPlan } from './levels.js';
import { type Loop, loopsOn } from './loops.js';
import { outsideFinder } from './outside.js';
import { refOf } from './pieces.js';
import { roundArea, roundLength, roundPolygon } from './rounding.js';
import { type Footprint, footprintOf, type StatedCompartment, statedCompartments } from './zoned.js';

export interface Compartments {
  /** By height, then place. */
  readonly all: readonly Compartment[];
  /** Ids of those on both sides of a barrier: against the normal, along it. */
  readonly beside: (at: Side) => readonly [string | null, string | null];
  /** What a place lies in; inner frame. */
  readonly at: (point: Vec3) => Whereabouts;
}

export interface Side {
  /** In the middle of the barrier, inner frame. */
  readonly position: Vec3;
  readonly normal: Vec3;
  readonly thickness: number;
}

export interface Whereabouts {
  /** Of the compartment, as for the sides of a barrier. */
  readonly id: string | null;
  /** In the open; see {@link outsideFinder}. What lies in a compartment never does. */
  readonly outside: boolean | null;
}

/** A loop is one that is stated where this share of either lies in the other: rooms end at the faces of linings. */
const SAME_AREA = 0.5;

/** Before it has an id. */
interface Draft {
  readonly compartment: Omit<Compartment, 'id'>;
  readonly footprints: readonly Footprint[];
}

interface LeveledLoop extends Loop {
  readonly level: Level;
  readonly outlines: Outlines;
}

export function findCompartments(federation: Federation): Compartments {
  const levels = levelsOf(federation.barriers);
  const loops = levels.flatMap((level) =>
    loopsOn(level).map((loop): LeveledLoop => ({ ...loop, level, outlines: outlinesOfPatch(loop.patch) })),
  );
  const stated = statedCompartments(federation).map((one) => ({ one, loops: loops.filter((l) => isOf(l, one)) }));
  const taken = new Set(stated.flatMap((one) => one.loops));
  const spaces = (federation.spaces ?? []).map((space) => ({ space, plan: footprintOf(space.bodies) }));
  const drafts = [
    ...stated.map((s) => ofStated(federation, s.one, s.loops, levels)),
    ...loops.filter((loop) => !taken.has(loop)).map((loop) => ofLoop(federation, loop, spaces)),
  ].sort(inOrder);
  const named = drafts.map((draft, i) => ({ ...draft, id: `C-${String(i + 1).padStart(4, '0')}` }));
  const isOutside = outsideFinder(federation.barriers);
  const at = (point: Vec3): Whereabouts => {
    const id = idAt(named, point);
    return { id, outside: id === null ? isOutside(point) : false };
  };
  const beside = ({ position, normal, thickness }: Side) => {
    const on = (sign: 1 | -1) => idAt(named, add(position, scale(normal, sign * (thickness / 2 + ROOM_PROBE))));
    return [on(-1), on(1)] as const;
  };
  const all = named.map(({ id, compartment }) => ({ ...compartment, id, name: compartment.name || id }));
  return { all, beside, at };
}

/** The one whose floor is the next below the point; what is stated goes before what was found. */
function idAt(drafts: readonly (Draft & { readonly id: string })[], [x, y, z]: Vec3): string | null {
  const found = drafts.flatMap(({ id, compartment, footprints }) =>
    footprints
      .filter(
        ({ bottom, top, patches }) =>
          bottom - CONTACT <= z && z <= top && patches.some((one) => patchHolds(one, [x, y])),
      )
      .map(({ bottom }) => ({ id, bottom, isStated: compartment.from !== 'loop' })),
  );
  const [best] = found.sort((a, b) => Number(b.isStated) - Number(a.isStated) || b.bottom - a.bottom);
  return best?.id ?? null;
}

/** Storeys of a stated compartment may each have a loop of their own. */
function isOf({ outlines, level }: LeveledLoop, { footprints }: StatedCompartment): boolean {
  const here = footprints.filter(({ bottom, top }) => bottom < level.cutAt && level.cutAt < top);
  const common = totalArea(
    shared(
      outlines,
      here.flatMap((one) => one.outlines),
    ),
  );
  return common > SAME_AREA * totalArea(outlines);
}

function ofStated(
  federation: Federation,
  { zone, spaces, footprints, outlines, storey }: StatedCompartment,
  loops: readonly LeveledLoop[],
  levels: readonly Level[],
): Draft {
  const closed = loops.map((loop) => loop.closed);
  const isWhole = loops.length > 0 && closed.every((one) => one === true);
  return {
    compartment: {
      name: zone.name,
      from: zone.from,
      storey: storey ?? (loops.length === 1 ? loops[0]!.level.storey : null),
      areaM2: areaOf(outlines),
      ...wallsOf(loops.flatMap((loop) => loop.walls)),
      spaces: sorted(spaces.map(refOf)),
      ...drawn(federation, outlines),
      closed: closed.includes(false) ? false : isWhole ? true : null,
      leaks: loops.flatMap((loop) => leaksOf(federation, loop)),
    },
    footprints: footprints.map((one) => ({ ...one, top: reachOf(one, levels) })),
  };
}

/** Ducts run over the ceilings that rooms end at, up to the next storey. */
function reachOf({ bottom, top }: Footprint, levels: readonly Level[]): number {
  const own = levels.filter((level) => level.base < top && bottom < level.top).map((level) => level.top);
  return own.length > 0 ? Math.max(top, ...own) : top + ROOM_HEIGHT;
}

function ofLoop(
  federation: Federation,
  loop: LeveledLoop,
  spaces: readonly { readonly space: Space; readonly plan: Footprint }[],
): Draft {
  const { outlines, level, walls } = loop;
  const inside = spaces.filter(
    ({ plan }) =>
      plan.bottom < level.cutAt &&
      level.cutAt < plan.top &&
      plan.patches.some(({ outer }) => patchHolds(loop.patch, interiorPoint(outer))),
  );
  return {
    compartment: {
      name: nameOf(
        level.storey,
        inside.map(({ space }) => space),
      ),
      from: 'loop',
      storey: level.storey,
      areaM2: areaOf(outlines),
      ...wallsOf(walls),
      spaces: sorted(inside.map(({ space }) => refOf(space))),
      ...drawn(federation, outlines),
      closed: loop.closed,
      leaks: leaksOf(federation, loop),
    },
    footprints: [{ outlines, patches: [loop.patch], bottom: level.base, top: level.top }],
  };
}

/** By its one room, else by its storey: more rooms make no name. */
function nameOf(storey: Storey | null, rooms: readonly Space[]): string {
  const [room] = rooms.length === 1 ? rooms : [];
  return [storey?.name, room?.name, room?.longName].filter((part) => part).join(' ');
}

function wallsOf(walls: readonly WallOnPlan[]) {
  const barriers = [...new Set(walls.map(({ barrier }) => barrier))];
  const ratings = barriers.map(({ rating }) => rating);
  return {
    barriers: sorted(barriers.map(refOf)),
    leastRating: ratings.reduce<Rating | null>((least, one) => (least ? lowerRating(least, one) : one), null),
    doors: sorted(barriers.flatMap(doorsOf)),
  };
}

const doorsOf = ({ model, openings }: Barrier): ElementRef[] =>
  openings
    .filter(({ holdsDoor }) => holdsDoor)
    .flatMap(({ filledBy }) => filledBy.map((globalId) => ({ model, globalId })));

function leaksOf(federation: Federation, { leaks, level }: LeveledLoop): Leak[] {
  return leaks
    .map(({ at, width, between }): Leak => {
      const [a, b] = sorted(between.map(refOf));
      return { at: world(federation, [...at, level.cutAt]), width: roundLength(width), between: [a!, b ?? a!] };
    })
    .sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

const areaOf = (outlines: Outlines): number | null =>
  outlines.length > 0 ? roundArea(totalArea(outlines) / 1e6) : null;

/** Each outline begins at its least corner, so that it is the same whatever was drawn first. */
function drawn({ origin: [x, y] }: Federation, outlines: Outlines) {
  const toWorld = (outline: readonly Vec2[]) => fromLeast(roundPolygon(outline.map((p) => [p[0] + x, p[1] + y])));
  const patches = patchesOf(outlines);
  const all = (list: readonly (readonly Vec2[])[]) => list.map(toWorld).sort((a, b) => compare(a[0]!, b[0]!));
  return { outlines: all(patches.map(({ outer }) => outer)), holes: all(patches.flatMap(({ holes }) => holes)) };
}

function fromLeast(outline: readonly Vec2[]): readonly Vec2[] {
  const first = outline.reduce((least, p, i) => (compare(p, outline[least]!) < 0 ? i : least), 0);
  return [...outline.slice(first), ...outline.slice(0, first)];
}

const compare = (a: Vec2, b: Vec2): number => a[0] - b[0] || a[1] - b[1];

const sorted = (refs: readonly ElementRef[]): ElementRef[] =>
  [...new Map(refs.map((one) => [`${one.model} ${one.globalId}`, one])).entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, one]) => one);

function inOrder(a: Draft, b: Draft): number {
  const bottom = ({ footprints }: Draft) => Math.min(...footprints.map((one) => Math.round(one.bottom)));
  const [p, q] = [a, b].map(({ compartment }) => compartment.outlines[0]?.[0] ?? ([0, 0] as const));
  return (
    (bottom(a) === bottom(b) ? 0 : bottom(a) - bottom(b)) ||
    compare(p!, q!) ||
    (a.compartment.areaM2 ?? 0) - (b.compartment.areaM2 ?? 0) ||
    (a.compartment.name < b.compartment.name ? -1 : 1)
  );
}
