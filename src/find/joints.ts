/**
 * Where air passes from one piece of ductwork to the next: as the ports of the files say, and, at ends of which no port
 * says anything, where an end touches another piece. Joints that are inferred say so.
 */
import { fileUnder } from '../collect.js';
import { boxesMeet, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { frameAlong, toPlane } from '../geometry/frame.js';
import { contains } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { add, distance, dot, lineAngle, negate, scale, sub } from '../geometry/vector.js';
import type { AirElement, Joint, Port, Vec3 } from '../model.js';
import { CONTACT, FACING_ANGLE, JOINT } from '../tolerances.js';
import { type EndFace, endFacesOf } from './end-faces.js';
import type { Piece } from './pieces.js';

export interface PieceJoint {
  readonly pieces: readonly [Piece, Piece];
  /** Inner coordinates. */
  readonly at: Vec3;
  readonly from: 'ports' | 'touching';
  readonly flow: Joint['flow'];
}

/** Where an element is joined, inner coordinates, and what shows it. */
export type JointsOf = ReadonlyMap<AirElement, readonly Pick<PieceJoint, 'at' | 'from' | 'pieces'>[]>;

export const joinedWith = (piece: Piece, jointsOf: JointsOf): Piece[] =>
  (jointsOf.get(piece.element) ?? []).flatMap((joint) => joint.pieces.filter((one) => one !== piece));

/** Where a piece may go on. */
interface End {
  readonly piece: Piece;
  readonly at: Vec3;
  /** Out of the piece; undefined for a port, which says only where. */
  readonly out: Vec3 | undefined;
  readonly face: EndFace | undefined;
}

export function findJoints(pieces: readonly Piece[]): PieceJoint[] {
  const joints = portJoints(pieces);
  const joined = new Map<Piece, Vec3[]>();
  for (const { pieces: both, at } of joints) for (const piece of both) fileUnder(joined, piece, at);
  const isJoined = (piece: Piece, at: Vec3) => (joined.get(piece) ?? []).some((known) => distance(known, at) <= JOINT);

  const ends = new Map(pieces.map((piece) => [piece, endsOf(piece)]));
  const near = boxIndex(pieces);
  const order = new Map(pieces.map((piece, i) => [piece, i]));
  const pairOf = (...both: readonly [Piece, Piece]) =>
    both
      .map((piece) => order.get(piece)!)
      .sort((i, j) => i - j)
      .join();
  const known = new Set(joints.map(({ pieces: [a, b] }) => pairOf(a, b)));
  for (const piece of pieces)
    for (const end of ends.get(piece)!) {
      if (isJoined(piece, end.at)) continue;
      for (const other of near(grown({ min: end.at, max: end.at }, JOINT))) {
        const pair = pairOf(piece, other);
        if (other === piece || known.has(pair) || !mayJoin(piece, other)) continue;
        if (!meets(end, other, ends.get(other)!)) continue;
        known.add(pair);
        joints.push({ pieces: [piece, other], at: end.at, from: 'touching', flow: null });
      }
    }
  return joints;
}

/** By GlobalIds of ports, which hold within one file. */
function portJoints(pieces: readonly Piece[]): PieceJoint[] {
  const owner = new Map<string, { readonly piece: Piece; readonly port: Port }>();
  for (const piece of pieces)
    for (const port of piece.element.ports) owner.set(`${piece.element.model}/${port.globalId}`, { piece, port });
  const order = new Map(pieces.map((piece, i) => [piece, i]));
  return pieces.flatMap((piece) =>
    piece.element.ports.flatMap((port): PieceJoint[] => {
      const other =
        port.connectedTo === undefined ? undefined : owner.get(`${piece.element.model}/${port.connectedTo}`);
      // Both ports name each other; the first of the two pieces speaks.
      return other && order.get(piece)! < order.get(other.piece)!
        ? [{ pieces: [piece, other.piece], at: port.at, from: 'ports', flow: flowThrough(port, other.port) }]
        : [];
    }),
  );
}

/** One side is enough; two that contradict each other say nothing. */
function flowThrough({ flow: first }: Port, { flow: second }: Port): Joint['flow'] {
  if (first === second) return null;
  return first === 'out' || second === 'in' ? 'forward' : 'backward';
}

/** Ducts of two systems that touch are in each other's way, not joined. */
const mayJoin = ({ element: a }: Piece, { element: b }: Piece): boolean =>
  a.system === undefined || b.system === undefined || a.system === b.system;

function endsOf(piece: Piece): End[] {
  const { straight, element, otherReadings } = piece;
  // A terminal is as wide as it is long, so any side of it may be the one that is joined.
  const readings = straight ? [straight] : element.kind === 'terminal' ? otherReadings.map((one) => one.straight) : [];
  const axes = readings.flatMap((one): End[] =>
    one
      ? [
          { piece, at: one.axis[0], out: negate(one.direction), face: undefined },
          { piece, at: one.axis[1], out: one.direction, face: undefined },
        ]
      : [],
  );
  const along =
    axes.length > 0
      ? axes
      : endFacesOf(piece.bodies).map((face): End => ({ piece, at: face.centre, out: face.normal, face }));
  const ports = element.ports
    .filter((port) => along.every((end) => distance(end.at, port.at) > JOINT))
    .map((port): End => ({ piece, at: port.at, out: undefined, face: undefined }));
  return [...along, ...ports];
}

function meets(end: End, other: Piece, ends: readonly End[]): boolean {
  const opposite = ends.find((one) => distance(one.at, end.at) <= JOINT && areOpposite(one, end));
  if (opposite) return !end.face || !opposite.face || areAlike(end.face, opposite.face);
  // A fitting's faces may be its flat sides, so only an end that lies on an end joins it; a terminal sits on a duct's side.
  if ((end.face && end.piece.element.kind !== 'terminal') || !end.out) return false;
  return opensInto(end.at, end.out, other);
}

function areOpposite(a: End, b: End): boolean {
  if (!a.out || !b.out) return true;
  return dot(a.out, b.out) < 0 && lineAngle(a.out, b.out) <= FACING_ANGLE;
}

/** Sizes of two faces that are to be one joint may differ by so much of themselves. */
const ALIKE = 0.1;

const areAlike = (a: EndFace, b: EndFace): boolean =>
  Math.abs(a.length - b.length) <= ALIKE * Math.max(a.length, b.length) &&
  Math.abs(a.breadth - b.breadth) <= ALIKE * Math.max(a.breadth, b.breadth);

/** Just beyond the end the other piece's outline is all round: a branch on a main, a duct into a box. */
function opensInto(at: Vec3, out: Vec3, { straight, bodies, box }: Piece): boolean {
  return [CONTACT, JOINT].some((depth) => {
    const beyond = add(at, scale(out, depth));
    if (!boxesMeet({ min: beyond, max: beyond }, box)) return false;
    if (straight) {
      const [from, to] = straight.axis;
      const along = dot(sub(beyond, from), straight.direction);
      return along >= 0 && along <= distance(from, to) && contains(straight.outline, toPlane(straight.plane, beyond));
    }
    return cutBodies(bodies, frameAlong(beyond, out, [0, 0, 1])).outers.some((outline) => contains(outline, [0, 0]));
  });
}
