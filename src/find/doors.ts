/** Doors and windows in barriers, with what they are rated for. */
import { inOrderOfRefs, refOf } from '../element-refs.js';
import { boxOf } from '../geometry/box.js';
import { lerp } from '../geometry/vector.js';
import type { Barrier, DoorFacts, Federation, Opening } from '../model.js';
import { isRated } from './barrier-summary.js';
import { world } from './describe.js';

/** In barriers that are rated. */
export const doorsOf = (federation: Federation): DoorFacts[] =>
  inOrderOfRefs(
    federation.barriers
      .filter(isRated)
      .flatMap((barrier) => barrier.openings.flatMap((opening) => doorsIn(federation, barrier, opening))),
  );

export function doorsIn(federation: Federation, barrier: Barrier, { model, doors, bodies }: Opening): DoorFacts[] {
  if (doors.length === 0) return [];
  const box = bodies.length > 0 ? boxOf(bodies) : null;
  const at = box && world(federation, lerp(box.min, box.max, 0.5));
  return doors.map(({ globalId, name, rating }) => ({ model, globalId, name, rating, at, barrier: refOf(barrier) }));
}
