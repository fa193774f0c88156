/** Barriers drawn flat, as a setting-out drawing shows them. */
import { once } from '../collect.js';
import { nameOf } from '../element-refs.js';
import { roundPolygon } from '../find/rounding.js';
import { type Outlines, shared, totalArea, united } from '../geometry/areas.js';
import { type Box, boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { compose, translation } from '../geometry/frame.js';
import { movedBody } from '../geometry/mesh.js';
import { area } from '../geometry/polygon.js';
import { facesOf } from '../geometry/round-faces.js';
import { cutBodies, extent } from '../geometry/section.js';
import { shadowOf } from '../geometry/shadow.js';
import { add, negate, scale, sub, ZERO } from '../geometry/vector.js';
import type { Barrier, Body, Federation, Frame, OtherService, Polygon, Vec3 } from '../model.js';
import type { Report } from '../report/schema.js';
import type { BarrierFace } from './geometry-extras.js';

type ReportPenetration = Report['penetrations'][number];

/** A body that is deeper than this many times the barrier is thick does not lie in one plane. */
const FLAT = 1.5;
/** Smaller than this, mm², is a sliver of the cut. */
const SLIVER = 100;

/**
 * Of every barrier that something passes, by `nameOf` the barrier: cut at the middle of its thickness, in the frame of its
 * first penetration. Leaves of one penetration lie over each other, each cut at its own middle. A wall that turns a corner
 * shows the part that is passed. A curved one shows its silhouette, as it is seen from there and not developed, so that
 * what is drawn with the same frame stands where it is seen.
 */
export function barrierFaces(federation: Federation, report: Pick<Report, 'penetrations'>): Map<string, BarrierFace> {
  const barriers = new Map(federation.barriers.map((barrier) => [nameOf(barrier), barrier]));
  const services = once(() => boxIndex(federation.otherServices.map((one) => ({ one, box: boxOf(one.bodies) }))));
  const faces = new Map<string, BarrierFace>();
  for (const penetration of report.penetrations) {
    const name = nameOf(penetration.barrier);
    if (faces.has(name)) continue;
    const elements = [penetration.barrier, ...penetration.barrier.leaves].flatMap(
      (ref) => barriers.get(nameOf(ref)) ?? [],
    );
    if (elements.length > 0) faces.set(name, faceOf([...new Set(elements)], penetration, federation, services()));
  }
  return faces;
}

type ServicesIn = (box: Box) => { readonly one: OtherService }[];

function faceOf(
  elements: readonly Barrier[],
  penetration: ReportPenetration,
  { origin }: Federation,
  servicesIn: ServicesIn,
): BarrierFace {
  const { position, frame, barrier } = penetration;
  const { right, up, normal } = frame;
  const plane: Frame = { origin: sub(position, origin), x: right, y: up, z: normal };
  const cuts = elements.map((element) => cutBarrier(element, plane, barrier.thickness));
  const outline = united(...cuts.map((cut) => cut.outline));
  return {
    ...{ origin: position, right, up, normal },
    outline: rounded(outline),
    openings: rounded(united(...cuts.map((cut) => cut.openings))),
    services: rounded(united(...elements.flatMap((element, i) => passing(element, servicesIn, cuts[i]!, plane)))),
  };
}

interface BarrierCut {
  readonly outline: Outlines;
  readonly openings: Outlines;
  /** Null: a silhouette. */
  readonly plane: Frame | null;
}

function cutBarrier({ bodies, openings }: Barrier, at: Frame, thickness: number | null): BarrierCut {
  const [from, to] = extent(bodies, at.origin, at.z);
  const isFlat = thickness === null || to - from <= FLAT * thickness;
  if (!isFlat && facesOf(bodies).round.length > 0)
    return {
      outline: silhouette(bodies, at),
      openings: united(...openings.map((opening) => silhouette(opening.bodies, at))),
      plane: null,
    };
  const plane = isFlat ? { ...at, origin: add(at.origin, scale(at.z, (from + to) / 2)) } : at;
  const outline = cut(bodies, plane);
  return {
    outline,
    openings: united(...openings.map((opening) => shared(cut(opening.bodies, plane), outline))),
    plane,
  };
}

function cut(bodies: readonly Body[], plane: Frame): Outlines {
  const { outers, holes } = cutBodies(bodies, plane);
  return united(
    outers,
    holes.map((hole) => [...hole].reverse()),
  );
}

/** Laid into the plane as it is seen along its normal. */
function silhouette(bodies: readonly Body[], plane: Frame): Outlines {
  const { x, y, z, origin } = plane;
  const row = (i: 0 | 1 | 2): Vec3 => [x[i], y[i], z[i]];
  const turned = { x: row(0), y: row(1), z: row(2), origin: ZERO };
  return shadowOf(bodies.map((body) => movedBody(body, compose(turned, translation(negate(origin))))));
}

/** Services as the middle of the barrier cuts them: those too that end in it, or run within it. */
function passing(barrier: Barrier, servicesIn: ServicesIn, { plane, outline }: BarrierCut, at: Frame): Outlines[] {
  const box = boxOf(barrier.bodies);
  return servicesIn(box)
    .map(({ one }) => (plane ? united(cutBodies(one.bodies, plane).outers) : silhouette(one.bodies, at)))
    .map((cutService) => shared(cutService, outline))
    .filter((found) => totalArea(found) > SLIVER);
}

const rounded = (outlines: Outlines): Polygon[] =>
  outlines.filter((outline) => area(outline) > SLIVER).map(roundPolygon);
