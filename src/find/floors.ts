/** Floors and roofs on plan, storey by storey: what each covers, and where nothing is between two storeys. */
import { type Outlines, shared, united, without } from '../geometry/areas.js';
import { type Box, boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { WORLD } from '../geometry/frame.js';
import { prismMesh } from '../geometry/loft.js';
import { lineHits } from '../geometry/mesh.js';
import { type Box2, bounds, boxCentre } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { shadowOf } from '../geometry/shadow.js';
import { Z } from '../geometry/vector.js';
import type { Barrier, Body, Federation } from '../model.js';
import { CONTACT } from '../tolerances.js';
import type { Level } from './levels.js';

export interface Floor {
  readonly barrier: Barrier;
  /** Openings that go through and that nothing fills are cut out. */
  readonly outlines: Outlines;
  readonly bounds: Box2;
  readonly bottom: number;
  readonly top: number;
}

/** The floors between the cut of one level and that of the next, from under the first one to over the last. */
export function floorsBetween(barriers: readonly Barrier[], levels: readonly Level[]): Floor[][] {
  const between: Floor[][] = Array.from({ length: levels.length + 1 }, () => []);
  for (const floor of barriers.filter(({ kind }) => kind !== 'wall').flatMap(floorOf)) {
    const middle = (floor.bottom + floor.top) / 2;
    const over = levels.findIndex(({ cutAt }) => cutAt > middle);
    between[over < 0 ? levels.length : over]!.push(floor);
  }
  return between;
}

function floorOf(barrier: Barrier): Floor[] {
  const { min, max } = boxOf(barrier.bodies);
  const open = barrier.openings.flatMap(({ bodies, filledBy }) =>
    filledBy.length === 0 ? openThrough(bodies, barrier) : [],
  );
  const shadow = shadowOf(barrier.bodies);
  const outlines = open.length > 0 ? without(shadow, united(open)) : shadow;
  return shadow.length > 0 ? [{ barrier, outlines, bounds: bounds(shadow), bottom: min[2], top: max[2] }] : [];
}

/** On plan, so far as there is a floor; nothing where the opening is a recess. */
function openThrough(bodies: readonly Body[], barrier: Barrier): Outlines {
  const outlines = shared(shadowOf(bodies), shadowOf(barrier.bodies));
  if (outlines.length === 0) return [];
  const faces = heightsAt(barrier.bodies, boxCentre(outlines));
  const { min, max } = boxOf(bodies);
  const isThrough = min[2] <= Math.min(...faces) + CONTACT && max[2] >= Math.max(...faces) - CONTACT;
  return isThrough ? outlines : [];
}

/** Where an upright line passes the faces of bodies. */
export const heightsAt = (bodies: readonly Body[], [x, y]: readonly [number, number]): number[] =>
  bodies.flatMap((body) => lineHits(body.kind === 'mesh' ? body : prismMesh(body), [x, y, 0], Z));

export interface Services {
  /** Whether one passes a place on plan at a height. */
  readonly pass: (place: Outlines, height: number) => boolean;
  readonly meet: (box: Box) => boolean;
}

export function servicesOf({ airElements, otherServices }: Federation): Services {
  const services = [...airElements, ...otherServices];
  const servicesIn = boxIndex(services.map(({ bodies }) => ({ bodies, box: boxOf(bodies) })));
  const pass = (place: Outlines, height: number) => {
    const { min, max } = bounds(place);
    return servicesIn({ min: [...min, height], max: [...max, height] }).some(
      ({ bodies }) => shared(place, cutBodies(bodies, { ...WORLD, origin: [0, 0, height] }).outers).length > 0,
    );
  };
  return { pass, meet: (box) => servicesIn(box).length > 0 };
}
