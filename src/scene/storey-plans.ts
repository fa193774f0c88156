/** Storey plans: what a level cut through each storey shows, and the penetrations that belong to it. */
import type { WallOnPlan } from '../find/levels.js';
import { resistsFire } from '../fire-rating/index.js';
import { type Outlines, shared, totalArea, united, without } from '../geometry/areas.js';
import { type Box, boxesMeet, boxOf } from '../geometry/box.js';
import { WORLD } from '../geometry/frame.js';
import { interiorPoint, signedArea } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { shadowOf } from '../geometry/shadow.js';
import { add, length2, scale, sub, sub2 } from '../geometry/vector.js';
import type { AirElement, Body, Federation, Grid, Polygon, Vec2, Vec3 } from '../model.js';
import type { Report, ReportPenetration } from '../report/schema.js';
import { FLOOR_BESIDE_FEET, WELD } from '../tolerances.js';
import { type PlanStorey, planStoreys, storeyOf } from './plan-storeys.js';
import type { PlanAxis, PlanDuct, PlanOpening, PlanPenetration, PlanWall, StoreyPlan } from './storey-plan.js';

/**
 * Upwards. Every penetration of the report stands on one plan, and only there.
 *
 * @param report of this federation
 */
export function storeyPlans(
  federation: Federation,
  report: Pick<Report, 'penetrations' | 'compartments'>,
): StoreyPlan[] {
  const { origin, frame } = federation;
  const placed = report.penetrations.map((penetration) => {
    const at = sub(penetration.position, origin);
    return { penetration, at, kind: penetration.barrier.kind };
  });
  const storeys = planStoreys(federation.barriers, placed);
  const marked = placed.map((place) => ({ ...place, ...storeyOf(storeys, place) }));
  const ducts = federation.airElements.filter(({ bodies }) => bodies.length > 0).map(seenDuct);
  const axes = axesOf(federation.grids ?? []);
  return storeys.map((storey, i) => ({
    id: `L-${String(i + 1).padStart(2, '0')}`,
    names: storey.names,
    elevation: storey.base + origin[2],
    cutAt: storey.cutAt + origin[2],
    origin: [origin[0], origin[1]],
    up: frame === 'map' ? 'mapNorth' : 'planNorth',
    walls: storey.walls.map((wall) => wallOn(wall, storey)).filter(({ outlines }) => outlines.length > 0),
    columns: federation.columns.flatMap(({ bodies }) => (isOn(boxOf(bodies), storey) ? cut(bodies, storey.cutAt) : [])),
    openings: storey.walls.flatMap((wall) => openingsOf(wall, storey)),
    voids: voidsOf(federation, storey),
    ducts: ducts.filter(({ box }) => isOn(box, storey)).map((duct) => ductOn(duct, storey)),
    axes,
    compartments: report.compartments
      .filter((one) => one.storey !== null && storey.storeyIds.has(one.storey.globalId))
      .flatMap(({ name, outlines: [outline] }) =>
        outline === undefined ? [] : [{ name, at: lessOrigin(interiorPoint(outline), origin) }],
      ),
    penetrations: marked
      .filter((one) => one.storey === storey)
      .map(({ penetration, at, isOverhead }) => mark(penetration, at, isOverhead)),
  }));
}

const lessOrigin = ([x, y]: Vec2, origin: Vec3): Vec2 => [x - origin[0], y - origin[1]];
const onPlan = ([x, y]: Vec3): Vec2 => [x, y];

/** At least in part between the storey's floor and the next. */
const isOn = (box: Box, { region, base, top }: PlanStorey): boolean =>
  box.max[2] > base && box.min[2] < top && boxesMeet(box, region);

function cut(bodies: readonly Body[], height: number): Outlines {
  const { outers, holes } = cutBodies(bodies, { ...WORLD, origin: [0, 0, height] });
  return united(
    outers,
    holes.map((hole) => [...hole].reverse()),
  );
}

function wallOn({ barrier, outlines }: WallOnPlan, { cutAt }: PlanStorey): PlanWall {
  const { name, rating, construction } = barrier;
  const cuts = barrier.openings.flatMap(({ bodies }) => cut(bodies, cutAt));
  return {
    ...{ name, rating, construction },
    rated: rating.state === 'unreadable' ? null : (resistsFire(rating) ?? (rating.state === 'stated' ? null : false)),
    outlines: cuts.length === 0 ? outlines : without(outlines, cuts),
  };
}

