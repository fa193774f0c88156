/** How near to a barrier the ductwork that passes it is joined: flanges are seldom drawn, but they are where pieces end. */
import { dot, sub } from '../geometry/vector.js';
import type { JointEvidence, Vec3 } from '../model.js';
import { JOINT } from '../tolerances.js';
import type { JointsOf } from './joints.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

export interface NearestJoint {
  /** Clear distance from the nearer face, mm; negative inside the barrier. */
  readonly distance: number;
  /** The best of what shows a joint there. */
  readonly from: JointEvidence;
}

interface Place {
  readonly at: Vec3;
  readonly from: JointEvidence;
}

const BEST_FIRST: readonly JointEvidence[] = ['ports', 'touching', 'end'];

/** The nearest end, port or branch of the pieces. Undefined where the ends of one of them are not known. */
export function nearestJoint(
  pieces: readonly Piece[],
  jointsOf: JointsOf,
  { frame, thickness }: Plate,
): NearestJoint | undefined {
  const places = pieces.map(({ straight, element }): Place[] => [
    ...(straight?.axis ?? []).map((at) => ({ at, from: 'end' as const })),
    ...element.ports.map(({ at }) => ({ at, from: 'ports' as const })),
    ...(jointsOf.get(element) ?? []),
  ]);
  if (places.some((own) => own.length < 2)) return undefined;
  const heights = places.flat().map(({ at, from }) => ({ from, height: dot(sub(at, frame.origin), frame.z) }));
  const nearest = heights.reduce((best, one) => (Math.abs(one.height) < Math.abs(best.height) ? one : best));
  // An end, its port and the joint with what comes next are one place, drawn up to a gasket apart.
  const there = heights.filter(({ height }) => Math.abs(height - nearest.height) <= JOINT);
  return {
    distance: Math.abs(nearest.height) - thickness / 2,
    from: BEST_FIRST.find((one) => there.some(({ from }) => from === one))!,
  };
}
