/**
 * The proof of a change: it is made to the models in memory, everything near it is found and judged again, and the
 * findings before and after are compared by their keys.
 */
import { nameOf } from '../element-refs.js';
import { type FindOptions, findPenetrations } from '../find/find-penetrations.js';
import { type Box, boxOf } from '../geometry/box.js';
import type { BarrierFacts, Change, Crossings, Federation, Finding, Penetration, SingleChange } from '../model.js';
import { type JudgeOptions, judgeWithResults, type RuleSet } from '../rules/index.js';
import { apply } from './apply.js';
import type { Building } from './building.js';
import { cutRound } from './cut.js';

export interface Judging {
  readonly rules: RuleSet;
  readonly find: FindOptions;
  readonly judge: JudgeOptions;
}

export const singles = (change: Change): readonly SingleChange[] =>
  change.kind === 'several' ? change.changes : [change];

/** Whether the change mends these findings, given by their keys, and brings no new one. */
export type Prover = (change: Change, mended: ReadonlySet<string>) => boolean;

/** @param changes all that may be tried in one place, so that they are compared in one cut */
export function proverOf(building: Building, changes: readonly Change[], judging: Judging): Prover {
  const { federation } = building;
  const after = (within: Federation, change: Change) => apply(within, singles(change), building.penetrations);
  const touched = changes.flatMap((change) => changedBoxes(federation, after(federation, change)));
  const cut = cutRound(building, touched);
  const before = outcomesIn(cut, building.crossings, judging);
  return (change, mended) => isBetter(before, outcomesIn(after(cut, change), building.crossings, judging), mended);
}

/** Of elements that are not the same before and after; of a barrier its openings alone, since nothing else of it changes. */
function changedBoxes(before: Federation, after: Federation): Box[] {
  const changed = <T extends { readonly bodies: Federation['airElements'][number]['bodies'] }>(
    a: readonly T[],
    b: readonly T[],
  ) => [...a.filter((one) => !b.includes(one)), ...b.filter((one) => !a.includes(one))];
  const barriers = changed(before.barriers, after.barriers);
  const openings = barriers
    .flatMap((one) => one.openings)
    .filter((one, _, all) => all.indexOf(one) === all.lastIndexOf(one));
  const holes = barriers.filter((one) => openings.every((opening) => !one.openings.includes(opening)));
  return [...changed(before.airElements, after.airElements), ...openings, ...holes]
    .filter(({ bodies }) => bodies.length > 0)
    .map(({ bodies }) => boxOf(bodies));
}

interface Outcomes {
  readonly findings: ReadonlyMap<string, Finding>;
  readonly penetrations: ReadonlySet<string>;
}

function outcomesIn(federation: Federation, whole: Crossings, { rules, find, judge }: Judging): Outcomes {
  const found = withKeysOf(findPenetrations(federation, find), whole);
  const { results } = judgeWithResults(found, rules, { ...judge, models: federation.models, allFindings: true });
  return {
    findings: new Map(results.map((finding) => [finding.key, finding])),
    penetrations: new Set(found.penetrations.map(({ key }) => key)),
  };
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

const isOpen = ({ outcome, wouldBe }: Finding): boolean => outcome === 'cantTell' && wouldBe === null;
const isBad = (finding: Finding): boolean => finding.outcome === 'failed' || isOpen(finding);

function isBetter(before: Outcomes, after: Outcomes, mended: ReadonlySet<string>): boolean {
  const isSame =
    before.penetrations.size === after.penetrations.size &&
    [...before.penetrations].every((key) => after.penetrations.has(key));
  if (!isSame) return false;
  for (const key of mended) {
    const was = before.findings.get(key);
    const is = after.findings.get(key);
    if (was?.outcome !== 'failed' || (is && isBad(is))) return false;
  }
  for (const [key, is] of after.findings) {
    if (!isBad(is)) continue;
    const was = before.findings.get(key);
    if (!was || !isBad(was) || (was.outcome === 'cantTell' && is.outcome === 'failed')) return false;
    if (is.subject.type === 'penetration' && (is.margin ?? 0) < (was.margin ?? 0)) return false;
  }
  return true;
}
