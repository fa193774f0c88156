/** How near everything else stands to the ductwork of a run, over the whole length that is or may have to be protected. */
import { fileUnder, once } from '../collect.js';
import { nameOf, refOf } from '../element-refs.js';
import { type Beside, besideStraight } from '../geometry/beside.js';
import { boxDistance, grown } from '../geometry/box.js';
import { clearDistance } from '../geometry/clear-distance.js';
import type { Fit } from '../geometry/fit.js';
import { lineHits } from '../geometry/mesh.js';
import type { OneSide, StraightSection } from '../geometry/section-sides.js';
import { treeOf } from '../geometry/triangle-tree.js';
import { add, cross, distance, dot, negate, scale, sub, unit, X, Y, Z } from '../geometry/vector.js';
import type { AirElement, Barrier, Clearance, DuctProtection, Federation, Neighbour, Side, Vec3 } from '../model.js';
import { JOINED_STEPS, JOINT, ROOM_REACH } from '../tolerances.js';
import type { Section } from './cut-pieces.js';
import { world } from './describe.js';
import type { PieceJoint } from './joints.js';
import type { Standing, StandingIn } from './obstacles.js';
import type { Piece } from './pieces.js';
import { roundLength } from './rounding.js';
import { type Straight, sectionDirections } from './straight.js';

export interface ClearanceSurroundings {
  readonly federation: Federation;
  readonly standingIn: StandingIn;
  readonly jointsOf: ReadonlyMap<AirElement, readonly PieceJoint[]>;
  readonly runOf: ReadonlyMap<AirElement, string>;
  /** Barriers that a piece passes or ends in. */
  readonly passedBy: ReadonlyMap<AirElement, readonly Barrier[]>;
  readonly protectionOf: (piece: Piece) => DuctProtection;
}

/** One obstacle beside one piece. */
interface Near {
  readonly standing: Standing;
  readonly section: Section;
  readonly side: Side | null;
  readonly distance: number;
  readonly at: Vec3;
  readonly length: number | null;
  readonly from: Clearance['from'];
}

/** Of the sections of one stretch, by obstacle and side. */
export function clearancesOf(sections: readonly Section[], around: ClearanceSurroundings): Clearance[] {
  const bySide = new Map<string, Near[]>();
  for (const section of sections)
    if (around.protectionOf(section.piece).kind !== 'none')
      for (const near of nearTo(section, around)) fileUnder(bySide, `${nameOf(near.standing.ref)} ${near.side}`, near);
  return [...bySide.values()]
    .map((list) => together(list, around))
    .sort((a, b) => a.distance - b.distance || (a.obstacle.globalId < b.obstacle.globalId ? -1 : 1));
}

function together(list: readonly Near[], around: ClearanceSurroundings): Clearance {
  const sorted = [...list].sort((a, b) => a.distance - b.distance);
  const nearest = sorted[0]!;
  const lengths = list.flatMap(({ length }) => length ?? []);
  const { piece } = nearest.section;
  return {
    obstacle: neighbourOf(nearest.standing, around),
    side: nearest.side,
    distance: roundLength(nearest.distance),
    from: nearest.from,
    outline: piece.wall.outline,
    at: world(around.federation, nearest.at),
    length: lengths.length > 0 ? roundLength(lengths.reduce((sum, one) => sum + one, 0)) : null,
    elements: [...new Set(sorted.map((one) => one.section.piece.element))].map(refOf),
  };
}

function neighbourOf(
  { ref, name, what, kind, combustible, construction, piece }: Standing,
  { runOf, protectionOf }: ClearanceSurroundings,
): Neighbour {
  return {
    ...ref,
    name,
    what,
    kind,
    combustible: combustible ?? null,
    construction: construction ?? null,
    run: (piece && runOf.get(piece.element)) ?? null,
    protection: piece ? protectionOf(piece) : null,
  };
}

function nearTo(section: Section, around: ClearanceSurroundings): Near[] {
  const { piece } = section;
  const straight = piece.straight && straightSection(section, piece.straight);
  const reached = grown(piece.box, ROOM_REACH);
  const own = joinedWith(piece, around);
  const passed = new Set([...own].flatMap((element) => around.passedBy.get(element) ?? []).map(nameOf));
  const joined = once(() => joinedBy(piece, JOINED_STEPS, around));
  const isOther = (standing: Standing): boolean => {
    if (standing.what === 'barrier') return !passed.has(nameOf(standing.ref));
    if (!standing.piece) return true;
    const { element } = standing.piece;
    if (element.isAccessPanel || joined().has(element)) return false;
    // Bends turn towards what they are a part of.
    return straight !== undefined || around.runOf.get(element) !== around.runOf.get(piece.element);
  };
  return around
    .standingIn(reached)
    .filter((standing) => boxDistance(standing.box, piece.box) <= ROOM_REACH && isOther(standing))
    .flatMap((standing) => (straight ? besideAxis(section, straight, standing) : besideBodies(section, standing)));
}

/** The piece and what it is joined to: what one of them passes is judged at its faces. */
const joinedWith = (piece: Piece, around: ClearanceSurroundings): Set<AirElement> => joinedBy(piece, 1, around);

function joinedBy(piece: Piece, steps: number, { jointsOf }: ClearanceSurroundings): Set<AirElement> {
  const found = new Set([piece.element]);
  let edge = [piece.element];
  for (let step = 0; step < steps; step++) {
    edge = edge
      .flatMap((element) => (jointsOf.get(element) ?? []).flatMap(({ pieces }) => pieces.map((one) => one.element)))
      .filter((element) => !found.has(element) && found.add(element));
  }
  return found;
}

