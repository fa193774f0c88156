/** How near to a barrier the ductwork that passes it is joined: flanges are seldom drawn, but they are where pieces end. */
import { dot, sub } from '../geometry/vector.js';
import type { AirElement } from '../model.js';
import type { PieceJoint } from './joints.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

/**
 * Clear distance from the nearer face to the nearest end, port or branch of the pieces, mm; negative inside the barrier.
 * Undefined where the ends of one of them are not known.
 */
export function nearestJoint(
  pieces: readonly Piece[],
  jointsOf: ReadonlyMap<AirElement, readonly PieceJoint[]>,
  { frame, thickness }: Plate,
): number | undefined {
  const places = pieces.map((piece) => [
    ...(piece.straight?.axis ?? []),
    ...piece.element.ports.map(({ at }) => at),
    ...(jointsOf.get(piece.element) ?? []).map(({ at }) => at),
  ]);
  if (places.some((own) => own.length < 2)) return undefined;
  const heights = places.flat().map((at) => Math.abs(dot(sub(at, frame.origin), frame.z)));
  return Math.min(...heights) - thickness / 2;
}
