/**
 * As much of a building as bears on a change. Finding looks nowhere further than REACH from what it measures, but for
 * what belongs to a run (what it serves, its access and supports), to a stretch of one (what protects it at its barriers),
 * for compartments and for the heads of walls. So of ductwork that a change bears on whole stretches are kept with the
 * barriers that they pass, of a run that changes also those within RUN_REACH along it, and everything near what changes;
 * compartments and heads are those of the whole building, and so is what hangs on all of a run (`within.ts`). Before and
 * after are found in the same cut: what it leaves out is left out of both, and only their difference counts. What an opening
 * bears on lies near it, so that for one a cut without stretches often does.
 * `tests/remedy/whole-building.test.ts` holds this to whole buildings.
 */
import { nameOf } from '../element-refs.js';
import { type Box, boxOfElement, grown } from '../geometry/box.js';
import type { Body, ElementRef, Federation, Stretch } from '../model.js';
import { ACCESS_REACH, AROUND_REACH, FACE_DEPTH, HANG_REACH, RUN_REACH, SUPPORT_REACH } from '../tolerances.js';
import type { Building } from './building.js';

/** What stands round an opening is looked for furthest. */
export const REACH = Math.max(AROUND_REACH, FACE_DEPTH, ACCESS_REACH);

type Placed = ElementRef & { readonly bodies: readonly Body[] };

/** What a change moves, alters or makes, both before it and after it. */
export interface Changed {
  readonly air: readonly Placed[];
  readonly openings: readonly Placed[];
  /** That the openings are in. */
  readonly barriers: readonly ElementRef[];
}

/** Boxes that what is measured by the change lies in. */
export const reachOf = ({ air, openings }: Changed): Box[] =>
  [...air, ...openings].filter(({ bodies }) => bodies.length > 0).map((one) => grown(boxOfElement(one), REACH));

/** @param stretches false: only what lies near, which is all that an opening bears on */
export function cutRound(building: Building, changed: Changed, stretches: boolean): Federation {
  const { federation, nearby } = building;
  const near = reachOf(changed);
  const beside = nearby.airElements(near);
  const kept = ductworkWith(building, beside, new Set(stretches ? stretchesBy(changed, beside, building) : []));
  const airElements = federation.airElements.filter((one) => kept.elements.has(one));
  const barriers = new Set([...nearby.barriers(near), ...kept.barriers]);
  const held = airElements.map((one) => grown(boxOfElement(one), SUPPORT_REACH + HANG_REACH));
  const { obstacles, supports, spaces, accessCovers, grids: _, zones: _zones, ...rest } = federation;
  return {
    ...rest,
    airElements,
    barriers: federation.barriers.filter((one) => barriers.has(one)),
    otherServices: nearby.otherServices(near),
    columns: nearby.columns(near),
    ...(obstacles && { obstacles: nearby.obstacles(near) }),
    ...(spaces && { spaces: nearby.spaces([...near, ...held]) }),
    ...(accessCovers && { accessCovers: nearby.accessCovers(near) }),
    ...(supports && { supports: nearby.supports(held) }),
  };
}

/** An opening bears on what passes its barrier; ductwork that moves on all that it comes near to, and along its run. */
function stretchesBy({ air, barriers }: Changed, beside: readonly ElementRef[], building: Building): Stretch[] {
  const names = new Set(barriers.map(nameOf));
  const passes = (one: ElementRef): boolean =>
    building.passing([one]).some(({ barrier }) => [barrier, ...barrier.leaves].some((leaf) => names.has(nameOf(leaf))));
  const concerned = air.length > 0 ? beside : beside.filter(passes);
  return [...concerned.flatMap(building.stretchesOf), ...withinReach(air, building)];
}

/** With all that passes a barrier together. */
function ductworkWith(building: Building, near: readonly ElementRef[], stretches: ReadonlySet<Stretch>) {
  const { penetrations, element, barrier, passing } = building;
  const names: ElementRef[] = [...near];
  const passed = new Set(passing(near));
  for (const { parts, serves, ends } of stretches) {
    names.push(...parts, ...serves);
    for (const end of ends) passed.add(penetrations.get(end.penetration)!);
  }
  for (const { elements } of passed) names.push(...elements);
  return {
    elements: new Set(names.flatMap((one) => element(one) ?? [])),
    barriers: [...passed].flatMap((p) => [p.barrier, ...p.barrier.leaves].flatMap((one) => barrier(one) ?? [])),
  };
}

/** Stretches that these belong to, and those behind their barriers, as far as RUN_REACH along them. */
function withinReach(changed: readonly ElementRef[], { stretchesOf, stretchesAt }: Building): Stretch[] {
  /** How far it is to the far end of each. */
  const ways = new Map(changed.flatMap(stretchesOf).map((stretch) => [stretch, 0]));
  const edge = [...ways.keys()];
  for (let stretch = edge.shift(); stretch; stretch = edge.shift()) {
    const way = ways.get(stretch)!;
    if (way >= RUN_REACH) continue;
    for (const next of stretch.ends.flatMap(({ penetration }) => stretchesAt(penetration))) {
      const farther = way + next.length;
      if (farther >= (ways.get(next) ?? Number.POSITIVE_INFINITY)) continue;
      ways.set(next, farther);
      edge.push(next);
    }
  }
  return [...ways.keys()];
}
