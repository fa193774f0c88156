/** From single intrusions to crossings: pieces that meet inside a barrier make one crossing. */
import { edgeDistance } from '../geometry/edge-distance.js';
import { fromPlane } from '../geometry/frame.js';
import { area, bounds, boxCentre, overlaps } from '../geometry/polygon.js';
import { distance, dot, lineAngle } from '../geometry/vector.js';
import type { Crossing, Polygon, Vec3 } from '../model.js';
import { CONTACT, FACE_INSET, GRAZING, JOINT, PARALLEL, WHOLE_SECTION } from '../tolerances.js';
import type { GrossBody } from './gross-body.js';
import { type Intrusion, outlinesOf } from './intrusions.js';
import { faceHeights, type Plate } from './plates.js';
import type { PortLinks } from './port-links.js';

export interface Group {
  readonly gross: GrossBody;
  readonly plate: Plate;
  readonly intrusions: readonly Intrusion[];
  readonly crossing: Crossing;
}

export function groupIntrusions(gross: GrossBody, intrusions: readonly Intrusion[], links: PortLinks): Group[] {
  const groups: Intrusion[][] = [];
  for (const intrusion of intrusions) {
    const joined = groups.filter((group) => group.some((other) => isOneCrossing(intrusion, other, links)));
    const merged = [intrusion, ...joined.flat()];
    for (const group of joined) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  return groups.map((members) => {
    const { plate } = members[0]!;
    return { gross, plate, intrusions: members, crossing: crossingOf(members, plate) };
  });
}

const isSamePlate = (a: Plate, b: Plate): boolean =>
  lineAngle(a.frame.z, b.frame.z) < PARALLEL &&
  Math.abs(a.thickness - b.thickness) < 2 * CONTACT &&
  Math.abs(dot(a.frame.origin, a.frame.z) - dot(b.frame.origin, a.frame.z)) < CONTACT;

function isOneCrossing(a: Intrusion, b: Intrusion, links: PortLinks): boolean {
  if (!isSamePlate(a.plate, b.plate)) return false;
  if (links.areLinked(a.piece.element, b.piece.element)) return true;
  if (a.low - b.high > JOINT || b.low - a.high > JOINT) return false;
  const [low, high] = [Math.max(a.low, b.low), Math.min(a.high, b.high)];
  const at = (i: Intrusion): number =>
    low <= high ? (low + high) / 2 : i.low > low - FACE_INSET ? i.low + FACE_INSET : i.high - FACE_INSET;
  const [p, q] = [outlinesOf(a.piece, a.plate, at(a)), outlinesOf(b.piece, a.plate, at(b))];
  // Two ducts that each pass the whole barrier are two crossings even where they clash, unless one sleeves the other.
  if (isComplete(a) && isComplete(b)) return isConcentric(p, q);
  return p.some((x) => q.some((y) => overlaps(x, y) || edgeDistance(x, y) <= CONTACT));
}

const isComplete = ({ low, high, plate }: Intrusion): boolean => high - low >= plate.thickness - 2 * CONTACT;

function isConcentric(p: readonly Polygon[], q: readonly Polygon[]): boolean {
  const [a, b] = [bounds(p), bounds(q)];
  const size = Math.min(a.max[0] - a.min[0], a.max[1] - a.min[1], b.max[0] - b.min[0], b.max[1] - b.min[1]);
  const off = ([0, 1] as const).map((i) => Math.abs(a.min[i] + a.max[i] - b.min[i] - b.max[i]) / 2);
  return Math.hypot(off[0]!, off[1]!) < size / 4;
}

function crossingOf(members: readonly Intrusion[], plate: Plate): Crossing {
  const { thickness } = plate;
  if (members.some((m) => !m.contained)) return 'partial';
  const sorted = [...members].sort((a, b) => a.low - b.low);
  let reached = sorted[0]!.high;
  let whole = sorted[0]!.low <= -thickness / 2 + CONTACT;
  for (const m of sorted) {
    if (m.low - reached > JOINT) whole = false;
    reached = Math.max(reached, m.high);
  }
  whole &&=
    reached >= thickness / 2 - CONTACT && faceHeights(plate).every((height) => comesOut(members, plate, height));
  return whole ? 'through' : 'endsInside';
}

/** The section comes out at the face as a whole, not only the rim of an end that stands obliquely to it. */
function comesOut(members: readonly Intrusion[], plate: Plate, height: number): boolean {
  const out = members.filter(({ low, high }) => low <= height && height <= high);
  const expected = out.flatMap(({ piece: { straight } }) =>
    straight ? [area(straight.outline) / Math.abs(dot(straight.direction, plate.frame.z))] : [],
  );
  if (expected.length === 0) return true; // of bends and the like the section is not known
  const shown = out.flatMap(({ piece }) => outlinesOf(piece, plate, height)).reduce((sum, o) => sum + area(o), 0);
  return shown >= Math.min(...expected) * WHOLE_SECTION;
}

/** Of groups that are one crossing seen against several faces (at a corner, along a curve), the best view is kept. */
export function withoutRepeats(groups: readonly Group[]): Group[] {
  const kept: Group[] = [];
  for (const group of [...groups].sort(byView))
    if (!kept.some((other) => isSameCrossing(group, other))) kept.push(group);
  return kept;
}

const ORDER: readonly Crossing[] = ['through', 'partial', 'endsInside'];

const byView = (a: Group, b: Group): number =>
  ORDER.indexOf(a.crossing) - ORDER.indexOf(b.crossing) ||
  groupSkew(a) - groupSkew(b) ||
  a.plate.thickness - b.plate.thickness;

const groupSkew = ({ intrusions, plate }: Group): number =>
  Math.max(...intrusions.map(({ piece }) => (piece.straight ? lineAngle(piece.straight.direction, plate.frame.z) : 0)));

function isSameCrossing(a: Group, b: Group): boolean {
  if (!a.intrusions.some((i) => b.intrusions.some((j) => i.piece === j.piece))) return false;
  if (lineAngle(a.plate.frame.z, b.plate.frame.z) < PARALLEL) return false; // one duct, two layers of a wall that turns back
  if (Math.max(groupSkew(a), groupSkew(b)) >= 90 - GRAZING) return true;
  return distance(middleOf(a), middleOf(b)) < 2 * (a.plate.thickness + b.plate.thickness);
}

function middleOf({ plate, intrusions }: Group): Vec3 {
  const { piece, low, high } = intrusions[0]!;
  return fromPlane(plate.frame, boxCentre(outlinesOf(piece, plate, (low + high) / 2)));
}
