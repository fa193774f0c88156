/** Whether people get at the face of a barrier: by what it looks into, and by what stands before it. */
import type { FaceFacts, FaceObstacle } from '../model.js';
import { FACE_DEPTH } from '../tolerances.js';
import type { BriefChoices } from './project-brief.js';

export type RoomChoice = NonNullable<BriefChoices['room']>;

export interface Reach {
  /** undefined: it can't be told. */
  readonly isReached: boolean | undefined;
  /** Why not, in words. */
  readonly because: string | undefined;
}

/** Free depth straight before the face, along the duct, and what ends it; 1 m where nothing is so near. */
export function depthBefore({ obstacles }: FaceFacts): {
  readonly depth: number;
  readonly by: FaceObstacle | undefined;
} {
  let nearest: { depth: number; by: FaceObstacle | undefined } = { depth: FACE_DEPTH, by: undefined };
  for (const by of obstacles) {
    const met = by.clear.find(([, width]) => width <= 0);
    if (met && met[0] < nearest.depth) nearest = { depth: met[0], by };
  }
  return nearest;
}

/** Only what is known to be a room that people enter is reached. */
export function reachOf(face: FaceFacts, room: RoomChoice | undefined): Reach {
  const { depth, by } = depthBefore(face);
  if (room?.hands !== undefined && by && depth < room.hands)
    return { isReached: false, because: `${nameOf(by)} leaves ${depth} mm before it` };
  if (face.shaft === true) {
    const isEntered = entersShaft(face.room, room?.shaftsEntered);
    return {
      isReached: isEntered,
      because: isEntered === false ? `nobody enters ${face.room ?? 'the shaft'}` : undefined,
    };
  }
  const isRoom = face.shaft === false || room?.shaftsNamed === true;
  return { isReached: isRoom ? true : undefined, because: undefined };
}

function entersShaft(name: string | null, entered: RoomChoice['shaftsEntered']): boolean | undefined {
  if (entered === undefined || typeof entered === 'boolean') return entered;
  return name !== null && entered.some((word) => name.toLowerCase().includes(word.toLowerCase()));
}

/** Both, where each is reached; not both, where one is known not to be. */
export function bothReached(faces: readonly (FaceFacts | null)[], room: RoomChoice | undefined): boolean | undefined {
  const reached = faces.map((face) => (face ? reachOf(face, room).isReached : undefined));
  if (reached.includes(false)) return false;
  return reached.includes(undefined) ? undefined : true;
}

export const nameOf = ({ name, globalId }: FaceObstacle): string => name || globalId;
