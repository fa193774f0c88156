/** What failed at each place and geometry can mend, and what would have to hold instead. */
import { fileUnder } from '../collect.js';
import { isUpright, lookedAlong, rightOf, upOf } from '../find/clearances.js';
import { bounds } from '../geometry/polygon.js';
import { add, dot, negate, scale, sub, unit } from '../geometry/vector.js';
import type { AirElement, Penetration, Polygon, Side, Vec3 } from '../model.js';
import { commonRange } from '../opening-size.js';
import type { BareFinding, RuleSet } from '../rules/index.js';
import { neededMargin } from '../rules/limit.js';
import type { Range } from './axis.js';
import type { Building } from './building.js';

/** By what a check measures: rule documents may call their checks what they like. */
const MENDED_BY = {
  'gap.value': 'gap',
  'penetration.narrowestGap - duct.flangeHeight': 'flange',
  'penetration.opening.present': 'opening',
  'neighbour.distance': 'separation',
  'room.distance': 'room',
  'face.collarRoom': 'face',
  'face.buildUpRoom': 'face',
  'face.damperRoom': 'face',
  'penetration.damper.construction': 'besideDamper',
} as const;

/** How far inside its limit a finding is to be mended, mm. @param site the tolerance of the site */
export const aimOf = ({ tolerance }: Pick<BareFinding, 'tolerance'>, site: number): number =>
  tolerance ? neededMargin(tolerance) : site;

export type FaultKind = (typeof MENDED_BY)[keyof typeof MENDED_BY];

export interface Fault {
  readonly kind: FaultKind;
  readonly finding: BareFinding;
}

/** The duct has to go at least so far one of these ways. */
export type Need = readonly { readonly way: Vec3; readonly by: number }[];

/** A place with all its faults: a penetration, or a piece of a run beside something. */
export interface Place {
  /** null: along a run. */
  readonly penetration: Penetration | null;
  readonly faults: readonly Fault[];
}

export type KindOf = (check: string) => FaultKind | undefined;

export function faultKinds({ checks }: RuleSet): KindOf {
  const kinds = new Map(
    checks.map(({ definition: { id, measure } }) => [
      id,
      (MENDED_BY as { readonly [measure: string]: FaultKind | undefined })[measure?.trim().replace(/\s+/g, ' ') ?? ''],
    ]),
  );
  return (check) => kinds.get(check);
}

/** In the order of the findings: the worst place first. */
export function placesWith(findings: readonly BareFinding[], kindOf: KindOf, { penetrations }: Building): Place[] {
  const places = new Map<string, Fault[]>();
  for (const finding of findings) {
    const kind = kindOf(finding.check);
    if (finding.outcome !== 'failed' || !kind) continue;
    const [first] = finding.subject.elements;
    const key = finding.subject.type === 'penetration' ? finding.subject.id : `${first?.model} ${first?.globalId}`;
    fileUnder(places, key, { kind, finding });
  }
  return [...places].map(([key, faults]) => ({ penetration: penetrations.get(key) ?? null, faults }));
}

/** The range that all gaps of a penetration have to be in; null where no check with limits says any. */
export function gapRange(results: readonly BareFinding[], kindOf: KindOf, site: number): Range | null {
  const gaps = results.filter((one) => kindOf(one.check) === 'gap');
  const range = commonRange(gaps.map(({ limit }) => limit));
  if (!range) return null;
  const missing = results.filter((one) => kindOf(one.check) === 'flange' && one.outcome === 'failed');
  const narrowest = Math.min(...gaps.flatMap(({ measured }) => (typeof measured === 'number' ? measured : [])));
  const least = Math.max(range.atLeast ?? 0, ...missing.map(({ margin }) => narrowest - (margin ?? 0)));
  const aim = Math.max(...gaps.map((one) => aimOf(one, site)));
  return { from: least + aim, to: (range.atMost ?? Number.POSITIVE_INFINITY) - aim };
}