/** Smaller than this, mm², is a sliver of the cut. */
const SLIVER = 100;

const openingsOf = ({ barrier, outlines }: WallOnPlan, { cutAt }: PlanStorey): PlanOpening[] =>
  barrier.openings
    .map(({ bodies, doors }) => ({ isDoor: doors.length > 0, outlines: shared(outlines, cut(bodies, cutAt)) }))
    .filter((opening) => totalArea(opening.outlines) > SLIVER);

/** Openings of the floors that the storey stands on, and holes in their profiles. */
const voidsOf = ({ barriers }: Federation, { region, base }: PlanStorey): Polygon[] =>
  barriers
    .filter(({ kind }) => kind !== 'wall')
    .filter(({ bodies }) => {
      const box = boxOf(bodies);
      return Math.abs(box.max[2] - base) < FLOOR_BESIDE_FEET && boxesMeet(box, region);
    })
    .flatMap(({ bodies, openings }) => [
      ...openings.flatMap((opening) => shadowOf(opening.bodies)),
      ...shadowOf(bodies).filter((outline) => signedArea(outline) < 0),
    ]);

interface SeenDuct extends Omit<PlanDuct, 'lies'> {
  readonly box: Box;
}

function seenDuct(element: AirElement): SeenDuct {
  const box = boxOf(element.bodies);
  const [x, y, z] = sub(box.max, box.min);
  const outlines = shadowOf(element.bodies);
  const isUpright = z > Math.hypot(x, y);
  return {
    ...{ box, outlines, isUpright, isDamper: element.kind === 'damper' },
    centreLine: isUpright || !STRAIGHT.has(element.kind) ? null : centreLine(element, outlines),
  };
}

const STRAIGHT: ReadonlySet<string> = new Set(['segment', 'damper', 'silencer']);

/** Between its two ports; without them along the middle of a rectangle. */
function centreLine({ ports }: AirElement, outlines: Outlines): readonly [Vec2, Vec2] | null {
  const [from, to] = ports.map(({ at }) => onPlan(at));
  if (ports.length === 2 && from && to && length2(sub2(to, from)) > WELD) return [from, to];
  const [a, b, c, d, ...more] = outlines.length === 1 ? outlines[0]! : [];
  if (!a || !b || !c || !d || more.length > 0) return null;
  const half = (p: Vec2, q: Vec2): Vec2 => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  return length2(sub2(b, a)) < length2(sub2(c, b)) ? [half(a, b), half(c, d)] : [half(b, c), half(d, a)];
}

function ductOn({ box, ...duct }: SeenDuct, { cutAt }: PlanStorey): PlanDuct {
  return { ...duct, lies: box.min[2] >= cutAt ? 'above' : box.max[2] <= cutAt ? 'below' : 'cut' };
}

/** Each once: storeys often repeat the grid. */
function axesOf(grids: readonly Grid[]): PlanAxis[] {
  const axes = grids
    .flatMap(({ families }) => families.flat())
    .map(({ tag, ends }) => {
      return { tag, ends: [onPlan(ends[0]), onPlan(ends[1])] as const };
    });
  const place = ({ tag, ends }: PlanAxis): string => [tag, ...ends.flat().map(Math.round)].join(' ');
  return [...new Map(axes.map((axis) => [place(axis), axis])).values()];
}

function mark(p: ReportPenetration, at: Vec3, isOverhead: boolean): PlanPenetration {
  const { id, tag, outcome, frame, barrier, outlines } = p;
  const [x, y] = frame.right;
  const size = Math.hypot(x, y);
  const isWall = barrier.kind === 'wall';
  const seen = (outline: Polygon): Polygon =>
    outline.map(([u, v]) => onPlan(add(at, add(scale(frame.right, u), scale(frame.up, v)))));
  return {
    ...{ id, tag, outcome, kind: barrier.kind, isOverhead, at: onPlan(at) },
    along: isWall && size > 0 ? [x / size, y / size] : [0, 1],
    outlines: isWall ? [] : outlines.duct.map(seen),
  };
}
