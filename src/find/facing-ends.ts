/**
 * Two aligned duct ends of one system that face each other across a barrier with nothing between: somebody may have
 * meant the duct to go through and left it out, so it is said.
 */
import { toPlane } from '../geometry/frame.js';
import { contains } from '../geometry/polygon.js';
import { add, distance, dot, lerp, lineAngle, negate, scale, sub } from '../geometry/vector.js';
import type { Vec3 } from '../model.js';
import { CONTACT, FACING_ANGLE, FACING_OFFSET, FACING_REACH, JOINT } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

export interface FacingPair {
  readonly pieces: readonly [Piece, Piece];
  readonly system: string;
  readonly plate: Plate;
  readonly position: Vec3;
  readonly distance: number;
}

interface FreeEnd {
  readonly piece: Piece;
  readonly at: Vec3;
  /** Out of the duct. */
  readonly out: Vec3;
}

/** @param nearby pieces whose boxes come within FACING_REACH of the barrier */
export function findFacingEnds(
  gross: GrossBody,
  nearby: readonly Piece[],
  isTaken: (piece: Piece) => boolean,
): FacingPair[] {
  const ends = nearby.flatMap(endsOf).filter((end) => !isTaken(end.piece) && isFree(end, nearby));
  const pairs: FacingPair[] = [];
  ends.forEach((a, i) => {
    for (const b of ends.slice(i + 1)) {
      const pair = pairAcross(gross, a, b);
      if (pair && !nearby.some((piece) => standsBetween(piece, a, b))) pairs.push(pair);
    }
  });
  return pairs;
}

function endsOf(piece: Piece): FreeEnd[] {
  const { straight } = piece;
  if (!straight || piece.element.kind === 'terminal') return [];
  const [from, to] = straight.axis;
  return [
    { piece, at: from, out: negate(straight.direction) },
    { piece, at: to, out: straight.direction },
  ];
}

/** No port at this end is connected and no other piece stands there. */
function isFree(end: FreeEnd, nearby: readonly Piece[]): boolean {
  const connected = end.piece.element.ports.some((p) => p.connectedTo !== undefined && distance(p.at, end.at) < JOINT);
  const beyond = add(end.at, scale(end.out, JOINT / 2));
  return !connected && !nearby.some((p) => p !== end.piece && isInBox(beyond, p, JOINT / 2));
}

const isInBox = (p: Vec3, { box }: Piece, slack: number): boolean =>
  ([0, 1, 2] as const).every((i) => p[i] >= box.min[i] - slack && p[i] <= box.max[i] + slack);

function pairAcross(gross: GrossBody, a: FreeEnd, b: FreeEnd): FacingPair | undefined {
  const system = a.piece.element.system;
  if (system === undefined || system !== b.piece.element.system) return undefined;
  if (lineAngle(a.out, b.out) > FACING_ANGLE || dot(a.out, b.out) > 0) return undefined;
  const across = sub(b.at, a.at);
  if (dot(across, a.out) <= 0) return undefined; // back to back, as the two ends of one duct are
  const offset = sub(across, scale(a.out, dot(across, a.out)));
  if (Math.hypot(...offset) > FACING_OFFSET) return undefined;
  if (!sectionsMeet(a, b)) return undefined;
  for (const plate of gross.platesOn(a.at, a.out)) {
    const height = (p: Vec3) => dot(sub(p, plate.frame.origin), plate.frame.z);
    const [low, high] = [Math.min(height(a.at), height(b.at)), Math.max(height(a.at), height(b.at))];
    const half = plate.thickness / 2;
    const isAcross = low <= -half + CONTACT && high >= half - CONTACT;
    if (isAcross && -half - low <= FACING_REACH && high - half <= FACING_REACH)
      return {
        pieces: [a.piece, b.piece],
        system,
        plate,
        position: lerp(a.at, b.at, -height(a.at) / (height(b.at) - height(a.at))),
        distance: distance(a.at, b.at),
      };
  }
  return undefined;
}

/** Each end's middle lies in the other's section: ducts of like size in line, not a large one beside a small one. */
function sectionsMeet(a: FreeEnd, b: FreeEnd): boolean {
  const within = (end: FreeEnd, other: FreeEnd) =>
    contains(end.piece.straight!.outline, toPlane(end.piece.straight!.plane, other.at));
  return within(a, b) && within(b, a);
}

function standsBetween(piece: Piece, a: FreeEnd, b: FreeEnd): boolean {
  if (piece === a.piece || piece === b.piece) return false;
  return [0.1, 0.3, 0.5, 0.7, 0.9].some((t) => isInBox(lerp(a.at, b.at, t), piece, 0));
}
