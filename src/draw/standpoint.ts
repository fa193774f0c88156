/** Where to stand to see a place: in front of the barrier, on the side from which most of it is free to be seen. */
import { fromPlane } from '../geometry/frame.js';
import { add, dot, scale, sub, unit, Z } from '../geometry/vector.js';
import type { Side, Vec3 } from '../model.js';
import type { Box3, Scene, SceneElement } from '../scene/scene.js';
import { type Camera, type CutPlane, cameraAt, HORIZONTAL_TANGENT, VERTICAL_TANGENT } from './camera.js';
import { isOneOf, type Place, rimBox } from './place.js';

export interface Standpoint {
  readonly camera: Camera;
  readonly planes: readonly CutPlane[];
  /** Of the barrier: 1 where the eye is on the side that its normal points to, else -1. */
  readonly facing: 1 | -1;
}

/** Barrier that is seen above and below the opening, mm; to its sides it is more. */
const SEEN_AROUND = 750;
/** Degrees to the side and above: far enough that depth shows, near enough that the opening is seen into. */
const TO_THE_SIDE = 20;
const ABOVE = 14;
const ABOVE_A_FLOOR = 26;
/** A duct is cut off this far before the face, as a share of its size, and in mm. */
const STUB_SHARE = 0.35;
const [SHORTEST_STUB, LONGEST_STUB] = [150, 300];

/** @param side which the finding is about: the eye stands where the duct does not hide it */
export function standpointFor(place: Place, scene: Scene, side: Side | null): Standpoint {
  const around = scene.elements.filter(
    (element) => element.kind !== 'opening' && !isOneOf(element, place.barriers) && !isOneOf(element, place.ducts),
  );
  let best: { standpoint: Standpoint; hidden: number } | undefined;
  for (const facing of [1, -1] as const)
    for (const aside of side === 'left' ? [-1] : side === 'right' ? [1] : [1, -1]) {
      const standpoint = standingAt(place, facing, aside, side === 'bottom' ? -1 : 1);
      const hidden = hiddenPoints(place, standpoint, around);
      if (!best || hidden < best.hidden) best = { standpoint, hidden };
    }
  return best!.standpoint;
}

function standingAt(place: Place, facing: 1 | -1, aside: number, above: number): Standpoint {
  const { frame, thickness } = place;
  const { centre, half } = rimBox(place);
  const outwards = scale(frame.z, facing);
  const target = add(fromPlane(frame, centre), scale(outwards, thickness / 2));
  const isFloor = Math.abs(dot(frame.z, Z)) > Math.SQRT1_2;
  const [turn, lift] = [(TO_THE_SIDE * Math.PI) / 180, ((isFloor ? ABOVE_A_FLOOR : ABOVE) * Math.PI) / 180];
  // On plan nobody is above: the eye then stands back towards the foot of the drawing, so that its top stays up.
  const raise = (isFloor ? -1 : 1) * above;
  const back = unit(
    add(
      scale(outwards, Math.cos(turn) * Math.cos(lift)),
      add(scale(frame.x, aside * Math.sin(turn) * Math.cos(lift)), scale(frame.y, raise * Math.sin(lift))),
    ),
  );
  const distance = Math.max((half[0] + SEEN_AROUND) / HORIZONTAL_TANGENT, (half[1] + SEEN_AROUND) / VERTICAL_TANGENT);
  const eye = add(target, scale(back, distance));
  const stub = Math.min(LONGEST_STUB, Math.max(SHORTEST_STUB, STUB_SHARE * 2 * Math.max(...half)));
  return {
    camera: cameraAt(eye, scale(back, -1), isFloor ? frame.y : Z),
    planes: [{ at: add(target, scale(outwards, stub)), direction: outwards }],
    facing,
  };
}

/** Of a grid of points round the opening, how many other elements hide. Their boxes stand for them. */
function hiddenPoints(place: Place, { camera, facing }: Standpoint, others: readonly SceneElement[]): number {
  const { frame, thickness } = place;
  const { centre, half } = rimBox(place);
  let hidden = 0;
  for (let i = -2; i <= 2; i++)
    for (let j = -2; j <= 2; j++) {
      const at = [centre[0] + (i / 2) * (half[0] + 500), centre[1] + (j / 2) * (half[1] + 500)] as const;
      const point = add(fromPlane(frame, at), scale(frame.z, facing * (thickness / 2 + 1)));
      if (others.some(({ box }) => passes(camera.eye, point, box))) hidden++;
    }
  return hidden;
}

/** Does the line from one point to the other pass the box? */
function passes(from: Vec3, to: Vec3, { min, max }: Box3): boolean {
  const along = sub(to, from);
  let [first, last] = [0, 1];
  for (let axis = 0; axis < 3; axis++) {
    const a = (min[axis]! - from[axis]!) / along[axis]!;
    const b = (max[axis]! - from[axis]!) / along[axis]!;
    if (along[axis] === 0) {
      if (from[axis]! < min[axis]! || from[axis]! > max[axis]!) return false;
      continue;
    }
    first = Math.max(first, Math.min(a, b));
    last = Math.min(last, Math.max(a, b));
  }
  return first <= last;
}
