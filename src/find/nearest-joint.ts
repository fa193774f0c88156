/** How near to a barrier the ductwork that passes it is joined: flanges are seldom drawn, but they are where pieces end. */
import { dot, sub } from '../geometry/vector.js';
import type { Frame, JointEvidence, Vec3 } from '../model.js';
import { JOINT } from '../tolerances.js';
import type { JointsOf } from './joints.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';

export interface NearestJoint {
  /** Clear distance from the nearer face, mm; negative inside the barrier. */
  readonly distance: number;
  /** The best of what shows a joint there. */
  readonly from: JointEvidence;
  /** What comes next there, beyond the pieces of the crossing. */
  readonly to: Piece | undefined;
}

interface Place {
  readonly at: Vec3;
  readonly from: JointEvidence;
  /** What is joined there. */
  readonly to?: Piece | undefined;
}

const BEST_FIRST: readonly JointEvidence[] = ['ports', 'touching', 'end'];

/** The nearest end, port or branch of the pieces. Undefined where the ends of one of them are not known. */
export function nearestJoint(
  pieces: readonly Piece[],
  jointsOf: JointsOf,
  { frame, thickness }: Plate,
): NearestJoint | undefined {
  const heights = heightsOf(pieces, jointsOf, frame);
  return heights && nearestOf(heights, thickness);
}

/** The same on each side of the barrier's middle: against the normal, along it. */
export function jointsBefore(
  pieces: readonly Piece[],
  jointsOf: JointsOf,
  { frame, thickness }: Plate,
): readonly [NearestJoint | undefined, NearestJoint | undefined] {
  const heights = heightsOf(pieces, jointsOf, frame);
  if (!heights) return [undefined, undefined];
  const on = (sign: 1 | -1) => {
    const there = heights.filter(({ height }) => height * sign >= 0);
    return there.length > 0 ? nearestOf(there, thickness) : undefined;
  };
  return [on(-1), on(1)];
}

interface Height extends Place {
  readonly height: number;
}

/** Along the normal, from the middle of the barrier; undefined where the ends of a piece are not known. */
function heightsOf(pieces: readonly Piece[], jointsOf: JointsOf, frame: Frame): Height[] | undefined {
  const places = pieces.map(({ straight, element }): Place[] => [
    ...(straight?.axis ?? []).map((at) => ({ at, from: 'end' as const })),
    ...element.ports.map(({ at }) => ({ at, from: 'ports' as const })),
    ...(jointsOf.get(element) ?? []).map((joint) => ({
      at: joint.at,
      from: joint.from,
      to: joint.pieces.find((one) => !pieces.includes(one)),
    })),
  ]);
  if (places.some((own) => own.length < 2)) return undefined;
  return places.flat().map((place) => ({ ...place, height: dot(sub(place.at, frame.origin), frame.z) }));
}

function nearestOf(heights: readonly Height[], thickness: number): NearestJoint {
  const nearest = heights.reduce((best, one) => (Math.abs(one.height) < Math.abs(best.height) ? one : best));
  // An end, its port and the joint with what comes next are one place, drawn up to a gasket apart.
  const there = heights.filter(({ height }) => Math.abs(height - nearest.height) <= JOINT);
  return {
    distance: Math.abs(nearest.height) - thickness / 2,
    from: BEST_FIRST.find((one) => there.some(({ from }) => from === one))!,
    to: there.find(({ to }) => to !== undefined)?.to,
  };
}
