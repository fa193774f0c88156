/** What a compartment ends at below or above: floors and roofs that cover its plan, and what they leave open. */
import { refsOf } from '../element-refs.js';
import { lowestRating, resistsFire } from '../fire-rating/index.js';
import {
  grownBy,
  type Outlines,
  outlinesOfPatch,
  patchesOf,
  shared,
  totalArea,
  united,
  without,
} from '../geometry/areas.js';
import { bounds, boxesNear } from '../geometry/polygon.js';
import type { Barrier, CompartmentEnd, EndState } from '../model.js';
import { FLOOR_JOINT, LEAST_COMPARTMENT, LOOP_LEAK } from '../tolerances.js';
import type { Floor, Services } from './floors.js';
import { roundArea } from './rounding.js';

export interface End {
  readonly state: EndState | null;
  readonly barriers: readonly Barrier[];
  /** Openings and what has no floor, without gaps as narrow as joints. */
  readonly open: Outlines;
}

/** No floor is that, whatever services are in it: so much of it, as a share, is without one. */
const NO_FLOOR = 0.9;
/** Floors are drawn where so much of what is round a place, as a share, has one: at a corner of a building half. */
const MODELLED = 0.25;

/**
 * A place without a floor is open where floors are drawn round it; else nothing is modelled.
 * @param region what is to be covered, without walls; broader than a cavity
 */
export function endOf(region: Outlines, floors: readonly Floor[], services: Services): End {
  const area = bounds(region);
  const near = floors.filter((one) => boxesNear(one.bounds, area, 0) && shared(one.outlines, region).length > 0);
  const barriers = near.map(({ barrier }) => barrier);
  const uncovered = wide(without(region, united(...near.map(({ outlines }) => outlines))));
  const open = openParts(region, uncovered, near, services);
  if (open.length === 0) return { state: stateOf(region, uncovered, near), barriers, open };
  return isModelled(region, floors) ? { state: 'open', barriers, open } : { state: null, barriers: [], open: [] };
}

/** A landing alone, or a slab at one side, does not show that the floors of this storey are drawn. */
function isModelled(region: Outlines, floors: readonly Floor[]): boolean {
  const around = without(grownBy(region, LOOP_LEAK), region);
  const box = bounds(around);
  const beside = floors.filter((floor) => boxesNear(floor.bounds, box, 0)).map(({ outlines }) => outlines);
  return totalArea(shared(around, united(...beside))) > MODELLED * totalArea(around);
}

/** Services close what they pass, as far as it is an opening in a floor. */
function openParts(region: Outlines, uncovered: Outlines, near: readonly Floor[], services: Services): Outlines {
  const isBare = totalArea(uncovered) >= NO_FLOOR * totalArea(region);
  return patchesOf(uncovered)
    .map(outlinesOfPatch)
    .filter((part) => isBare || !near.some(({ bottom, top }) => services.pass(part, (bottom + top) / 2)))
    .flat();
}

/** @param holes openings that services pass: closed by what is round them */
function stateOf(region: Outlines, holes: Outlines, near: readonly Floor[]): EndState {
  // Mostly there are no holes, and all floors are rated.
  if (holes.length === 0 && near.every(({ barrier }) => resistsFire(barrier.rating) === true)) return 'rated';
  const covers = (resists: boolean | undefined) =>
    near.filter(({ barrier }) => resistsFire(barrier.rating) === resists).flatMap(({ outlines }) => outlines);
  const rest = wide(without(region, united(covers(true), holes)));
  if (rest.length === 0) return 'rated';
  return wide(without(rest, united(covers(undefined)))).length > 0 ? 'unrated' : 'unknown';
}

/** Without what is as narrow as a joint. */
const wide = (outlines: Outlines): Outlines =>
  patchesOf(outlines)
    .map(outlinesOfPatch)
    .filter((part) => isWider(part, FLOOR_JOINT))
    .flat();

export function isWider(outlines: Outlines, width: number): boolean {
  const { min, max } = bounds(outlines);
  if (max[0] - min[0] < width || max[1] - min[1] < width) return false; // most are joints, and their box tells
  return grownBy(outlines, -width / 2).length > 0;
}

/** Parts of a region that are more than cavities. */
export const broad = (region: Outlines): Outlines =>
  patchesOf(region)
    .map(outlinesOfPatch)
    .filter((part) => isWider(part, LEAST_COMPARTMENT))
    .flat();

/** What must be said of the whole when it holds for a part comes first; `rated` and `ground` hold only where all is. */
const WORST_FIRST = ['open', 'unrated', 'unknown', null, 'rated', 'ground'] as const;

/** Of all storeys of a compartment together. */
export function joinedEnd(ends: readonly End[]): CompartmentEnd {
  const barriers = [...new Set(ends.flatMap((end) => end.barriers))];
  const rated = barriers.map(({ rating }) => rating).filter((rating) => resistsFire(rating) === true);
  const state = WORST_FIRST.find((one) => ends.some((end) => end.state === one)) ?? null;
  const open = ends.reduce((sum, end) => sum + totalArea(end.open), 0);
  return {
    state,
    barriers: refsOf(barriers),
    leastRating: lowestRating(rated),
    openM2: roundArea(open / 1e6),
  };
}
