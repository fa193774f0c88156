/** Compartments: those that the models state, and where they state none those that rated walls go round. */
import { outlinesOfPatch, patchHolds, shared, totalArea } from '../geometry/areas.js';
import { boxIndex } from '../geometry/box-index.js';
import { bounds } from '../geometry/polygon.js';
import { add, scale } from '../geometry/vector.js';
import type { Compartment, Federation, Vec3 } from '../model.js';
import { CONTACT, ROOM_PROBE } from '../tolerances.js';
import type { Heads } from './barrier-summary.js';
import { type Building, type Draft, inOrder, ofLoops, ofStated } from './compartment-facts.js';
import { servicesOf } from './floors.js';
import { levelsOf } from './levels.js';
import { loopsOn } from './loops.js';
import { outsideFinder } from './outside.js';
import { type StoreyLoop, stackOf } from './stacked-loops.js';
import { footprintOf, type StatedCompartment, statedCompartments } from './zoned.js';

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

/** @param heads how each rated wall meets the structure above */
export function findCompartments(federation: Federation, heads: Heads): Compartments {
  const levels = levelsOf(federation.barriers);
  const services = servicesOf(federation);
  const building: Building = {
    federation,
    levels,
    heads,
    services,
    stack: stackOf(federation, levels, services),
    spaces: (federation.spaces ?? []).map((space) => ({ space, plan: footprintOf(space.bodies) })),
  };
  const loops = levels.flatMap((level, index) =>
    loopsOn(level).map((loop): StoreyLoop => ({ ...loop, level, index, outlines: outlinesOfPatch(loop.patch) })),
  );
  const stated = statedCompartments(federation).map((one) => ({ one, loops: loops.filter((l) => isOf(l, one)) }));
  const taken = new Set(stated.flatMap((one) => one.loops));
  const found = building.stack.joined(loops.filter((loop) => !taken.has(loop)));
  const drafts = [
    ...stated.map((s) => ofStated(building, s.one, s.loops)),
    ...found.map((group) => ofLoops(building, group)),
  ].sort(inOrder);
  const named = drafts.map((draft, i) => ({ ...draft, id: `C-${String(i + 1).padStart(4, '0')}` }));
  const idAt = idFinder(named);
  const isOutside = outsideFinder(federation.barriers);
  const at = (point: Vec3): Whereabouts => {
    const id = idAt(point);
    return { id, outside: id === null ? isOutside(point) : false };
  };
  const beside = ({ position, normal, thickness }: Side) => {
    const on = (sign: 1 | -1) => idAt(add(position, scale(normal, sign * (thickness / 2 + ROOM_PROBE))));
    return [on(-1), on(1)] as const;
  };
  const all = named.map(({ id, compartment }) => ({ ...compartment, id, name: compartment.name || id }));
  return { all, beside, at };
}

/** The one whose floor is the next below the point; what is stated goes before what was found. */
function idFinder(drafts: readonly (Draft & { readonly id: string })[]): (point: Vec3) => string | null {
  const placesIn = boxIndex(
    drafts.flatMap(({ id, compartment, footprints }) =>
      footprints
        .filter(({ outlines }) => outlines.length > 0)
        .map(({ outlines, patches, bottom, top }) => {
          const { min, max } = bounds(outlines);
          const box = { min: [...min, bottom - CONTACT] as const, max: [...max, top] as const };
          return { id, box, patches, bottom, isStated: compartment.from !== 'loop' };
        }),
    ),
  );
  return (point) => {
    const [x, y] = point;
    const found = placesIn({ min: point, max: point }).filter(({ patches }) =>
      patches.some((one) => patchHolds(one, [x, y])),
    );
    const [best] = found.sort((a, b) => Number(b.isStated) - Number(a.isStated) || b.bottom - a.bottom);
    return best?.id ?? null;
  };
}

/** Storeys of a stated compartment may each have a loop of their own. */
function isOf({ outlines, level }: StoreyLoop, { footprints }: StatedCompartment): boolean {
  const here = footprints.filter(({ bottom, top }) => bottom < level.cutAt && level.cutAt < top);
  const common = totalArea(
    shared(
      outlines,
      here.flatMap((one) => one.outlines),
    ),
  );
  return common > SAME_AREA * totalArea(outlines);
}
