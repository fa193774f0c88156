/** A penetration as the model region stands before it: its planes and outlines in the geometry's own frame. */
import { fromPlane, toPlane } from '../../src/geometry/frame.js';
import { bounds } from '../../src/geometry/polygon.js';
import { add, dot, scale, sub } from '../../src/geometry/vector.js';
import type { Frame, Polygon, Vec2, Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { Side } from '../state/state.js';

/** Where the thickness is not known a wall of common size is assumed: it only shapes the picture. */
const ASSUMED_THICKNESS = 200;

export interface Place {
  /** Origin in the barrier's middle; x to the right and y up as one sees face A, z the way that one looks. Inner mm. */
  readonly frame: Frame;
  readonly thickness: number;
  readonly duct: readonly Polygon[];
  readonly opening: readonly Polygon[];
  /** How far the duct moves along x and y for each mm along z. */
  readonly slope: Vec2;
  /** Of duct and opening together, in x and y. */
  readonly rim: { readonly min: Vec2; readonly max: Vec2 };
}

export function placeOf({ position, frame, barrier, outlines, duct }: ReportPenetration, origin: Vec3): Place {
  const all = [...outlines.duct, ...outlines.opening];
  return {
    frame: { origin: sub(position, origin), x: frame.right, y: frame.up, z: frame.normal },
    thickness: barrier.thickness ?? barrier.drawnThickness ?? ASSUMED_THICKNESS,
    duct: outlines.duct,
    opening: outlines.opening,
    slope: slopeOf(duct.axis, frame),
    rim: all.length > 0 ? bounds(all) : { min: [-HALF, -HALF], max: [HALF, HALF] },
  };
}
/** mm, of a penetration without any outline. */
const HALF = 250;

function slopeOf(axis: ReportPenetration['duct']['axis'], { normal, right, up }: ReportPenetration['frame']): Vec2 {
  if (!axis) return [0, 0];
  const along = sub(axis[1], axis[0]);
  const advance = dot(along, normal);
  // Of a duct that runs nearly within the barrier no rim can be told.
  return Math.abs(advance) < 0.2 * Math.hypot(...along)
    ? [0, 0]
    : [dot(along, right) / advance, dot(along, up) / advance];
}

/** Of the face that one stands before, outwards: against the normal for side A. */
export const outwards = ({ frame }: Place, side: Side): Vec3 => scale(frame.z, side === 'A' ? -1 : 1);

/** On the face, or `before` mm out of it. @param p in the frame's plane */
export function onFace(place: Place, side: Side, p: Vec2, before = 0): Vec3 {
  return add(fromPlane(place.frame, p), scale(outwards(place, side), place.thickness / 2 + before));
}

/** The duct's outline where it passes the face. */
export function ductOnFace(place: Place, side: Side): Polygon[] {
  const depth = (side === 'A' ? -1 : 1) * (place.thickness / 2);
  return place.duct.map((outline) =>
    outline.map(([x, y]): Vec2 => [x + place.slope[0] * depth, y + place.slope[1] * depth]),
  );
}

export const middleOfRim = ({ rim: { min, max } }: Place): Vec2 => [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];

/** Of a barrier by all that passes it: the place of the first, with a rim round them all. */
export function placeOfBarrier(penetrations: readonly ReportPenetration[], origin: Vec3): Place | undefined {
  const places = penetrations.map((p) => placeOf(p, origin));
  const [first] = places;
  if (!first) return undefined;
  const corners = places.flatMap(({ frame, rim }) => {
    const moved = toPlane(first.frame, frame.origin);
    return [rim.min, rim.max].map(([x, y]): Vec2 => [x + moved[0], y + moved[1]]);
  });
  return { ...first, duct: [], opening: [], rim: bounds([corners]) };
}