// ------------------------------------------------------------------------------------------------------ straight pieces

interface Measured extends StraightSection {
  readonly from: Clearance['from'];
}

/** What lies at the very ends is in line with the duct, not beside it. */
function straightSection({ piece, ends }: Section, straight: Straight): Measured | undefined {
  const sheet = piece.wall.sections.sheet;
  const fit = sheet ?? straight.fit;
  const [from, to] = dot(sub(ends[1], ends[0]), straight.direction) < 0 ? [ends[1], ends[0]] : ends;
  const long = distance(from, to) - 2 * JOINT;
  if (long <= 0 || !straight.isWhole || fit.shape === 'unknown') return undefined;
  const direction = lookedAlong(straight.direction);
  const [u, v] = sectionDirections({ fit, plane: straight.plane });
  const up = mostNearly(upOf(direction), [u, v]);
  const right = mostNearly(rightOf(direction), [u, v]);
  const isUp = Math.abs(dot(up, u)) > 0.5;
  const sizes = halfSizes(fit);
  const way = unit(sub(to, from));
  const centre = add(
    add(straight.plane.origin, scale(straight.plane.x, fit.centre[0])),
    scale(straight.plane.y, fit.centre[1]),
  );
  const start = add(from, scale(way, JOINT));
  const origin = add(centre, scale(way, dot(sub(start, centre), way)));
  return {
    frame: { origin, x: right, y: up, z: way },
    length: long,
    half: isUp ? [sizes.breadth, sizes.length] : [sizes.length, sizes.breadth],
    radius: sizes.radius,
    from: sheet ? 'sheet' : 'drawn',
  };
}

function halfSizes({ shape, length, breadth }: Fit) {
  if (shape === 'rectangular') return { length: length / 2, breadth: breadth / 2, radius: 0 };
  const radius = breadth / 2;
  return { length: shape === 'circular' ? 0 : length / 2 - radius, breadth: 0, radius };
}

/** The contract's: the larger level component positive; of an upright duct the sides are those on plan. */
export function lookedAlong(direction: Vec3): Vec3 {
  const [x, y] = direction;
  if (Math.hypot(x, y) < Math.SQRT1_2) return direction[2] > 0 ? negate(direction) : direction;
  const decisive = Math.abs(x) >= Math.abs(y) ? x : y;
  return decisive < 0 ? negate(direction) : direction;
}

export const isUpright = (direction: Vec3): boolean => Math.abs(direction[2]) > Math.SQRT1_2;
export const upOf = (direction: Vec3): Vec3 => (isUpright(direction) ? Y : Z);
export const rightOf = (direction: Vec3): Vec3 => (isUpright(direction) ? X : unit(cross(direction, Z)));

/** Of the section's own two directions, either way, the one that points most nearly there. */
const mostNearly = (wanted: Vec3, own: readonly Vec3[]): Vec3 =>
  [...own, ...own.map(negate)].reduce((best, one) => (dot(one, wanted) > dot(best, wanted) ? one : best));

function besideAxis(section: Section, straight: Measured, standing: Standing): Near[] {
  if (standing.what === 'obstacle' && passes(straight, standing)) return [];
  const bySide = new Map<OneSide, Beside[]>();
  for (const body of standing.bodies) {
    const beside = besideStraight(straight, body, ROOM_REACH);
    if (beside === 'inside')
      return [
        {
          standing,
          section,
          side: null,
          distance: 0,
          at: straight.frame.origin,
          length: straight.length,
          from: straight.from,
        },
      ];
    for (const [side, one] of Object.entries(beside)) fileUnder(bySide, side as OneSide, one);
  }
  return [...bySide].map(([side, list]) => {
    const nearest = list.reduce((best, one) => (one.distance < best.distance ? one : best));
    const length = list.flatMap((one) => one.stretches).reduce((sum, [from, to]) => sum + to - from, 0);
    return {
      ...{ standing, section, side, distance: nearest.distance, at: nearest.at, from: straight.from },
      length: Math.min(length, straight.length),
    };
  });
}

/** The duct goes through it, as through a ceiling or an opening in the web of a beam, which is not cut out of what is read. */
function passes({ frame, length }: Measured, { bodies }: Standing): boolean {
  return bodies.some((body) => lineHits(treeOf(body).mesh, frame.origin, frame.z).some((s) => s >= 0 && s <= length));
}

// -------------------------------------------------------------------------------------------- bends and all that is not

/** Of bodies that are no section on an axis; over or under it tells the side, all else is beside it. */
function besideBodies(section: Section, standing: Standing): Near[] {
  const found = section.piece.bodies
    .flatMap((own) => standing.bodies.flatMap((body) => clearDistance(own, body, ROOM_REACH) ?? []))
    .sort((a, b) => a.distance - b.distance)[0];
  if (!found) return [];
  // What meets a bend or a coil in line is joined with it, whatever no port says.
  if (found.distance === 0 && standing.kind === 'equipment') return [];
  const way = sub(found.points[1], found.points[0]);
  const side = Math.abs(way[2]) > Math.hypot(way[0], way[1]) ? (way[2] > 0 ? 'top' : 'bottom') : null;
  const from = section.piece.wall.outline === 'sheet' ? 'sheet' : 'drawn';
  return [{ standing, section, side, distance: found.distance, at: found.points[1], length: null, from }];
}
