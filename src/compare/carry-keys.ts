/** Keys and tags of the report before, carried over to what was found now, before it is judged: findings' keys follow. */
import { facingEndsKey, issueTags, penetrationKey } from '../find/keys.js';
import { distance } from '../geometry/vector.js';
import type { BarrierFacts, Crossings, FacingEnds, InferredFrom, Penetration } from '../model.js';
import { issuedIn } from '../report/issued-tags.js';
import type { Report, ReportFacingEnds, ReportPenetration } from '../report/schema.js';
import { SAME_SIZE, UNMOVED } from '../tolerances.js';
import { type Match, matchPenetrations } from './match.js';
import { type BarrierPair, matchBarriers, matchHeads, type NamedBarrier } from './match-barriers.js';

export function carryKeys(crossings: Crossings, previous: Report): Crossings {
  const matches = matchPenetrations(crossings.penetrations, previous.penetrations);
  const facing = matchFacingEnds(crossings.facingEnds, previous.facingEnds);
  const nameOf = barrierNames(crossings, previous, matches, facing);
  const named = <T extends { readonly barrier: BarrierFacts }>(one: T): T => ({
    ...one,
    barrier: { ...one.barrier, inferredFrom: nameOf(one.barrier) },
  });
  const keys = carriedKeys(crossings.penetrations, matches);
  const tags = issueTags(
    [...keys.values()].map(({ key }) => key),
    issuedIn(previous),
  );
  return {
    ...crossings,
    barriers: crossings.barriers.map((barrier) => ({ ...barrier, inferredFrom: nameOf(barrier) })),
    penetrations: crossings.penetrations.map((p) => {
      const { key, inferredFrom } = keys.get(p)!;
      return named({ ...p, key, inferredFrom, tag: tags.get(key)! });
    }),
    facingEnds: crossings.facingEnds.map((ends) => named({ ...ends, key: facing.get(ends)?.key ?? ends.key })),
  };
}

interface WithBarrier {
  readonly barrier: NamedBarrier;
}

/** The GlobalId that keys go by of each barrier now; null: its own. See {@link matchBarriers}. */
export function barrierNames(
  now: { readonly barriers: readonly NamedBarrier[] },
  before: { readonly barriers: readonly NamedBarrier[] },
  matches: ReadonlyMap<WithBarrier, { readonly before: WithBarrier }>,
  facing: ReadonlyMap<WithBarrier, WithBarrier>,
): (barrier: NamedBarrier) => string | null {
  const pairs: BarrierPair[] = [
    ...[...matches].map(([p, match]) => ({ now: p.barrier, before: match.before.barrier })),
    ...[...facing].map(([ends, was]) => ({ now: ends.barrier, before: was.barrier })),
    ...matchHeads(now.barriers, before.barriers),
  ];
  return matchBarriers(now.barriers, before.barriers, pairs);
}

type Named = Pick<Penetration, 'key' | 'inferredFrom'>;

function carriedKeys(
  penetrations: readonly Penetration[],
  matches: ReadonlyMap<Penetration, Match<ReportPenetration>>,
): Map<Penetration, Named> {
  const keys = new Map([...matches].map(([p, match]) => [p, carried(p, match)]));
  const taken = new Set([...keys.values()].map(({ key }) => key));
  for (const p of penetrations) {
    if (keys.has(p)) continue;
    const key = freeKey(p.key, taken);
    taken.add(key);
    keys.set(p, { key, inferredFrom: null });
  }
  return keys;
}

function carried({ key }: Penetration, { before, inferred }: Match<ReportPenetration>): Named {
  if (!inferred && key === before.key) return { key, inferredFrom: null };
  const madeOf: Omit<InferredFrom, 'ownKey'> = before.inferredFrom ?? {
    duct: before.duct.globalId,
    barrier: before.barrier.globalId,
  };
  return { key: before.key, inferredFrom: { duct: madeOf.duct, barrier: madeOf.barrier, ownKey: key } };
}

/** GlobalIds that come back after another element took their key over get a key of their own. */
function freeKey(own: string, taken: ReadonlySet<string>): string {
  let key = own;
  for (let n = 2; taken.has(key); n++) key = penetrationKey(own, '', n);
  return key;
}

/** By the ends' GlobalIds; else the only ones of their system at the same place. */
export function matchFacingEnds<A extends FacingEnds | ReportFacingEnds>(
  now: readonly A[],
  before: readonly ReportFacingEnds[],
): Map<A, ReportFacingEnds> {
  const idsOf = ({ ends }: A | ReportFacingEnds) => facingEndsKey(ends.map(({ globalId }) => globalId));
  const byIds = new Map(before.map((b) => [idsOf(b), b]));
  const matches = new Map(now.flatMap((a) => (byIds.has(idsOf(a)) ? [[a, byIds.get(idsOf(a))!] as const] : [])));
  const left = before.filter((b) => ![...matches.values()].includes(b));
  const isLike = (a: A, b: ReportFacingEnds) =>
    a.system === b.system &&
    a.barrier.kind === b.barrier.kind &&
    distance(a.position, b.position) <= UNMOVED &&
    Math.abs(a.distance - b.distance) <= SAME_SIZE;
  const others = now.filter((a) => !matches.has(a));
  for (const a of others) {
    const [b, ...more] = left.filter((one) => isLike(a, one));
    if (b && more.length === 0 && others.filter((one) => isLike(one, b)).length === 1) matches.set(a, b);
  }
  return matches;
}
