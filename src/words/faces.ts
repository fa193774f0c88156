/** How the faces of barriers are called. */
import type { BarrierKind, FaceFacts } from '../model.js';

/** `the north face (G.SH Shaft)`, `the underside`. @param face null: not measured */
export function faceName(kind: BarrierKind, sign: 1 | -1, face: Pick<FaceFacts, 'towards' | 'room'> | null): string {
  if (!face) return sign > 0 ? 'the face behind' : 'the face before';
  const room = face.room ? ` (${face.room})` : '';
  const isLevel = kind !== 'wall' && (face.towards === 'above' || face.towards === 'below');
  if (!isLevel) return `the ${face.towards} face${room}`;
  return `${face.towards === 'above' ? 'the upper face' : 'the underside'}${room}`;
}
