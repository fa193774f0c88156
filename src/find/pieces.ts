/** Ductwork made ready for measuring: straight pieces with their exact prisms, everything else with its own bodies. */
import { extent } from '../geometry/section.js';
import { X, Y, Z, ZERO } from '../geometry/vector.js';
import type { AirElement, Body, ElementRef, Vec3 } from '../model.js';
import { chooseReading, isNearJoint, type Straight, straightReadings } from './straight.js';

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

export interface Piece {
  readonly element: AirElement;
  readonly straight: Straight | undefined;
  readonly bodies: readonly Body[];
  readonly box: Box;
}

export const boxOf = (bodies: readonly Body[]): Box => {
  const [x, y, z] = [X, Y, Z].map((axis) => extent(bodies, ZERO, axis));
  return { min: [x![0], y![0], z![0]], max: [x![1], y![1], z![1]] };
};

export const refOf = ({ model, globalId }: ElementRef): ElementRef => ({ model, globalId });

/** A box of elements that read as one axis only settles which way its neighbours' boxes go. */
export function readPieces(elements: readonly AirElement[]): Piece[] {
  const readings = elements.map(straightReadings);
  const ends = readings.flatMap((r, i) => (r.length === 1 ? r[0]!.axis.map((at) => ({ at, i })) : []));
  const byCell = new Map<string, { at: Vec3; i: number }[]>();
  for (const end of ends) {
    const key = cellOf(end.at);
    byCell.set(key, [...(byCell.get(key) ?? []), end]);
  }
  const near = (p: Vec3, own: number): boolean =>
    neighbourCells(p).some((key) => byCell.get(key)?.some((e) => e.i !== own && isNearJoint(e.at, p)));
  return elements.map((element, i) => {
    const straight = chooseReading(readings[i]!, element, (end) => near(end, i));
    const bodies = straight?.bodies ?? element.bodies;
    return { element, straight, bodies, box: boxOf(bodies) };
  });
}

/** Larger than any joint, so that two ends of one joint lie in the same or in neighbouring cells. */
const CELL = 100;
const cellOf = (p: Vec3): string => p.map((v) => Math.floor(v / CELL)).join();

function neighbourCells(p: Vec3): string[] {
  const out: string[] = [];
  for (const dx of [-1, 0, 1])
    for (const dy of [-1, 0, 1])
      for (const dz of [-1, 0, 1]) out.push(cellOf([p[0] + dx * CELL, p[1] + dy * CELL, p[2] + dz * CELL]));
  return out;
}
