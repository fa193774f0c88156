/** Moves of ductwork as changes: what goes along, what becomes longer or shorter, and whether that may be. */

import { refOf } from '../element-refs.js';
import { world } from '../find/describe.js';
import { roundLength, roundPoint } from '../find/rounding.js';
import { distance, dot, lineAngle, scale, sub, unit, Z } from '../geometry/vector.js';
import type { AirElement, ElementRef, MoveDuct, Vec3 } from '../model.js';
import { LEAST_PIECE, PARALLEL } from '../tolerances.js';
import type { MayChange } from './allowed.js';
import type { Range } from './axis.js';
import type { Building } from './building.js';
import { type Spread, spreadOf } from './spread.js';

/** One direction in which a duct may go. */
export interface Track {
  readonly way: Vec3;
  /** mm along the way. */
  readonly range: Range;
  /** Why it may not; null: it may. */
  readonly stopped: string | null;
  readonly moved: readonly ElementRef[];
  /** @returns undefined where a piece would become too short */
  readonly move: (by: number) => MoveDuct | undefined;
}

export function trackOf(first: readonly ElementRef[], way: Vec3, allowed: MayChange, building: Building): Track {
  const elements = first.flatMap((one) => building.element(one) ?? []);
  const range = { from: -reachOf(scale(way, -1), allowed), to: reachOf(way, allowed) };
  const spread = elements[0]
    ? spreadOf(elements, way, building.ductworkOf(elements[0]), allowed.fixed)
    : 'it is not modelled';
  if (typeof spread === 'string')
    return { way, range: { from: 0, to: 0 }, stopped: spread, moved: [], move: () => undefined };
  // The one that is spoken of goes first.
  const moved = [elements[0]!, ...spread.moved.filter((one) => one !== elements[0])].map(refOf);
  const along = [...moved, ...building.coversOn(moved)];
  return { way, range, stopped: null, moved, move: (by) => moveBy(by, way, spread, along, building) };
}

function moveBy(
  mm: number,
  way: Vec3,
  { stretched }: Spread,
  elements: readonly ElementRef[],
  building: Building,
): MoveDuct | undefined {
  const by = roundPoint(scale(way, mm));
  const lengths = stretched.map(({ element, end }) => ({
    ...refOf(element),
    by: longerBy(element, end, by, building),
    end: world(building.federation, end),
    left: lengthOf(element, building),
  }));
  if (lengths.some((one) => one.by < 0 && one.left + one.by < LEAST_PIECE)) return undefined;
  return { kind: 'moveDuct', by, elements, lengths: lengths.map(({ left: _, ...one }) => one) };
}

function lengthOf(element: AirElement, { axisOf }: Building): number {
  const axis = axisOf(element);
  return axis ? distance(axis[0], axis[1]) : Number.POSITIVE_INFINITY;
}

/** 0 of what takes a move up by bending. */
function longerBy(element: AirElement, end: Vec3, by: Vec3, { axisOf }: Building): number {
  const axis = axisOf(element);
  if (element.kind === 'flexible' || !axis) return 0;
  const other = distance(axis[0], end) > distance(axis[1], end) ? axis[0] : axis[1];
  return roundLength(dot(by, unit(sub(end, other))));
}

function reachOf(way: Vec3, { ductBy, ductWays }: MayChange): number {
  const upright = lineAngle(way, Z) < PARALLEL;
  const name = upright ? (way[2] > 0 ? 'up' : 'down') : 'level';
  return ductWays.includes(name) ? ductBy : 0;
}
