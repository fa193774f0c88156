/**
 * As much of a building as bears on a change. Finding looks nowhere further than REACH from what it measures, but for
 * what belongs to a whole run (its barriers, what it serves, its access and supports), for compartments and for the heads
 * of walls. So whole runs are kept, with the barriers that they pass, and everything near what changes; compartments and
 * heads are those of the whole building. Before and after are found in the same cut: what it leaves out is left out of both,
 * and only their difference counts. `tests/remedy/demo.test.ts` holds this to the whole building.
 */
import { nameOf } from '../element-refs.js';
import { type Box, boxesMeet, boxOf, grown } from '../geometry/box.js';
import type { Barrier, Body, ElementRef, Federation } from '../model.js';
import { ACCESS_REACH, AROUND_REACH, FACE_DEPTH, HANG_REACH, SUPPORT_REACH } from '../tolerances.js';
import type { Building } from './building.js';

/** What stands round an opening is looked for furthest. */
export const REACH = Math.max(AROUND_REACH, FACE_DEPTH, ACCESS_REACH);

const boxes = new WeakMap<object, Box>();
function boxOfElement(element: { readonly bodies: readonly Body[] }): Box {
  const known = boxes.get(element) ?? boxOf(element.bodies);
  boxes.set(element, known);
  return known;
}

/** @param places boxes of all that changes, before and after; @param more how much further than these it may still go */
export function cutRound({ federation, crossings }: Building, places: readonly Box[], more: number): Federation {
  const near = places.map((box) => grown(box, REACH + more));
  const isNear = (element: { readonly bodies: readonly Body[] }): boolean =>
    element.bodies.length > 0 && near.some((box) => boxesMeet(box, boxOfElement(element)));
  const nearAir = new Set(federation.airElements.filter(isNear).map(nameOf));
  const runs = crossings.runs.filter((run) => run.elements.some((one) => nearAir.has(nameOf(one))));
  const ids = new Set(runs.map(({ id }) => id));
  const kept = new Set([...nearAir, ...runs.flatMap((run) => [...run.elements, ...run.serves]).map(nameOf)]);
  const airElements = federation.airElements.filter((one) => kept.has(nameOf(one)));
  const passed = new Set(
    crossings.penetrations
      .filter(({ duct }) => duct.run !== null && ids.has(duct.run))
      .flatMap(({ barrier }): ElementRef[] => [barrier, ...barrier.leaves])
      .map(nameOf),
  );
  const isKept = (barrier: Barrier): boolean => passed.has(nameOf(barrier)) || isNear(barrier);
  const held = airElements.map((one) => grown(boxOfElement(one), SUPPORT_REACH + HANG_REACH));
  const { obstacles, supports, spaces, accessCovers, grids: _, zones: _zones, ...rest } = federation;
  return {
    ...rest,
    airElements,
    barriers: federation.barriers.filter(isKept),
    otherServices: federation.otherServices.filter(isNear),
    columns: federation.columns.filter(isNear),
    ...(obstacles && { obstacles: obstacles.filter(isNear) }),
    ...(spaces && { spaces: spaces.filter(isNear) }),
    ...(accessCovers && { accessCovers: accessCovers.filter(isNear) }),
    ...(supports && {
      supports: supports.filter((one) => held.some((box) => boxesMeet(box, boxOfElement(one)))),
    }),
  };
}
