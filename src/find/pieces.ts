/** Ductwork made ready for measuring: straight pieces with their exact prisms, everything else with its own bodies. */
import { fileUnder, onceForEach } from '../collect.js';
import { type Box, boxOf } from '../geometry/box.js';
import { distance, lineAngle } from '../geometry/vector.js';
import type { AirElement, Body, Vec3 } from '../model.js';
import { FACING_ANGLE, JOINT } from '../tolerances.js';
import { readDuctWall, type WallReading } from './duct-wall.js';
import { chooseReading, type Straight, straightReadings } from './straight.js';

export interface Piece {
  readonly element: AirElement;
  readonly straight: Straight | undefined;
  readonly bodies: readonly Body[];
  /** Of what it is made, and which of it gaps are measured to. */
  readonly wall: WallReading;
  readonly box: Box;
  /** Other ways to read a piece whose axis nothing in the files settles, e.g. a short box that joins nothing. */
  readonly otherReadings: readonly Piece[];
}

export function readPieces(elements: readonly AirElement[]): Piece[] {
  const readings = elements.map(readingsOf);
  const isJoint = jointIndex(elements, readings);
  return elements.map((element, i) => {
    const chosen = chooseReading(readings[i]!, element, (end, direction) => isJoint(end, direction, i));
    const others = chosen.isCertain ? [] : readings[i]!.filter((reading) => reading !== chosen.straight);
    return asPiece(
      element,
      chosen.straight,
      others.map((reading) => asPiece(element, reading, [])),
    );
  });
}

function asPiece(element: AirElement, straight: Straight | undefined, otherReadings: readonly Piece[]): Piece {
  const bodies = straight?.bodies ?? element.bodies;
  return { element, straight, bodies, wall: readDuctWall(element, straight), box: boxOf(bodies), otherReadings };
}

/** A building is read once, and again in part for every change that is proven. */
const readingsOf = onceForEach((element: AirElement): readonly Straight[] => straightReadings(element));

/** Larger than any joint, so that two ends of one joint lie in the same or in neighbouring cells. */
const CELL = 100;

/** Is there, at a possible end of one element, a possible end of another in line with it, or another's port? */
function jointIndex(elements: readonly AirElement[], readings: readonly (readonly Straight[])[]) {
  const cells = new Map<number, { at: Vec3; direction: Vec3 | undefined; owner: number }[]>();
  const put = (at: Vec3, direction: Vec3 | undefined, owner: number): void =>
    fileUnder(cells, cellOf(at[0], at[1], at[2]), { at, direction, owner });
  readings.forEach((list, i) => {
    // A panel in the middle of a side lies in line with the way across the duct, where no air goes.
    if (elements[i]!.isAccessPanel) return;
    for (const { axis, direction } of list) for (const at of axis) put(at, direction, i);
    for (const port of elements[i]!.ports) put(port.at, undefined, i);
  });
  return (end: Vec3, direction: Vec3, own: number): boolean =>
    cellsNear(end).some((key) =>
      cells
        .get(key)
        ?.some(
          (e) =>
            e.owner !== own &&
            distance(e.at, end) <= JOINT &&
            (e.direction === undefined || lineAngle(e.direction, direction) < FACING_ANGLE),
        ),
    );
}

/** A number for the cell of a place; that distant cells may share one does no harm, since distances are compared. */
const cellOf = (x: number, y: number, z: number): number =>
  Math.imul(Math.floor(x / CELL), 73_856_093) ^
  Math.imul(Math.floor(y / CELL), 19_349_663) ^
  Math.imul(Math.floor(z / CELL), 83_492_791);

/** Those that a joint here may reach into: mostly the one that the place lies in. */
function cellsNear([x, y, z]: Vec3): number[] {
  const cells: number[] = [];
  for (const dx of sides(x)) for (const dy of sides(y)) for (const dz of sides(z)) cells.push(cellOf(dx, dy, dz));
  return cells;
}

const sides = (v: number): number[] =>
  Math.floor((v - JOINT) / CELL) === Math.floor((v + JOINT) / CELL) ? [v] : [v - JOINT, v + JOINT];
