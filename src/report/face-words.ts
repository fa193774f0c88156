/** How the room at the faces of a barrier is told in papers. */
import type { BarrierKind } from '../model.js';
import { faceName } from '../words/faces.js';
import { number } from '../words/text.js';
import type { ReportPenetration } from './schema.js';

/** What reviews and reports both have of them. */
type Faces = Pick<ReportPenetration, 'faces'>;
type Face = NonNullable<Faces['faces'][number]>;

export const FACE_HEADINGS = ['Face', 'Top', 'Bottom', 'Left', 'Right', 'In line', 'Next joint'] as const;

/** A row for each face that was measured, under {@link FACE_HEADINGS}; lengths in mm. */
export function faceRows({ faces, barrier }: Faces & { readonly barrier: { readonly kind: BarrierKind } }): string[][] {
  return faces.flatMap((face, i) =>
    face
      ? [
          [
            `${faceName(barrier.kind, i === 0 ? -1 : 1, face).replace(/^the /, '')}${shaftWords(face)}`,
            ...(['top', 'bottom', 'left', 'right'] as const).map((side) => nearestWords(face, side)),
            nearestWords(face, null),
            jointWords(face),
          ],
        ]
      : [],
  );
}

function shaftWords({ shaft, roomWidth }: Face): string {
  if (shaft === null) return ', not known whether a shaft';
  return shaft ? `, a shaft${roomWidth === null ? '' : ` ${number(roomWidth)} wide`}` : '';
}

/** In line it is the depth before the face that counts. */
function nearestWords({ obstacles }: Face, side: Face['obstacles'][number]['side']): string {
  const there = obstacles.filter((one) => one.side === side);
  const told = there.map(({ name, globalId, distance, clear }) => {
    const depth = clear.find(([, width]) => side !== null || width <= 0)?.[0] ?? 0;
    const far = side === null ? number(depth) : number(distance);
    const from = side === null || depth === 0 ? '' : `, from ${number(depth)} on`;
    return `${far} (${name || globalId}${from})`;
  });
  return told.length === 0 ? 'free' : told.join('; ');
}

const jointWords = ({ joint }: Face): string =>
  joint ? `${number(joint.distance)} (${joint.to ? joint.to.name || joint.to.globalId : 'an end'})` : 'not known';

/** The nearest thing beside the duct; null where the face was not measured, or nothing is within reach. */
export function nearestBeside(face: Face | null): number | null {
  const distances = (face?.obstacles ?? []).map(({ distance }) => distance);
  return distances.length === 0 ? null : Math.min(...distances);
}
