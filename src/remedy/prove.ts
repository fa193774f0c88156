/**
 * The proof of a change: it is made to the models in memory, everything near it is found and judged again, and the
 * findings before and after are compared by their keys.
 */
import { isOpen } from '../attention.js';
import { nameOf } from '../element-refs.js';
import { type BuildingWide, type FindOptions, findInBuilding } from '../find/find-penetrations.js';
import type { BarrierFacts, Change, Crossings, Federation, Penetration } from '../model.js';
import { type BareFinding, type JudgeOptions, judgeOutcomes, type RuleSet } from '../rules/index.js';
import type { MayChange } from './allowed.js';
import { apply } from './apply.js';
import type { Building } from './building.js';
import { type Changed, cutRound } from './cut.js';
import { singlesOf } from './singles.js';

export interface Judging {
  readonly rules: RuleSet;
  readonly find: FindOptions;
  readonly judge: JudgeOptions;
}

/** What a change brings: whether it mends these findings, given by their keys, with no new one; else the new ones. */
export type Prover = (change: Change, mended: ReadonlySet<string>) => Proof;

export interface Proof {
  readonly holds: boolean;
  /** Failed now, and did not before. */
  readonly broken: readonly BareFinding[];
}

/** @param changes what is tried first in one place; all others there are compared in the same cut */
export function proverOf(
  building: Building,
  changes: readonly Change[],
  { ductBy }: MayChange,
  judging: Judging,
): Prover {
  const { federation } = building;
  const after = (within: Federation, change: Change) => apply(within, singlesOf(change), building.penetrations);
  const cut = cutRound(
    building,
    changes.flatMap((change) => changedIn(federation, after(federation, change))),
    ductBy,
  );
  const before = outcomesIn(cut, building, judging);
  return (change, mended) => proofOf(before, outcomesIn(after(cut, change), building, judging), mended);
}

/** What is not the same before and after; of a barrier its openings alone, since nothing else of it changes. */
function changedIn(before: Federation, after: Federation): Changed[] {
  const changed = <T extends Changed['element']>(a: readonly T[], b: readonly T[]) =>
    [...a.filter((one) => !b.includes(one)), ...b.filter((one) => !a.includes(one))].map((element) => ({ element }));
  const air = changed(before.airElements, after.airElements);
  const barriers = changed(before.barriers, after.barriers).map(({ element }) => element);
  const openings = barriers
    .flatMap((one) => one.openings)
    .filter((one, _, all) => all.indexOf(one) === all.lastIndexOf(one));
  const bodies = barriers.filter((one) => !one.openings.some((opening) => openings.includes(opening)));
  return [
    ...air.map((one) => ({ ...one, isAir: true })),
    ...[...openings, ...bodies].map((element) => ({ element, isAir: false })),
  ];
}

export interface Outcomes {
  readonly findings: ReadonlyMap<string, BareFinding>;
  readonly penetrations: ReadonlySet<string>;
}

function outcomesIn(federation: Federation, building: Building, { find, ...judging }: Judging): Outcomes {
  const found = findInBuilding(federation, find, wideIn(federation, building)).crossings;
  const crossings = { ...found, compartments: compartmentsIn(found) };
  return outcomesOf(withKeysOf(crossings, building.crossings), judging);
}

export function outcomesOf(found: Crossings, { rules, judge }: Pick<Judging, 'rules' | 'judge'>): Outcomes {
  const results = judgeOutcomes(found, rules, judge);
  return {
    findings: new Map(results.map((finding) => [finding.key, finding])),
    penetrations: new Set(found.penetrations.map(({ key }) => key)),
  };
}

/** Of all compartments of the building those that the cut has to do with. */
function compartmentsIn({ compartments, penetrations, runs }: Crossings): Crossings['compartments'] {
  const ids = new Set([
    ...penetrations.flatMap((one) => one.compartments),
    ...runs.flatMap(({ stretches }) => stretches.map(({ compartment }) => compartment)),
  ]);
  return compartments.filter(({ id }) => ids.has(id));
}

/** An opening that is a little larger or smaller changes neither how a wall meets the structure nor a compartment. */
function wideIn({ barriers }: Federation, { federation, wide }: Building): BuildingWide {
  const whole = new Map(federation.barriers.map((barrier) => [nameOf(barrier), barrier]));
  const heads = barriers.flatMap((barrier) => {
    const head = wide.heads.get(whole.get(nameOf(barrier))!);
    return head ? [[barrier, head] as const] : [];
  });
  return { ...wide, heads: new Map(heads) };
}

/** An earlier report may have given its keys on. */
function withKeysOf(found: Crossings, whole: Crossings): Crossings {
  const carried = whole.penetrations.filter(({ inferredFrom }) => inferredFrom !== null);
  const names = new Map(whole.barriers.map((barrier) => [nameOf(barrier), barrier.inferredFrom]));
  const byOwn = new Map(carried.map((p) => [p.inferredFrom!.ownKey, p]));
  const named = <T extends BarrierFacts>(barrier: T): T => ({
    ...barrier,
    inferredFrom: names.get(nameOf(barrier)) ?? null,
  });
  return {
    ...found,
    barriers: found.barriers.map(named),
    facingEnds: found.facingEnds.map((ends) => ({ ...ends, barrier: named(ends.barrier) })),
    penetrations: found.penetrations.map((p): Penetration => {
      const known = byOwn.get(p.key);
      const barrier = named(p.barrier);
      return known ? { ...p, barrier, key: known.key, inferredFrom: known.inferredFrom } : { ...p, barrier };
    }),
  };
}

const isBad = (finding: BareFinding): boolean => finding.outcome === 'failed' || isOpen(finding);

export function proofOf(before: Outcomes, after: Outcomes, mended: ReadonlySet<string>): Proof {
  const isSame =
    before.penetrations.size === after.penetrations.size &&
    [...before.penetrations].every((key) => after.penetrations.has(key));
  const isMended = [...mended].every((key) => {
    const is = after.findings.get(key);
    return before.findings.get(key)?.outcome === 'failed' && !(is && isBad(is));
  });
  const worse = [...after.findings.values()].filter((is) => isWorse(before.findings.get(is.key), is));
  return {
    holds: isSame && isMended && worse.length === 0,
    broken: worse.filter(({ outcome }) => outcome === 'failed'),
  };
}

/** Failed or open and was not; open and failed now; or further beyond the limit of its own place than before. */
function isWorse(was: BareFinding | undefined, is: BareFinding): boolean {
  if (!isBad(is)) return false;
  if (!was || !isBad(was) || (was.outcome === 'cantTell' && is.outcome === 'failed')) return true;
  return is.subject.type === 'penetration' && (is.margin ?? 0) < (was.margin ?? 0);
}
