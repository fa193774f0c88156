/** Which barrier of this revision is which of an earlier one: by GlobalId, else by the crossings that both have. */
import { distance } from '../geometry/vector.js';
import type { BarrierKind, ElementRef, Vec3 } from '../model.js';
import { UNMOVED } from '../tolerances.js';

/** What is needed of a barrier; the model's and the report's have it. */
export interface NamedBarrier extends ElementRef {
  readonly inferredFrom: string | null;
  readonly name: string;
  readonly kind: BarrierKind;
  readonly head: { readonly at: Vec3 | null } | null;
}

/** The barriers of a crossing now and of the same crossing before. */
export interface BarrierPair {
  readonly now: NamedBarrier;
  readonly before: NamedBarrier;
}

/** Walls that nothing passes have one place that tells which they are: where their top was compared with the structure. */
export function matchHeads(now: readonly NamedBarrier[], before: readonly NamedBarrier[]): BarrierPair[] {
  const isSame = (a: NamedBarrier, b: NamedBarrier): boolean => {
    const [at, was] = [a.head?.at, b.head?.at];
    return !!at && !!was && a.name === b.name && a.kind === b.kind && distance(at, was) <= UNMOVED;
  };
  return now.flatMap((a) => {
    const [b, ...others] = before.filter((one) => isSame(a, one));
    const isOnly = b && others.length === 0 && now.filter((one) => isSame(one, b)).length === 1;
    return isOnly ? [{ now: a, before: b }] : [];
  });
}

/**
 * Gives the GlobalId that keys of findings on a barrier go by: an earlier one where the barrier was known by that; null:
 * its own. Where crossings disagree (a wall was split, two were joined) the barrier is a new one.
 */
export function matchBarriers(
  now: readonly NamedBarrier[],
  before: readonly NamedBarrier[],
  pairs: readonly BarrierPair[],
): (barrier: NamedBarrier) => string | null {
  const present = new Set(now.map(({ globalId }) => globalId));
  const formerly = gathered(before.map((b) => [b.globalId, keyOf(b)]));
  // A name that a barrier of this revision goes by already is not given to another.
  const taken = new Set([...present].flatMap((id) => [...(formerly.get(id) ?? [id])]));
  const said = gathered(pairs.map((pair) => [refText(pair.now), keyOf(pair.before)]));
  const claimed = gathered(pairs.map((pair) => [keyOf(pair.before), refText(pair.now)]));
  return (barrier) => {
    const known = formerly.get(barrier.globalId);
    if (known) return otherThan(barrier, only(known));
    const inferred = only(said.get(refText(barrier)));
    if (inferred === undefined || taken.has(inferred) || only(claimed.get(inferred)) === undefined) return null;
    return otherThan(barrier, inferred);
  };
}

const keyOf = ({ inferredFrom, globalId }: NamedBarrier): string => inferredFrom ?? globalId;
const refText = ({ model, globalId }: NamedBarrier): string => `${model}/${globalId}`;
const otherThan = ({ globalId }: NamedBarrier, key: string | undefined): string | null =>
  key === undefined || key === globalId ? null : key;

function gathered(entries: readonly (readonly [string, string])[]): Map<string, Set<string>> {
  const sets = new Map<string, Set<string>>();
  for (const [key, value] of entries) sets.set(key, (sets.get(key) ?? new Set()).add(value));
  return sets;
}

const only = (values: ReadonlySet<string> | undefined): string | undefined =>
  values?.size === 1 ? [...values][0] : undefined;
