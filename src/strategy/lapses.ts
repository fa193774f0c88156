/** Where the protection of an airway lapses: what lies outside the compartment that it serves and does not hold back fire. */
import { furthestApart } from '../geometry/vector.js';
import { groupsJoined } from '../joined.js';
import type { AirElementKind, Compartment, Stretch, StretchPart, Vec3 } from '../model.js';
import { type Airway, reachedFrom, type Served, servedBy } from './airways.js';

/**
 * `bare`: without protection. `untold`: neither the model nor the brief says. `inLine`: a fan, a silencer or a flexible duct
 * among what is protected, which no ordinary test covers.
 */
export type LapseKind = 'bare' | 'untold' | 'inLine';

export interface Lapse {
  readonly kind: LapseKind;
  readonly parts: readonly StretchPart[];
  /** Of its parts together. */
  readonly length: number;
  /** Those of its ends that are furthest apart. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** Ids of the compartments that it lies in, as far as they are known. */
  readonly compartments: readonly string[];
  /** Facts without which it can't be told whether protection is needed here. */
  readonly doubts: readonly Doubt[];
}

/** `served`: which compartment the airway serves. `rating`: of a barrier. `damper`: what a damper is for. `shaft`: see `Shelter`. */
export type Doubt = 'served' | 'rating' | 'damper' | 'shaft';

/** Whether a compartment encloses ducts in place of their protection. */
export type Shelter = 'yes' | 'no' | 'unknown';

export interface Continuity {
  readonly served: Served;
  /** What must hold back fire, the parts of it that lapse among it. */
  readonly needed: readonly StretchPart[];
  /** How many ends of that have nothing modelled at them: closed, or open into another compartment. */
  readonly looseEnds: number;
  readonly lapses: readonly Lapse[];
}

/** Elements in line with ducts that hold back fire only where a test had them. */
export const IN_LINE: readonly AirElementKind[] = ['fan', 'silencer', 'flexible'];

export interface ContinuityOptions {
  readonly shelterOf: (compartment: Compartment['id']) => Shelter;
  /** Of the elements in line those that were tested with what protects this airway. */
  readonly testedInLine: readonly AirElementKind[];
}

export function continuityOf(airway: Airway, { shelterOf, testedInLine }: ContinuityOptions): Continuity {
  const served = servedBy(airway);
  const [source] = served.count === 1 ? [served] : [];
  const sure = source ? reachedFrom(airway, source.stretches, ['open', 'perhapsNone']) : new Set(airway.stretches);
  const perhapsServed = source ? reachedFrom(airway, source.stretches, ['perhapsNone']) : new Set<Stretch>();
  const alike = source ? reachedFrom(airway, source.stretches, ['open', 'perhapsShut']) : new Set<Stretch>();
  // Walls of unknown rating part no compartments, so behind one the same compartment need not be the same.
  const looksServed = ({ compartment }: Stretch): boolean =>
    source !== undefined && compartment !== null && source.compartments.includes(compartment);
  const isServed = (one: Stretch): boolean =>
    source?.stretches.includes(one) === true || (looksServed(one) && alike.has(one));
  const shelter = (one: Stretch): Shelter => (one.compartment === null ? 'no' : shelterOf(one.compartment));
  const elsewhere = airway.stretches.filter((stretch) => !isServed(stretch) && shelter(stretch) !== 'yes');
  const nodes = elsewhere
    .flatMap((stretch) => stretch.parts.map((part): Node => ({ stretch, part })))
    .filter((node) => node.part.outside !== true && !isShutDamper(node, airway));
  const doubtsOf = (stretch: Stretch): Doubt[] => [
    ...(served.count === null || served.count > 1 ? ['served' as const] : []),
    ...(perhapsServed.has(stretch) || looksServed(stretch) ? ['rating' as const] : []),
    ...(sure.has(stretch) ? [] : ['damper' as const]),
    ...(shelter(stretch) === 'unknown' ? ['shaft' as const] : []),
  ];
  const lapsing = new Map(
    nodes.flatMap((node) => kindsOf(node.part, testedInLine).map((kind) => [node, kind] as const)),
  );
  const joined = neighbours(airway, [...lapsing.keys()]).filter(([a, b]) => lapsing.get(a) === lapsing.get(b));
  return {
    served,
    needed: nodes.map(({ part }) => part),
    looseEnds: elsewhere.reduce((sum, one) => sum + (one.outside === true ? 0 : one.looseEnds.length), 0),
    lapses: groupsJoined([...lapsing.keys()], joined)
      .map((group) => describe(lapsing.get(group[0]!)!, group, doubtsOf))
      .filter(({ parts, length }) => length > 0 || parts.some(({ element }) => element !== 'segment')),
  };
}

interface Node {
  readonly stretch: Stretch;
  readonly part: StretchPart;
}

/** The damper that ends an airway is no duct that has to be protected. */
const isShutDamper = ({ stretch, part }: Node, { shut }: Airway): boolean =>
  part.element === 'damper' &&
  shut.some(({ penetration }) =>
    stretch.ends.some((end) => end.penetration === penetration.id && stretch.parts[end.part] === part),
  );

/** None where it is protected and can be. */
function kindsOf({ element, protection }: StretchPart, testedInLine: readonly AirElementKind[]): LapseKind[] {
  if (protection.kind === 'none') return ['bare'];
  if (protection.kind === 'unknown') return ['untold'];
  return IN_LINE.includes(element) && !testedInLine.includes(element) ? ['inLine'] : [];
}

/** Pairs of parts that are joined, or are one piece on either side of a barrier. */
function neighbours({ inner }: Airway, nodes: readonly Node[]): (readonly [Node, Node])[] {
  const nodeOf = new Map(nodes.map((node) => [node.part, node]));
  const pair = (a: StretchPart | undefined, b: StretchPart | undefined): (readonly [Node, Node])[] => {
    const [first, second] = [a && nodeOf.get(a), b && nodeOf.get(b)];
    return first && second ? [[first, second]] : [];
  };
  const joined = nodes.flatMap(({ stretch, part }) => part.joins.flatMap((i) => pair(part, stretch.parts[i])));
  const across = inner.flatMap(({ penetration, stretches }) => {
    const ends = stretches.flatMap((one) =>
      one.ends.filter((end) => end.penetration === penetration.id).map((end) => one.parts[end.part]),
    );
    return ends.slice(1).flatMap((end) => pair(ends[0], end));
  });
  return [...joined, ...across];
}

function describe(kind: LapseKind, group: readonly Node[], doubtsOf: (stretch: Stretch) => Doubt[]): Lapse {
  const parts = group.map(({ part }) => part);
  const [from, to] = furthestApart(parts.flatMap((part) => [part.from, part.to]));
  const compartments = [...new Set(group.flatMap(({ stretch }) => stretch.compartment ?? []))].sort();
  const length = Number(parts.reduce((sum, part) => sum + part.length, 0).toFixed(1));
  // One part of it that certainly needs protection is enough.
  const doubts = group.map(({ stretch }) => doubtsOf(stretch));
  const fewest = doubts.reduce((least, one) => (one.length < least.length ? one : least));
  return { kind, parts, length, from, to, compartments, doubts: fewest };
}
