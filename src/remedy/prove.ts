/**
 * The proof of a change: it is made to the models in memory, everything near it is found and judged again, and the
 * findings before and after are compared by their keys.
 */
import { isFailedOrOpen } from '../attention.js';
import { inOrderOfRefs, nameOf } from '../element-refs.js';
import { type FindOptions, findInBuilding } from '../find/find-penetrations.js';
import type { Barrier, Change, Crossings, Federation, SingleChange } from '../model.js';
import { type BareFinding, type JudgeOptions, judgeOutcomes, type RuleSet } from '../rules/index.js';
import { apply } from './apply.js';
import type { Building } from './building.js';
import { type Changed, cutRound, reachOf } from './cut.js';
import { singlesOf } from './singles.js';
import { partOf, wideIn } from './within.js';

export interface Judging {
  readonly rules: RuleSet;
  readonly find: FindOptions;
  readonly judge: JudgeOptions;
}

export interface Proof {
  /** It mends what it is to mend, with nothing new. */
  readonly holds: boolean;
  /** Failed now, and did not before. */
  readonly broken: readonly BareFinding[];
}

/**
 * In a cut of its own: what one change moves may reach much further than another.
 *
 * @param mended keys of the findings that it is to mend
 */
export function prove(change: Change, mended: ReadonlySet<string>, building: Building, judging: Judging): Proof {
  const singles = singlesOf(change);
  const changed = changedBy(singles, building);
  const after = (cut: Federation) => outcomesIn(apply(cut, singles, building.penetrations), building, judging);
  const moves = changed.air.length > 0;
  const near = cutRound(building, changed, moves);
  const made = after(near);
  // Nothing is worse than in the building itself, as a rule; else what the cut leaves out may be why.
  const proof = proofOf(knownIn(near, building), measuredBy(changed, made, building), mended);
  if (proof.holds) return proof;
  const cut = moves ? near : cutRound(building, changed, true);
  return proofOf(outcomesIn(cut, building, judging), moves ? made : after(cut), mended);
}

/** What the review found of a part, where the part holds all of it. */
function knownIn({ airElements, barriers }: Federation, { passing, bad }: Building): Outcomes {
  const names = new Set([...airElements, ...barriers].map(nameOf));
  const whole = passing(airElements).filter(({ elements, barrier }) =>
    [...elements, barrier, ...barrier.leaves].every((one) => names.has(nameOf(one))),
  );
  return { findings: bad, penetrations: new Set(whole.map(({ key }) => key)) };
}

/** An opening alone bears on what is measured near it, and on nothing along a run. */
function measuredBy(changed: Changed, after: Outcomes, { nearby }: Building): Outcomes {
  if (changed.air.length > 0) return after;
  const names = new Set([...nearby.airElements(reachOf(changed)), ...changed.openings].map(nameOf));
  const isMeasured = ({ subject: { type, elements } }: BareFinding): boolean =>
    type !== 'run' && elements.some((one) => names.has(nameOf(one)));
  return { ...after, findings: new Map([...after.findings].filter(([, finding]) => isMeasured(finding))) };
}

/** What is not the same before and after; of a barrier its openings alone, since nothing else of it changes. */
function changedBy(
  changes: readonly SingleChange[],
  { element, barrier, federation, penetrations }: Building,
): Changed {
  const moves = changes.flatMap((one) => (one.kind === 'moveDuct' ? [...one.elements, ...one.lengths] : []));
  const opened = changes.flatMap((one) => ('barrier' in one ? one.barrier : []));
  const before = {
    origin: federation.origin,
    airElements: inOrderOfRefs(moves).flatMap((one) => element(one) ?? []),
    barriers: inOrderOfRefs(opened).flatMap((one) => barrier(one) ?? []),
  };
  const after = apply(before, changes, penetrations);
  const openingsIn = (barriers: readonly Barrier[]) => barriers.flatMap(({ openings }) => openings);
  const openings = notInBoth(openingsIn(before.barriers), openingsIn(after.barriers));
  // Where none is modelled it is the body of the barrier that has the hole.
  const bodies = notInBoth(before.barriers, after.barriers).filter(
    (one) => !one.openings.some((opening) => openings.includes(opening)),
  );
  return {
    air: notInBoth(before.airElements, after.airElements),
    openings: [...openings, ...bodies],
    barriers: before.barriers,
  };
}

function notInBoth<T>(before: readonly T[], after: readonly T[]): T[] {
  const [was, is] = [new Set(before), new Set(after)];
  return [...before.filter((one) => !is.has(one)), ...after.filter((one) => !was.has(one))];
}

export interface Outcomes {
  /** Those that are bad, by their keys. */
  readonly findings: ReadonlyMap<string, BareFinding>;
  readonly penetrations: ReadonlySet<string>;
}

function outcomesIn(federation: Federation, building: Building, { find, rules, judge }: Judging): Outcomes {
  const found = findInBuilding(federation, find, wideIn(federation, building)).crossings;
  const { crossings, wholeRuns } = partOf(found, building);
  return outcomesOf(crossings, { rules, judge: { ...judge, wholeRuns } });
}

export function outcomesOf(found: Crossings, { rules, judge }: Pick<Judging, 'rules' | 'judge'>): Outcomes {
  const results = judgeOutcomes(found, rules, judge);
  return {
    findings: badByKey(results),
    penetrations: new Set(found.penetrations.map(({ key }) => key)),
  };
}

/** Failed or open. Nothing else is compared: a place has a hundred results, and each key has to be worked out. */
export const badByKey = (results: readonly BareFinding[]): ReadonlyMap<string, BareFinding> =>
  new Map(results.filter(isFailedOrOpen).map((one) => [one.key, one]));

export function proofOf(before: Outcomes, after: Outcomes, mended: ReadonlySet<string>): Proof {
  const isSame =
    before.penetrations.size === after.penetrations.size &&
    [...before.penetrations].every((key) => after.penetrations.has(key));
  const isMended = [...mended].every(
    (key) => before.findings.get(key)?.outcome === 'failed' && !after.findings.has(key),
  );
  const worse = [...after.findings.values()].filter((is) => isWorse(before.findings.get(is.key), is));
  return {
    holds: isSame && isMended && worse.length === 0,
    broken: worse.filter(({ outcome }) => outcome === 'failed'),
  };
}

/** Of two that are bad, or one that was not: new; open before and failed now; or further beyond the limit of its own place than before. */
function isWorse(was: BareFinding | undefined, is: BareFinding): boolean {
  if (!was || (was.outcome === 'cantTell' && is.outcome === 'failed')) return true;
  return is.subject.type === 'penetration' && (is.margin ?? 0) < (was.margin ?? 0);
}
