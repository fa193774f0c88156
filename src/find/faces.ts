/**
 * What lies before each face of a barrier round a duct that passes it: room for what is built there, the next joint of
 * the ductwork, and whether people get there at all.
 */
import { type Clear, clearWidth } from '../clear-width.js';
import { nameOf, refOf } from '../element-refs.js';
import { boxOfPoints, grown } from '../geometry/box.js';
import { raised } from '../geometry/frame.js';
import { prismMesh } from '../geometry/loft.js';
import { bounds } from '../geometry/polygon.js';
import {
  clearance,
  clipDepth,
  type Facet,
  type Ring,
  rankedFacets,
  ringRound,
  withoutLevelPoints,
} from '../geometry/ring.js';
import { cutBodies, extent } from '../geometry/section.js';
import { dot, scale, sub } from '../geometry/vector.js';
import type {
  AirElement,
  Body,
  ElementRef,
  FaceFacts,
  FaceObstacle,
  Frame,
  Penetration,
  Place,
  Side,
  Vec2,
  Vec3,
} from '../model.js';
import { CONTACT, FACE_DEPTH, FACE_INSET, FACE_RING, LEAF_DISTANCE } from '../tolerances.js';
import type { Crossed } from './crossed.js';
import type { FaceRooms } from './face-rooms.js';
import { type JointsOf, joinedWith } from './joints.js';
import { piecesOf } from './leaves.js';
import { jointsBefore, type NearestJoint } from './nearest-joint.js';
import type { Standing, StandingIn } from './obstacles.js';
import type { Piece } from './pieces.js';
import type { Plate } from './plates.js';
import { roundLength } from './rounding.js';

export interface FaceContext {
  readonly standingIn: StandingIn;
  readonly jointsOf: JointsOf;
  readonly roomsBeside: FaceRooms;
}

type Faces = Penetration['faces'];

/** Against the normal, along it; null where the duct does not come out of the face, or its outline there is not known. */
export function facesOf({ stack, measured }: Crossed, rooms: Place['rooms'], context: FaceContext): Faces {
  if (stack.leaves[0].group.crossing !== 'through') return [null, null];
  const { plate } = stack;
  const pieces = piecesOf(stack);
  const own = ownElements(
    stack.leaves.map(({ group }) => group.gross.barrier),
    pieces,
    context.jointsOf,
  );
  const joints = jointsBefore(pieces, context.jointsOf, plate);
  const at = { position: measured.position, normal: plate.frame.z, thickness: plate.thickness };
  const beside = context.roomsBeside(at, rooms);
  const direction = measured.primary.straight?.direction ?? plate.frame.z;
  const face = (sign: 1 | -1, i: 0 | 1): FaceFacts | null => {
    const before = faceFrame(plate, sign, direction);
    const outlines = cutBodies(
      pieces.flatMap((piece) => piece.wall.bodies),
      raised(plate.frame, sign * (plate.thickness / 2 - FACE_INSET)),
    ).outers;
    if (outlines.length === 0) return null;
    const obstacles = obstaclesBefore(before, ringRound(outlines), bounds(outlines), own, context.standingIn);
    return { joint: jointFacts(joints[i]), obstacles, ...beside[i] };
  };
  return [face(-1, 0), face(1, 1)];
}

/** The barrier, the crossing itself, what that is joined with, and what is joined with a fitting that it is joined with. */
function ownElements(
  barriers: readonly ElementRef[],
  pieces: readonly Piece[],
  jointsOf: JointsOf,
): ReadonlySet<string> {
  const next = pieces.flatMap((piece) => joinedWith(piece, jointsOf));
  const turned = next
    .filter(({ element }) => element.kind !== 'segment')
    .flatMap((piece) => joinedWith(piece, jointsOf));
  return new Set([...barriers, ...[...pieces, ...next, ...turned].map(({ element }) => element)].map(nameOf));
}

const jointFacts = (joint: NearestJoint | undefined): FaceFacts['joint'] =>
  joint
    ? {
        distance: roundLength(joint.distance),
        from: joint.from,
        to: joint.to ? nextFacts(joint.to.element) : null,
      }
    : null;

const nextFacts = (element: AirElement) => ({ ...refOf(element), name: element.name, element: element.kind });

/** Where things stand before a face: x and y in its plane about the duct, which may lean, and z the depth before it. */
interface FaceFrame {
  readonly frame: Frame;
  readonly sign: 1 | -1;
  /** How far the duct goes aside for each mm of depth. */
  readonly lean: Vec2;
}

function faceFrame({ frame, thickness }: Plate, sign: 1 | -1, direction: Vec3): FaceFrame {
  const outwards = dot(direction, frame.z) * sign;
  const lean: Vec2 = [dot(direction, frame.x) / outwards, dot(direction, frame.y) / outwards];
  return { frame: raised(frame, (sign * thickness) / 2), sign, lean };
}