/** What the duct has to do for a fault that the opening can't mend; empty: nothing that is known would. */
export function needOf({ kind, finding }: Fault, building: Building, site: number): Need {
  const { measured, limit, side } = finding;
  const short = Math.ceil(Number(((limit?.atLeast ?? 0) + aimOf(finding, site) - Number(measured)).toFixed(6)));
  if (kind === 'room') {
    const [duct] = finding.subject.elements.flatMap((one) => building.element(one) ?? []);
    const along = duct && sidesAlongAxis(duct, building);
    return side && along ? [{ way: negate(along.sides[side]), by: short }] : [];
  }
  const p = building.penetrations.get(finding.subject.id);
  if (!p) return [];
  const away = (from: Side): Need => [{ way: negate(sidesOf(p.frame)[from]), by: short }];
  if (kind === 'besideDamper') {
    const beside = p.dampers.flatMap(({ construction }) => construction ?? []);
    const nearest = beside.find(({ distance }) => distance === measured);
    return nearest ? away(nearest.side) : [];
  }
  if (kind === 'face') {
    const from = obstacleSide(p, finding);
    return from ? away(from) : [];
  }
  return [];
}

/** Of a ring that something cuts into: the side of the duct on which it stands. */
function obstacleSide({ faces, position, frame }: Penetration, { at, measured }: BareFinding): Side | null {
  const face = faces[at && dot(sub(at, position), frame.normal) > 0 ? 1 : 0];
  const cutting = face?.obstacles.find(({ clear }) => clear.some(([, width]) => width === measured));
  const nearest = face?.obstacles.reduce<(typeof face.obstacles)[number] | undefined>(
    (best, one) => (!best || one.distance < best.distance ? one : best),
    undefined,
  );
  return (cutting ?? nearest)?.side ?? null;
}

type Ways = { readonly [S in Side]: Vec3 };

export const sidesOf = ({ right, up }: { readonly right: Vec3; readonly up: Vec3 }): Ways => ({
  right,
  left: negate(right),
  top: up,
  bottom: negate(up),
});

/** As clearances have them: of a level duct seen along its axis, of an upright one on plan. */
export function sidesAlongAxis(duct: AirElement, { axisOf }: Building): { isOnPlan: boolean; sides: Ways } | null {
  const axis = axisOf(duct);
  if (!axis) return null;
  const way = lookedAlong(unit(sub(axis[1], axis[0])));
  return { isOnPlan: isUpright(way), sides: sidesOf({ right: rightOf(way), up: upOf(way) }) };
}

/** How far the first duct has to go from the second, either along one side of it or along the other. */
export function separationNeed(one: Penetration, other: Penetration, atLeast: number): Need {
  const [a, b] = [one.outlines.duct, other.outlines.duct];
  if (a.length === 0 || b.length === 0) return [];
  const offset = sub(other.position, one.position);
  const at: readonly [number, number] = [dot(offset, one.frame.right), dot(offset, one.frame.up)];
  const isRound = one.duct.shape === 'circular' && other.duct.shape === 'circular';
  const ways = [one.frame.right, one.frame.up];
  const [box, beside] = [bounds(a), bounds(inFrame(b, other, one, at))];
  const radii = isRound ? [halfOf(box), halfOf(beside)] : null;
  return ([0, 1] as const).flatMap((i) => {
    const away = at[i] >= 0 ? -1 : 1;
    const j = (1 - i) as 0 | 1;
    const apart = (axis: 0 | 1) => Math.max(beside.min[axis] - box.max[axis], box.min[axis] - beside.max[axis]);
    const middles = (axis: 0 | 1) => (beside.min[axis] + beside.max[axis] - box.min[axis] - box.max[axis]) / 2;
    const reach = radii ? atLeast + radii[0]! + radii[1]! : atLeast;
    const across = radii ? Math.abs(middles(j)) : Math.max(0, apart(j));
    const now = radii ? Math.abs(middles(i)) : apart(i);
    const by = Math.sqrt(Math.max(0, reach ** 2 - across ** 2)) - now;
    return [{ way: scale(ways[i]!, away), by: Math.ceil(Number(by.toFixed(6))) }];
  });
}

const halfOf = ({ min, max }: { readonly min: readonly [number, number]; readonly max: readonly [number, number] }) =>
  (max[0] - min[0]) / 2;

/** Both pass one barrier, so the planes are one; the second may be seen the other way round. */
function inFrame(
  outlines: readonly Polygon[],
  { frame }: Penetration,
  { frame: to }: Penetration,
  at: readonly [number, number],
): Polygon[] {
  return outlines.map((outline) =>
    outline.map(([x, y]) => {
      const p = add(scale(frame.right, x), scale(frame.up, y));
      return [at[0] + dot(p, to.right), at[1] + dot(p, to.up)] as const;
    }),
  );
}
