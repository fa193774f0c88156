/** What a change moves, as arrows with millimetres at the face. */

import { nameOf } from '../../src/element-refs.js';
import { bounds } from '../../src/geometry/polygon.js';
import { add, length, perpendicularPart, scale } from '../../src/geometry/vector.js';
import type { Vec2, Vec3 } from '../../src/model.js';
import type { ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { quantity } from '../format.js';
import type { Side } from '../state/state.js';
import type { Dimension } from './overlay.js';
import { middleOfRim, onFace, type Place } from './place.js';

type Change = NonNullable<ReportFinding['change']>;

/** @param p the penetration that one stands before: what is changed elsewhere has no arrow here */
export function proposalArrows(change: Change, p: ReportPenetration, place: Place, side: Side): Dimension[] {
  switch (change.kind) {
    case 'several':
      return change.changes.flatMap((one) => proposalArrows(one, p, place, side));
    case 'moveDuct': {
      if (!change.elements.some((one) => nameOf(one) === nameOf(p.duct))) return [];
      const seen = perpendicularPart(change.by, place.frame.z);
      if (length(seen) < 0.05) return [];
      const middle = place.duct.length > 0 ? middleOfRim({ ...place, rim: bounds(place.duct) }) : middleOfRim(place);
      return [arrow(onFace(place, side, middle), seen)];
    }
    case 'changeOpening':
      return place.opening.length === 0 || change.penetration !== p.id ? [] : sideArrows(change.sides, place, side);
    default:
      return [];
  }
}

function sideArrows(
  sides: { readonly top: number; readonly bottom: number; readonly left: number; readonly right: number },
  place: Place,
  side: Side,
): Dimension[] {
  const { min, max } = bounds(place.opening);
  const [x, y] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const { x: right, y: up } = place.frame;
  const each: readonly (readonly [Vec2, Vec3, number])[] = [
    [[x, max[1]], up, sides.top],
    [[x, min[1]], scale(up, -1), sides.bottom],
    [[min[0], y], scale(right, -1), sides.left],
    [[max[0], y], right, sides.right],
  ];
  return each
    .filter(([, , by]) => by !== 0)
    .map(([at, outwards, by]) => arrow(onFace(place, side, at), scale(outwards, by)));
}

const arrow = (from: Vec3, by: Vec3): Dimension => ({
  kind: 'arrow',
  from,
  to: add(from, by),
  text: quantity(length(by), 'mm'),
});
