/** A barrier with all that passes it in the plane of its face: millimetres, x to the right and y upwards as seen from side A. */
import { compareNumbers, compareTexts } from '../../src/collect.js';
import { type Box2, bounds, boxCentre } from '../../src/geometry/polygon.js';
import { add, dot, scale, sub } from '../../src/geometry/vector.js';
import type { Polygon, Vec2, Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { BarrierFace } from '../../src/scene/geometry-extras.js';
import type { BuildingBarrier } from '../state/building.js';

export interface FlatPenetration {
  readonly penetration: ReportPenetration;
  /** Empty where the shape of the duct is not known. */
  readonly duct: readonly Polygon[];
  readonly opening: readonly Polygon[];
  /** From the penetration's own frame into the plane. */
  readonly laid: (q: Vec2) => Vec2;
  /** Middle of the duct. */
  readonly at: Vec2;
  readonly ductBox: Box2;
  /** Of duct and opening. */
  readonly box: Box2;
}

export interface FlatBarrier {
  readonly key: string;
  readonly isWall: boolean;
  /** False: no outline is known, and the barrier goes on to all sides. */
  readonly hasOutline: boolean;
  readonly outline: readonly Polygon[];
  readonly openings: readonly Polygon[];
  readonly services: readonly Polygon[];
  /** Of the outline. */
  readonly bounds: Box2;
  /** Of the storey that a wall stands on; null: not known, or not at its foot. */
  readonly floor: number | null;
  /** Underside of what is over a wall; null: not known. */
  readonly ceiling: number | null;
  /** From left to right. */
  readonly penetrations: readonly FlatPenetration[];
}

type Plane = Pick<BarrierFace, 'origin' | 'right' | 'up'>;

/** How far a barrier without an outline is taken to go on: further than anything is drawn. */
const ON = 1e5;
/** A floor further than this from the foot of a wall is another one. */
const FOOT = 500;
/** Half of what stands for a duct without a shape. */
const NO_SHAPE = 100;

export function flatBarrier({ key, kind, barrier, penetrations }: BuildingBarrier, face?: BarrierFace): FlatBarrier {
  const first = penetrations[0]!;
  const plane: Plane = face ?? { origin: first.position, right: first.frame.right, up: first.frame.up };
  const flat = penetrations.map((p) => flatPenetration(p, plane));
  flat.sort(
    (a, b) =>
      compareNumbers(a.at[0], b.at[0]) ||
      compareNumbers(b.at[1], a.at[1]) ||
      compareTexts(a.penetration.id, b.penetration.id),
  );
  const isWall = kind === 'wall';
  const outline = face && face.outline.length > 0 ? face.outline : endless(flat);
  const box = bounds(outline);
  const hasOutline = outline === face?.outline;
  const stands = isWall && hasOutline && plane.up[2] > 0.99;
  const floor = (barrier.storey?.elevation ?? Number.NaN) - plane.origin[2];
  return {
    ...{ key, isWall, hasOutline, outline, bounds: box, penetrations: flat },
    openings: face?.openings ?? [],
    services: face?.services ?? [],
    floor: stands && Math.abs(floor - box.min[1]) <= FOOT ? floor : null,
    ceiling: stands && barrier.head?.gap != null ? box.max[1] + barrier.head.gap : null,
  };
}

function flatPenetration(penetration: ReportPenetration, plane: Plane): FlatPenetration {
  const { position, frame, outlines } = penetration;
  const inPlane = (p: Vec3): Vec2 => {
    const from = sub(p, plane.origin);
    return [dot(from, plane.right), dot(from, plane.up)];
  };
  const laid = ([x, y]: Vec2): Vec2 => inPlane(add(position, add(scale(frame.right, x), scale(frame.up, y))));
  const duct = outlines.duct.map((outline) => outline.map(laid));
  const opening = outlines.opening.map((outline) => outline.map(laid));
  const [x, y] = inPlane(position);
  const shown: readonly Polygon[] =
    duct.length > 0
      ? duct
      : [
          [
            [x - NO_SHAPE, y - NO_SHAPE],
            [x + NO_SHAPE, y + NO_SHAPE],
          ],
        ];
  return {
    ...{ penetration, duct, opening, laid },
    at: boxCentre(shown),
    ductBox: bounds(shown),
    box: bounds([...shown, ...opening]),
  };
}

function endless(flat: readonly FlatPenetration[]): Polygon[] {
  const { min, max } = bounds(flat.map(({ box }) => [box.min, box.max]));
  const [x0, y0, x1, y1] = [min[0] - ON, min[1] - ON, max[0] + ON, max[1] + ON];
  return [
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  ];
}
