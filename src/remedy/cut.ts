/**
 * As much of a building as bears on a change. Finding looks nowhere further than REACH from what it measures, but for
 * what belongs to a run (what it serves, its access and supports), to a stretch of one (what protects it at its barriers),
 * for compartments and for the heads of walls. So of ductwork that changes whole runs are kept, of all other ductwork near
 * by whole stretches, with the barriers that they pass, and everything near what changes; compartments and heads are those
 * of the whole building. Before and after are found in the same cut: what it leaves out is left out of both, and only
 * their difference counts. `tests/remedy/demo.test.ts` holds this to the whole building.
 */
import { nameOf } from '../element-refs.js';
import { boxesMeet, boxOfElement, grown } from '../geometry/box.js';
import type { Barrier, Body, ElementRef, Federation, Penetration } from '../model.js';
import { ACCESS_REACH, AROUND_REACH, FACE_DEPTH, HANG_REACH, SUPPORT_REACH } from '../tolerances.js';
import type { Building } from './building.js';

/** What stands round an opening is looked for furthest. */
export const REACH = Math.max(AROUND_REACH, FACE_DEPTH, ACCESS_REACH);

/** Something that a change moves, alters or makes; before it or after it. */
export interface Changed {
  readonly element: ElementRef & { readonly bodies: readonly Body[] };
  readonly isAir: boolean;
}

/** @param more how much further than it was tried what changes may still go, mm */
export function cutRound(building: Building, changed: readonly Changed[], more: number): Federation {
  const { federation } = building;
  const near = changed
    .filter(({ element }) => element.bodies.length > 0)
    .map(({ element }) => grown(boxOfElement(element), REACH + more));
  const isNear = (element: { readonly bodies: readonly Body[] }): boolean =>
    element.bodies.length > 0 && near.some((box) => boxesMeet(box, boxOfElement(element)));
  const nearAir = federation.airElements.filter(isNear).map(nameOf);
  const kept = ductworkWith(
    building,
    new Set(nearAir),
    new Set(changed.filter(({ isAir }) => isAir).map(({ element }) => nameOf(element))),
  );
  const airElements = federation.airElements.filter((one) => kept.elements.has(nameOf(one)));
  const isKept = (barrier: Barrier): boolean => kept.barriers.has(nameOf(barrier)) || isNear(barrier);
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

/** With what is near its whole stretches, with what changes its whole runs; and all that passes a barrier together. */
function ductworkWith({ crossings, penetrations }: Building, near: ReadonlySet<string>, changed: ReadonlySet<string>) {
  const elements = new Set(near);
  const passed = new Set<Penetration>();
  const has = (names: ReadonlySet<string>, refs: readonly ElementRef[]) => refs.some((one) => names.has(nameOf(one)));
  for (const run of crossings.runs) {
    const isWhole = has(changed, run.elements);
    if (isWhole) for (const one of [...run.elements, ...run.serves]) elements.add(nameOf(one));
    for (const stretch of run.stretches.filter((one) => isWhole || has(near, one.parts))) {
      for (const one of [...stretch.parts, ...stretch.serves]) elements.add(nameOf(one));
      for (const end of stretch.ends) passed.add(penetrations.get(end.penetration)!);
    }
  }
  for (const p of penetrations.values()) if (has(near, p.elements)) passed.add(p);
  for (const p of passed) for (const one of p.elements) elements.add(nameOf(one));
  return {
    elements,
    barriers: new Set([...passed].flatMap(({ barrier }) => [barrier, ...barrier.leaves]).map(nameOf)),
  };
}
