/** What stands wholly beside the local build-up of a penetration and in its way: the checks of its faces speak of that. */
import { dot, sub } from '../geometry/vector.js';
import type { Clearance, Penetration } from '../model.js';
import type { FactObject } from './fact-schema.js';
import { numberOf } from './read-fact.js';

export function isJudgedAtFace(
  { at, length, distance, obstacle }: Clearance,
  { position, frame, barrier, faces }: Penetration,
  system: FactObject,
): boolean {
  const buildUp = numberOf({ system }, 'system.localBuildUp');
  const thickness = numberOf({ system }, 'system.buildUpThickness');
  if (
    buildUp === undefined ||
    thickness === undefined ||
    distance >= thickness ||
    length === null ||
    barrier.thickness === null
  )
    return false;
  const before = Math.abs(dot(sub(at, position), frame.normal)) - barrier.thickness / 2;
  const isNamed = faces.some((face) =>
    face?.obstacles.some(({ model, globalId }) => model === obstacle.model && globalId === obstacle.globalId),
  );
  return isNamed && before + length / 2 <= buildUp;
}
