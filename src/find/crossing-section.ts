/** The section of a duct where it crosses: its shape and sizes, and the directions of its sides as the barrier cuts them. */
import { type Fit, fitShape, sizeAlong } from '../geometry/fit.js';
import { frameAlong } from '../geometry/frame.js';
import { contains } from '../geometry/polygon.js';
import { cutBodies } from '../geometry/section.js';
import { add, dot, lineAngle, scale, sub } from '../geometry/vector.js';
import type { Body, DuctFacts, Polygon, SectionShape, Vec2, Vec3 } from '../model.js';
import { GRAZING } from '../tolerances.js';
import type { SideDirections } from './gaps.js';
import type { Plate } from './plates.js';
import { type Straight, sectionDirections } from './straight.js';

export interface Section {
  readonly shape: SectionShape;
  readonly width: number | undefined;
  readonly height: number | undefined;
  readonly diameter: number | undefined;
  readonly from: 'profile' | 'mesh';
  readonly residual: number | undefined;
  readonly problem: DuctFacts['sectionProblem'];
}

/** A section cut this far off square is no section of the duct, degrees. */
const SQUARE_ENOUGH = 2;

export function straightSection(s: Straight, plate: Plate): Section {
  const { fit } = s;
  const base = { from: s.from, residual: s.from === 'mesh' ? missOf(fit) : undefined, problem: null };
  if (fit.shape === 'unknown') return { ...base, ...NO_SIZE, shape: 'unknown', problem: 'noShape' };
  return { ...base, ...sizesAcross(fit, s, plate), shape: fit.shape };
}

type Sizes = Pick<Section, 'width' | 'height' | 'diameter'>;

const NO_SIZE: Sizes = { width: undefined, height: undefined, diameter: undefined };

/** The size of a section in the straight's plane; the width is what lies most nearly along the elevation's x. */
export function sizesAcross(fit: Fit, s: Pick<Straight, 'fit' | 'plane'>, plate: Plate): Sizes {
  if (fit.shape === 'circular') return { ...NO_SIZE, diameter: fit.length };
  const [along, square] = sectionDirections(s);
  const isAcross = Math.abs(dot(along, plate.frame.x)) >= Math.abs(dot(square, plate.frame.x));
  const [width, height] = isAcross ? [fit.length, fit.breadth] : [fit.breadth, fit.length];
  return { width, height, diameter: undefined };
}

const missOf = (fit: Fit): number => Math.max(fit.residual, fit.chord);

/**
 * Of a piece that is not straight as a whole, but is where it passes: sections square to its way there agree.
 * @param bodies what crosses
 * @param at where its way passes the barrier's middle plane
 */
export function localSection(bodies: readonly Body[], at: Vec3, way: Vec3, plate: Plate): Section | undefined {
  const reach = Math.min(plate.thickness / 4, LOCAL_REACH);
  const cuts = [-reach, 0, reach].map((s) => {
    const plane = frameAlong(add(at, scale(way, s)), way, plate.frame.y);
    const { outers, bridged } = cutBodies(bodies, plane);
    const outline = outers.find((o) => contains(o, [0, 0]));
    return outline && bridged === 0 ? { plane, fit: fitShape(outline) } : undefined;
  });
  const [before, here, after] = cuts;
  if (!before || !here || !after || here.fit.shape === 'unknown') return undefined;
  const isSame = ({ fit }: { fit: Fit }) =>
    Math.abs(fit.length - here.fit.length) <= LOCAL_CHANGE && Math.abs(fit.breadth - here.fit.breadth) <= LOCAL_CHANGE;
  if (![before, after].every(isSame)) return undefined;
  const { fit, plane } = here;
  return {
    ...sizesAcross(fit, { fit, plane }, plate),
    ...{ shape: fit.shape, from: 'mesh', residual: missOf(fit), problem: null },
  };
}

/** How far before and behind the middle plane sections are compared, and how much their sizes may change, mm. */
const LOCAL_REACH = 30;
const LOCAL_CHANGE = 1;

/**
 * Of a piece without an axis of its own only a square cut says what its section is.
 * @param isClosed false: the outline is guessed in part, since the mesh is open there
 */
export function cutSection(outline: Polygon | undefined, skew: number, isClosed: boolean): Section {
  const base = { ...NO_SIZE, from: 'mesh', residual: undefined } as const;
  if (!outline || skew > SQUARE_ENOUGH) return { ...base, shape: 'unknown', problem: 'noAxis' };
  if (!isClosed) return { ...base, shape: 'unknown', problem: 'notClosed' };
  const fit = fitShape(outline);
  const measured = { ...base, residual: missOf(fit), problem: null };
  if (fit.shape === 'unknown') return { ...measured, shape: 'unknown', problem: 'noShape' };
  if (fit.shape === 'circular') return { ...measured, shape: 'circular', diameter: fit.length };
  return { ...measured, shape: fit.shape, width: sizeAlong(fit, [1, 0]), height: sizeAlong(fit, [0, 1]) };
}

/** Outward directions of four sides that run along two edges, in the barrier's plane. */
export function sideDirections(edges: readonly [Vec2, Vec2]): SideDirections {
  // A side's outward direction is square to its edge; the flatter edge belongs to top and bottom.
  const [flat, steep] = Math.abs(edges[0][1]) <= Math.abs(edges[1][1]) ? edges : [edges[1], edges[0]];
  const upward: Vec2 = flat[0] >= 0 ? [-flat[1], flat[0]] : [flat[1], -flat[0]];
  const rightward: Vec2 = steep[1] >= 0 ? [steep[1], -steep[0]] : [-steep[1], steep[0]];
  return { top: upward, bottom: [-upward[0], -upward[1]], right: rightward, left: [-rightward[0], -rightward[1]] };
}

export function ductEdges(straight: Straight | undefined, outline: Polygon | undefined, plate: Plate) {
  // What runs along the barrier carries nothing to its plane.
  const isCarried = straight && lineAngle(straight.direction, plate.frame.z) < 90 - GRAZING;
  return isCarried ? cutEdges(straight, plate) : fittedEdges(outline);
}

/** The section's two edge directions carried to the barrier's plane along the duct. */
function cutEdges(s: Straight, plate: Plate): readonly [Vec2, Vec2] {
  const carry = (edge: Vec3): Vec2 => {
    const inPlane = sub(edge, scale(s.direction, dot(edge, plate.frame.z) / dot(s.direction, plate.frame.z)));
    const flat: Vec2 = [dot(inPlane, plate.frame.x), dot(inPlane, plate.frame.y)];
    const n = Math.hypot(flat[0], flat[1]);
    return [flat[0] / n, flat[1] / n];
  };
  const [along, square] = sectionDirections(s);
  return [carry(along), carry(square)];
}

export function fittedEdges(outline: Polygon | undefined): readonly [Vec2, Vec2] {
  const [u, v] = outline ? fitShape(outline).along : [1, 0];
  return [
    [u!, v!],
    [-v!, u!],
  ];
}
