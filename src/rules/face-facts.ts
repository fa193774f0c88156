/** The facts of each face of a barrier that a duct passes: what is built there against the room that there is. */
import { clearWidth } from '../clear-width.js';
import type { FaceFacts, FaceObstacle, Penetration } from '../model.js';
import { FACE_DEPTH, FACE_RING } from '../tolerances.js';
import { faceName } from '../words/faces.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import { depthBefore, nameOf, type Reach, type RoomChoice, reachOf } from './reach.js';
import { numberOf } from './read-fact.js';

/** 1: the face that the normal goes to; -1: the one that it comes from. */
export interface Face {
  readonly sign: 1 | -1;
  readonly facts: FactObject;
}

/** @param system what the tested system asks for here */
export function faceFacts(penetration: Penetration, system: FactObject, room: RoomChoice | undefined): Face[] {
  const faces = penetration.faces.map((face, i) => {
    const reach: Reach = face ? reachOf(face, room) : { isReached: undefined, because: undefined };
    return { sign: i === 0 ? (-1 as const) : (1 as const), face, reach, taken: roomAt(face, system) };
  });
  const misses = ({ face, taken }: (typeof faces)[number]): number =>
    [
      [face?.joint?.distance, system.localBuildUp],
      [taken.collarRoom, system.collarWidth],
      [taken.buildUpRoom, system.buildUpThickness],
    ].filter(([is, asked]) => !(typeof is === 'number' && typeof asked === 'number' && is >= asked)).length;
  // What is built from one face is built from the one that is best reached, then from the one with room.
  const order = (one: (typeof faces)[number]) =>
    (one.reach.isReached === true ? 0 : one.reach.isReached === false ? 20 : 10) + misses(one);
  const best = faces.reduce((a, b) => (order(b) < order(a) ? b : a));
  return faces.map((one) => {
    const { sign, face, reach, taken } = one;
    const before = face && depthBefore(face);
    return {
      sign,
      facts: known({
        name: faceName(penetration.barrier.kind, sign, face),
        needed: system.facesNeeded !== 1 || one === best,
        joint: face?.joint?.distance,
        jointFrom: face?.joint?.from,
        jointTo: face?.joint && (face.joint.to ? face.joint.to.name || face.joint.to.globalId : 'its end'),
        ...taken,
        obstructed: before && before.by !== undefined,
        freeDepth: before?.depth,
        freeDepthBy: before?.by && nameOf(before.by),
        entered: face?.shaft === true && reach.isReached === true,
        room: face?.room,
        roomWidth: face?.roomWidth,
        reached: reach.isReached,
        because: reach.because,
      }),
    };
  });
}

/**
 * Rings that stay clear over the depth of what is built, and what ends them; 500 mm where nothing is so near. Where it is not
 * known how deep, it is not known how wide either, and any depth will do.
 */
function roomAt(face: FaceFacts | null, system: FactObject) {
  const ring = (depth: number | undefined) => {
    if (!face) return undefined;
    let least: { width: number; by: FaceObstacle | undefined } = { width: FACE_RING, by: undefined };
    for (const by of face.obstacles) {
      const width = clearWidth(by.clear, depth ?? FACE_DEPTH) ?? FACE_RING;
      if (width < least.width) least = { width, by };
    }
    return least;
  };
  const collar = ring(numberOf({ system }, 'system.collarDepth'));
  const buildUp = ring(numberOf({ system }, 'system.localBuildUp'));
  const damper = ring(numberOf({ system }, 'system.roomBefore'));
  const words = (by: FaceObstacle | undefined) =>
    by && `${nameOf(by)}, ${by.side === null ? 'in line with it' : by.side}`;
  return {
    collarRoom: collar?.width,
    collarRoomBy: words(collar?.by),
    buildUpRoom: buildUp?.width,
    buildUpRoomBy: words(buildUp?.by),
    damperRoom: damper?.width,
    damperRoomBy: words(damper?.by),
  };
}
