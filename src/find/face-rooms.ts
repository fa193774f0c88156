/** What the two faces of a barrier look into: which room, which way, and whether it is a shaft. */
import { bounds, convexHull } from '../geometry/polygon.js';
import { add, cross2, length2, scale, sub2 } from '../geometry/vector.js';
import type { Compartment, FaceFacts, Federation, Place, Polygon, Space, Vec2, Vec3 } from '../model.js';
import { ROOM_PROBE } from '../tolerances.js';
import { compass } from '../words/compass.js';
import type { Compartments, Side } from './compartments.js';
import { roundLength } from './rounding.js';
import { footprintOf } from './zoned.js';

type RoomBefore = Pick<FaceFacts, 'towards' | 'room' | 'shaft' | 'roomWidth'>;
export type FaceRooms = (at: Side, rooms: Place['rooms']) => readonly [RoomBefore, RoomBefore];

export function faceRooms({ spaces = [] }: Federation, compartments: Compartments): FaceRooms {
  const spaceOf = new Map(spaces.map((space) => [`${space.model}/${space.globalId}`, space]));
  const compartmentOf = new Map(compartments.all.map((one) => [one.id, one]));
  const widths = new Map<Space | Compartment, number | null>();
  const widthOf = (room: Space | Compartment, outlines: () => readonly Polygon[]): number | null => {
    if (!widths.has(room)) widths.set(room, narrowest(outlines()));
    return widths.get(room)!;
  };
  return (at, rooms) => {
    const ids = compartments.beside(at);
    const before = (sign: 1 | -1, i: 0 | 1): RoomBefore => {
      const room = rooms[i];
      const space = room && spaceOf.get(`${room.model}/${room.globalId}`);
      const compartment = compartmentOf.get(ids[i] ?? '');
      const probe = add(at.position, scale(at.normal, sign * (at.thickness / 2 + ROOM_PROBE)));
      const isOpen = !space && !compartment && compartments.at(probe).outside === true;
      return {
        towards: wayOf(scale(at.normal, sign)),
        room: room?.name ?? compartment?.name ?? null,
        shaft: isOpen ? false : (space?.shaft ?? compartment?.shaft ?? null),
        roomWidth: space
          ? widthOf(space, () => footprintOf(space.bodies).outlines)
          : compartment
            ? widthOf(compartment, () => compartment.outlines)
            : null,
      };
    };
    return [before(-1, 0), before(1, 1)];
  };
}

/** Between parallel lines that hold it: of a convex outline along one of its edges. */
function narrowest(outlines: readonly Polygon[]): number | null {
  const points = outlines.flat();
  if (points.length < 3) return null;
  const { min } = bounds([points]);
  // About its own corner, so that large coordinates cost no digits.
  const hull = convexHull(points.map((p): Vec2 => sub2(p, min)));
  const breadths = hull.map((p, i) => {
    const along = sub2(hull[(i + 1) % hull.length]!, p);
    return Math.max(...hull.map((q) => Math.abs(cross2(along, sub2(q, p))))) / length2(along);
  });
  return roundLength(Math.min(...breadths));
}

function wayOf(way: Vec3): string {
  const [, , z] = way;
  return Math.abs(z) > Math.SQRT1_2 ? (z > 0 ? 'above' : 'below') : compass(way);
}
