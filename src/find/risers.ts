/** Upright ductwork that passes floors or roofs. */

import { compareTexts } from '../collect.js';
import { refsOf } from '../element-refs.js';
import { lineAngle, sub, Z } from '../geometry/vector.js';
import { groupsJoined } from '../joined.js';
import type { AirElement, Federation, Riser, Vec3 } from '../model.js';
import { STEEP } from '../tolerances.js';
import type { CutPieces } from './cut-pieces.js';
import { world } from './describe.js';
import type { PieceJoint } from './joints.js';
import type { Piece } from './pieces.js';

interface Surroundings {
  readonly federation: Federation;
  readonly cut: CutPieces;
  readonly floorsOf: ReadonlyMap<AirElement, readonly string[]>;
}

/** In the order of their first elements. */
export function risersOf(
  run: readonly Piece[],
  joints: readonly PieceJoint[],
  { federation, cut, floorsOf }: Surroundings,
): Riser[] {
  const endsOf = (piece: Piece): readonly Vec3[] => cut.of(piece).flatMap(({ ends }) => ends);
  const isUpright = (piece: Piece): boolean => {
    const [foot, head] = lowestAndHighest(endsOf(piece));
    return lineAngle(sub(head, foot), Z) < STEEP;
  };
  return groupsJoined(
    run.filter(isUpright),
    joints.map((joint) => joint.pieces),
  )
    .map((pieces) => {
      const [foot, head] = lowestAndHighest(pieces.flatMap(endsOf));
      return {
        elements: refsOf(pieces.map(({ element }) => element)),
        penetrations: [...new Set(pieces.flatMap((piece) => floorsOf.get(piece.element) ?? []))].sort(),
        from: world(federation, foot)[2],
        to: world(federation, head)[2],
      };
    })
    .filter(({ penetrations }) => penetrations.length > 0)
    .sort((a, b) => compareTexts(a.elements[0]!.globalId, b.elements[0]!.globalId));
}

function lowestAndHighest(places: readonly Vec3[]): readonly [Vec3, Vec3] {
  const sorted = [...places].sort((a, b) => a[2] - b[2]);
  return [sorted[0]!, sorted.at(-1)!];
}
