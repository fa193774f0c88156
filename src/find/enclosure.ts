/** Whether all faces of a compartment hold back fire, and why not. */
import { refOf } from '../element-refs.js';
import { lowestRating, resistsFire } from '../fire-rating/index.js';
import { grownBy, MITRE, shared, totalArea } from '../geometry/areas.js';
import { boxOf, boxOfElement } from '../geometry/box.js';
import { type Box2, bounds, boxesNear } from '../geometry/polygon.js';
import { shadowOf } from '../geometry/shadow.js';
import type { Barrier, Compartment, CompartmentEnd, ElementRef, Enclosure, EnclosureGap, Opening } from '../model.js';
import { CONTACT } from '../tolerances.js';
import type { Services } from './floors.js';
import type { StoreyLoop } from './stacked-loops.js';

export interface PlacedOpening {
  readonly barrier: Barrier;
  readonly opening: Opening;
}

/** So much of the area before an opening must be that of a compartment for it to open into it, as a share. */
const OPENS_INTO = 0.25;

/** Openings that lead into a loop, through its walls or through the floors under and over it. */
export function openingsOf(loop: StoreyLoop, floors: readonly Barrier[]): PlacedOpening[] {
  const area = bounds(loop.outlines);
  const ofWalls = loop.walls.flatMap(({ barrier, thickness }) =>
    barrier.openings.filter((one) => opensInto(one, loop, area, thickness)).map((opening) => ({ barrier, opening })),
  );
  const ofFloors = floors.flatMap((barrier) =>
    barrier.openings
      .filter(({ bodies, doors }) => doors.length > 0 && shared(shadowOf(bodies), loop.outlines).length > 0)
      .map((opening) => ({ barrier, opening })),
  );
  return [...ofWalls, ...ofFloors];
}

/** A wall may go on past a loop, and past a storey. */
function opensInto(opening: Opening, { outlines, level }: StoreyLoop, area: Box2, thickness: number): boolean {
  const { bodies } = opening;
  if (bodies.length === 0) return false;
  const { min, max } = boxOfElement(opening);
  if (max[2] <= level.base + CONTACT || min[2] >= level.top - CONTACT) return false;
  // Grown outlines reach no further: most openings of a long wall lie before other loops.
  const own: Box2 = { min: [min[0], min[1]], max: [max[0], max[1]] };
  if (!boxesNear(own, area, MITRE * thickness + CONTACT)) return false;
  const before = grownBy(shadowOf(bodies), thickness);
  const width = Math.hypot(max[0] - min[0], max[1] - min[1]);
  return totalArea(shared(before, outlines)) > OPENS_INTO * thickness * width;
}

/** Nothing fills them and no service is in them. */
export function emptyOpenings(openings: readonly PlacedOpening[], services: Services): ElementRef[] {
  return openings
    .filter(({ opening: { filledBy, bodies } }) => filledBy.length === 0 && !services.meet(boxOf(bodies)))
    .map(({ opening }) => refOf(opening));
}

type Faces = Pick<Compartment, 'walled' | 'leaks' | 'floor' | 'ceiling' | 'doors' | 'leastRating'> & {
  /** Walls that stop short of the structure above them by more than a joint, and those whose head can't be measured. */
  readonly short: readonly ElementRef[];
  readonly unmeasured: readonly ElementRef[];
  /** Openings in walls that nothing fills or passes. */
  readonly empty: readonly ElementRef[];
};

export function enclosureOf(faces: Faces): Enclosure {
  const { walled, leaks, floor, ceiling, doors, leastRating, short, unmeasured, empty } = faces;
  const having = (resists: boolean | undefined) => doors.filter(({ rating }) => resistsFire(rating) === resists);
  const known: Enclosure['reasons'] = [
    ...leaks.map(({ between }) => ({ gap: 'leak' as const, elements: [...between] })),
    ...short.map((wall) => ({ gap: 'wallHead' as const, elements: [wall] })),
    ...endReasons(floor, { open: 'floorOpen', unrated: 'floorUnrated' }),
    ...endReasons(ceiling, { open: 'ceilingOpen', unrated: 'ceilingUnrated' }),
    ...having(false).map((door) => ({ gap: 'doorUnrated' as const, elements: [refOf(door), door.barrier] })),
  ];
  const unknown: Enclosure['reasons'] = [
    ...(walled === null || unmeasured.length > 0 ? [{ gap: 'wallUnknown' as const, elements: unmeasured }] : []),
    ...(empty.length > 0 ? [{ gap: 'wallOpening' as const, elements: empty }] : []),
    ...(isUnknown(floor) ? [{ gap: 'floorUnknown' as const, elements: floor.barriers }] : []),
    ...(isUnknown(ceiling) ? [{ gap: 'ceilingUnknown' as const, elements: ceiling.barriers }] : []),
    ...having(undefined).map((door) => ({ gap: 'doorUnknown' as const, elements: [refOf(door), door.barrier] })),
  ];
  const rated = doors.map(({ rating }) => rating).filter((rating) => resistsFire(rating) === true);
  return {
    complete: known.length > 0 ? false : unknown.length > 0 ? null : true,
    leastRating: lowestRating([...(leastRating ? [leastRating] : []), ...rated]),
    reasons: [...known, ...unknown],
  };
}

const isUnknown = ({ state }: CompartmentEnd): boolean => state === null || state === 'unknown';

function endReasons(
  { state, barriers }: CompartmentEnd,
  gaps: { readonly open: EnclosureGap; readonly unrated: EnclosureGap },
): Enclosure['reasons'] {
  return state === 'open' || state === 'unrated' ? [{ gap: gaps[state], elements: barriers }] : [];
}

/** By walls, floor and ceiling. */
export function closedBy({
  walled,
  floor,
  ceiling,
  short,
  unmeasured,
}: Pick<Faces, 'walled' | 'floor' | 'ceiling' | 'short' | 'unmeasured'>): boolean | null {
  const ends = [floor.state, ceiling.state];
  if (walled === false || short.length > 0 || ends.some((state) => state === 'open' || state === 'unrated'))
    return false;
  return walled === true && unmeasured.length === 0 && ends.every((state) => state === 'rated' || state === 'ground')
    ? true
    : null;
}