function inFace({ frame, sign, lean }: FaceFrame, p: Vec3): Vec3 {
  const d = sub(p, frame.origin);
  const depth = dot(d, frame.z) * sign;
  return [dot(d, frame.x) - depth * lean[0], dot(d, frame.y) - depth * lean[1], depth];
}

function fromFace({ frame, sign, lean }: FaceFrame, [x, y, depth]: Vec3): Vec3 {
  const [u, v, s] = [x + depth * lean[0], y + depth * lean[1], depth * sign];
  const on = (i: 0 | 1 | 2) => frame.origin[i] + frame.x[i] * u + frame.y[i] * v + frame.z[i] * s;
  return [on(0), on(1), on(2)];
}

function obstaclesBefore(
  before: FaceFrame,
  ring: Ring,
  outline: { readonly min: Vec2; readonly max: Vec2 },
  own: ReadonlySet<string>,
  standingIn: StandingIn,
): FaceObstacle[] {
  // Sharp corners reach further out than the sides.
  const reach = 2 * FACE_RING;
  const near = {
    min: [outline.min[0] - reach, outline.min[1] - reach] as const,
    max: [outline.max[0] + reach, outline.max[1] + reach] as const,
  };
  const corners = [near.min, near.max, [near.min[0], near.max[1]], [near.max[0], near.min[1]]] as const;
  const box = boxOfPoints(corners.flatMap(([x, y]) => [0, FACE_DEPTH].map((z) => fromFace(before, [x, y, z]))));
  const found = standingIn(grown(box, CONTACT)).flatMap((one): FaceObstacle[] => {
    if (own.has(nameOf(one.ref)) || one.piece?.element.isAccessPanel || isLining(one, before)) return [];
    const facets = facetsOf(one.bodies, before).filter((facet) => liesIn(facet, near));
    const ranked = rankedFacets(ring, facets);
    const clear = clearance(ring, ranked, { nearest: FACE_INSET, furthest: FACE_DEPTH, reach: FACE_RING });
    return clear.length > 0 ? [obstacleOf(one, clear, ranked[0]!.towards)] : [];
  });
  return found.filter((one) => !found.some((other) => other !== one && standsBefore(other, one)));
}

/** Surfaces of bodies between the face and as far as matters. What only touches the face is not before it. */
function facetsOf(bodies: readonly Body[], before: FaceFrame): Facet[] {
  return bodies.flatMap((body) => {
    const { positions, triangles } = body.kind === 'mesh' ? body : prismMesh(body);
    const points = Array.from({ length: positions.length / 3 }, (_, i) =>
      inFace(before, [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!]),
    );
    if (points.every(([, , depth]) => depth <= CONTACT)) return [];
    const facets: Facet[] = [];
    for (let t = 0; t < triangles.length; t += 3) {
      const triangle = [points[triangles[t]!]!, points[triangles[t + 1]!]!, points[triangles[t + 2]!]!];
      const part = clipDepth(clipDepth(triangle, 0, -1), FACE_DEPTH, 1);
      if (part.length > 0) facets.push(part);
    }
    return facets;
  });
}

function liesIn(facet: Facet, { min, max }: { readonly min: Vec2; readonly max: Vec2 }): boolean {
  return ([0, 1] as const).every(
    (axis) => facet.some((p) => p[axis] >= min[axis]) && facet.some((p) => p[axis] <= max[axis]),
  );
}

/** Boards on the face, drawn as coverings: the duct passes them with the barrier. */
function isLining({ kind, bodies }: Standing, { frame, sign }: FaceFrame): boolean {
  if (kind !== 'covering') return false;
  const [low, high] = extent(bodies, frame.origin, scale(frame.z, sign));
  return low <= CONTACT && high <= LEAF_DISTANCE;
}

function obstacleOf({ ref, name, what, kind }: Standing, clear: Clear, towards: Vec2): FaceObstacle {
  const distance = roundLength(clear.at(-1)![1]);
  return {
    ...ref,
    kind: what === 'duct' ? 'duct' : (kind as FaceObstacle['kind']),
    name,
    side: distance === 0 ? null : sideOf(towards),
    distance,
    clear: withoutLevelPoints(
      clear.map(([depth, width]) => [depth <= FACE_INSET ? 0 : roundLength(depth), roundLength(width)] as const),
    ),
  };
}

function sideOf([x, y]: Vec2): Side {
  if (Math.abs(x) > Math.abs(y)) return x > 0 ? 'right' : 'left';
  return y > 0 ? 'top' : 'bottom';
}

/** On the same side and, however deep one looks, no further off. */
function standsBefore(one: FaceObstacle, other: FaceObstacle): boolean {
  if (one.side !== other.side || one.clear[0]![0] > other.clear[0]![0]) return false;
  const isAsNear = other.clear.every(
    ([depth, width]) => (clearWidth(one.clear, depth + FACE_INSET) ?? Infinity) <= width,
  );
  const isSame = one.distance === other.distance && one.clear[0]![0] === other.clear[0]![0];
  return isAsNear && (!isSame || one.globalId < other.globalId);
}
