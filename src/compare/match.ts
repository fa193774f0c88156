/**
 * Which crossing of this revision is which of an earlier one. GlobalIds decide where they were kept; where a re-export
 * gave new ones, the place does. Cautious: one match too few costs a new label, one too many puts a label on the wrong
 * duct. So every match is the only one possible, seen from both sides.
 */
import { distance, dot, lineAngle, sub } from '../geometry/vector.js';
import type { BarrierKind, InferredFrom, SectionShape, Vec3 } from '../model.js';
import { BARRIER_MOVED, DUCT_MOVED, PARALLEL, SAME_SIZE, STANDS_ALONE, UNMOVED } from '../tolerances.js';

/** What is needed of a penetration; the model's and the report's have it. */
export interface Placed {
  readonly key: string;
  readonly inferredFrom: InferredFrom | null;
  readonly duct: {
    readonly globalId: string;
    readonly name: string;
    readonly system: string | null;
    readonly shape: SectionShape;
    readonly width: number | null;
    readonly height: number | null;
    readonly diameter: number | null;
    readonly axis: readonly [Vec3, Vec3] | null;
  };
  readonly barrier: { readonly globalId: string; readonly name: string; readonly kind: BarrierKind };
  readonly position: Vec3;
  readonly frame: { readonly normal: Vec3 };
}

export interface Match<P> {
  readonly before: P;
  /** By place, because GlobalIds changed. */
  readonly inferred: boolean;
}

/** Now → before. What has no entry is new; what is in none is absent. */
export function matchPenetrations<A extends Placed, B extends Placed>(
  now: readonly A[],
  before: readonly B[],
): Map<A, Match<B>> {
  const matches = new Map<A, Match<B>>();
  const left = { now: new Set(now), before: new Set(before) };
  const take = (a: A, b: B, inferred: boolean): void => {
    matches.set(a, { before: b, inferred });
    left.now.delete(a);
    left.before.delete(b);
  };
  for (const keyOf of [ownKey, ({ key }: Placed) => key]) {
    const byKey = new Map([...left.before].map((b) => [keyOf(b), b]));
    for (const a of [...left.now]) {
      const b = byKey.get(keyOf(a));
      // The later report may have carried the key over by place itself.
      if (b && left.before.has(b)) take(a, b, a.inferredFrom !== null && ownKey(a) !== ownKey(b));
    }
  }
  const tells = tellingNames(now, before);
  // Telling names on two pairs that they cross over say that the place lies.
  const contradict: Likely = (a, b) => nameOf(a) !== nameOf(b) && (tells(nameOf(a)) || tells(nameOf(b)));
  const named: Likely = (a, b) => nameOf(a) === nameOf(b) && tells(nameOf(a)) && isNear(a, b);
  for (const likely of [unmoved, resized, withMovedBarrier, named, moved(now, before)]) {
    const pairs = onlyChoices([...left.now], [...left.before], (a, b) => likely(a, b) && !contradict(a, b));
    for (const [a, b] of pairs) take(a, b, true);
  }
  return matches;
}

const ownKey = ({ inferredFrom, key }: Placed): string => inferredFrom?.ownKey ?? key;

type Likely = (a: Placed, b: Placed) => boolean;

/** Nothing but the GlobalIds changed; the barrier may have another name, since its place tells which it is. */
const unmoved: Likely = (a, b) => areLike(a, b) && isSameSection(a, b) && samePlace(a, b);

/** Another size on the same axis, in the barrier of the same name. */
const resized: Likely = (a, b) =>
  areLike(a, b) &&
  a.duct.system !== null &&
  a.duct.shape === b.duct.shape &&
  a.barrier.name === b.barrier.name &&
  samePlace(a, b);

/** The duct runs where it ran; the barrier stands elsewhere along it. */
const withMovedBarrier: Likely = (a, b) => {
  if (!areLike(a, b) || !isSameSection(a, b) || a.barrier.name !== b.barrier.name) return false;
  const [from, to] = a.duct.axis ?? [];
  if (!from || !to || distance(a.position, b.position) > BARRIER_MOVED) return false;
  const step = sub(b.position, a.position);
  const way = sub(to, from);
  const along = dot(step, way) / Math.sqrt(dot(way, way) || 1);
  const across = Math.sqrt(Math.max(0, dot(step, step) - along ** 2));
  return across <= UNMOVED && lineAngle(a.frame.normal, b.frame.normal) < PARALLEL;
};

/** A lone duct that was moved. In a row of like ducts nobody can say which one went where. */
function moved(now: readonly Placed[], before: readonly Placed[]): Likely {
  const isKind = (a: Placed, b: Placed) => areLike(a, b) && isSameSection(a, b) && a.barrier.name === b.barrier.name;
  const isAlone = (one: Placed, all: readonly Placed[]) =>
    all.every((other) => other === one || distance(one.position, other.position) > STANDS_ALONE || !isKind(one, other));
  return (a, b) =>
    distance(a.position, b.position) <= DUCT_MOVED && isKind(a, b) && isAlone(a, now) && isAlone(b, before);
}

const isNear: Likely = (a, b) => distance(a.position, b.position) <= DUCT_MOVED && areLike(a, b) && isSameSection(a, b);

const areLike: Likely = (a, b) => a.barrier.kind === b.barrier.kind && a.duct.system === b.duct.system;

const samePlace: Likely = (a, b) => distance(a.position, b.position) <= UNMOVED;

function isSameSection({ duct: a }: Placed, { duct: b }: Placed): boolean {
  const same = (x: number | null, y: number | null) =>
    x === null || y === null ? x === y : Math.abs(x - y) <= SAME_SIZE;
  return a.shape === b.shape && same(a.width, b.width) && same(a.height, b.height) && same(a.diameter, b.diameter);
}

const nameOf = ({ duct, barrier }: Placed): string => JSON.stringify([duct.name, barrier.name]);

/** Of duct and barrier together, those that occur once in each revision: names by type and size tell nothing. */
function tellingNames(now: readonly Placed[], before: readonly Placed[]): (name: string) => boolean {
  const once = (all: readonly Placed[]): ReadonlySet<string> => {
    const counts = new Map<string, number>();
    for (const name of all.map(nameOf)) counts.set(name, (counts.get(name) ?? 0) + 1);
    return new Set([...counts].flatMap(([name, count]) => (count === 1 ? [name] : [])));
  };
  const [nowOnce, beforeOnce] = [once(now), once(before)];
  return (name) => nowOnce.has(name) && beforeOnce.has(name);
}

/** Pairs of which each has no other choice. */
function onlyChoices<A extends Placed, B extends Placed>(
  now: readonly A[],
  before: readonly B[],
  likely: (a: A, b: B) => boolean,
): (readonly [A, B])[] {
  const ofNow = new Map(now.map((a) => [a, before.filter((b) => likely(a, b))]));
  const wanted = new Map<B, number>();
  for (const b of [...ofNow.values()].flat()) wanted.set(b, (wanted.get(b) ?? 0) + 1);
  return [...ofNow].flatMap(([a, [b, ...others]]) =>
    b && others.length === 0 && wanted.get(b) === 1 ? [[a, b] as const] : [],
  );
}
