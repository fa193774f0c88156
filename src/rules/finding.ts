import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { compareNumbers, compareTexts } from '../collect.js';
import type { Finding, Outcome } from '../model.js';
import type { Verdict } from './evaluate.js';
import { relativeMargin } from './limit.js';
import type { CompiledCheck } from './rule-set.js';
import { say } from './say.js';
import type { Subject } from './subject.js';

/** A verdict with all that it belongs to, before it is decided whether and in which place it is listed. */
export interface Candidate {
  readonly check: CompiledCheck;
  readonly subject: Subject;
  readonly verdict: Verdict;
}

export interface Keyed {
  readonly candidate: Candidate;
  readonly key: string;
}

/** All have keys before some are left out, so that a finding's key does not depend on what is listed. */
export const withKeys = (candidates: readonly Candidate[]): Keyed[] =>
  withNames(candidates).map(({ candidate, name }) => ({ candidate, key: hash(name) }));

/** Puts candidates in order, numbers them and puts them into words. */
export function toFindings(
  keyed: readonly Keyed[],
  isListed: (candidate: Candidate) => boolean,
  waiting: ReadonlyMap<Candidate, ReadonlySet<string>>,
): Finding[] {
  return keyed
    .filter(({ candidate }) => isListed(candidate))
    .sort(inOrder)
    .map(({ candidate, key }, i) => toFinding(candidate, key, i + 1, waiting.get(candidate)?.size ?? 0));
}

/** A finding without its words and its place in a list. */
export type BareFinding = Pick<
  Finding,
  'key' | 'check' | 'outcome' | 'wouldBe' | 'subject' | 'side' | 'at' | 'measured' | 'limit' | 'margin' | 'tolerance'
>;

/** All of them, for who compares outcomes by key: most of the time that findings take goes into words. */
export const bareFindings = (keyed: readonly Keyed[]): BareFinding[] =>
  keyed.map(({ candidate, key }) => bare(candidate, key));

const bare = ({ check, subject, verdict }: Candidate, key: string): BareFinding => ({
  key,
  check: check.definition.id,
  outcome: verdict.outcome,
  wouldBe: verdict.wouldBe,
  subject: subject.subject,
  side: subject.side,
  at: subject.at,
  measured: verdict.measured,
  limit: verdict.limit,
  margin: verdict.margin,
  tolerance: verdict.tolerance,
});

function toFinding(candidate: Candidate, key: string, number: number, waiting: number): Finding {
  const { check, subject, verdict } = candidate;
  return {
    id: `F-${String(number).padStart(4, '0')}`,
    ...bare(candidate, key),
    ...say(check, verdict, subject.facts, waiting),
    change: null,
    missing: verdict.missing,
    concession: null,
  };
}

/** Where GlobalIds repeat, subjects share a key; then the place decides on a number that tells their findings apart. */
function withNames(candidates: readonly Candidate[]): { candidate: Candidate; name: string }[] {
  const groups = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const name = [candidate.check.definition.id, candidate.verdict.reason ?? '', candidate.subject.key].join('\n');
    const group = groups.get(name);
    if (group) group.push(candidate);
    else groups.set(name, [candidate]);
  }
  return [...groups].flatMap(([name, group]) =>
    (group.length < 2 ? group : group.sort((a, b) => compareTexts(placeOf(a), placeOf(b)))).map((candidate, i) => ({
      candidate,
      name: i === 0 ? name : `${name}\n${i + 1}`,
    })),
  );
}

const placeOf = ({ subject, verdict }: Candidate): string =>
  JSON.stringify([subject.subject.elements, subject.at, subject.barrier, verdict]);

/** 64 bits: a project has thousands of findings, not billions. */
const hash = (text: string): string => bytesToHex(sha256(utf8ToBytes(text))).slice(0, 16);

const OUTCOME_ORDER: readonly Outcome[] = ['failed', 'cantTell', 'passed', 'inapplicable', 'untested'];

/** By outcome, then rating (higher first), then relative margin (worst first), then key. */
function inOrder(a: Keyed, b: Keyed): number {
  return (
    compareNumbers(outcomeRank(a), outcomeRank(b)) ||
    compareNumbers(b.candidate.subject.rank, a.candidate.subject.rank) ||
    compareNumbers(marginRank(a), marginRank(b)) ||
    compareTexts(a.key, b.key)
  );
}

const outcomeRank = ({ candidate }: Keyed): number => OUTCOME_ORDER.indexOf(candidate.verdict.outcome);

/** What has no margin comes after what is missed and before what is met. */
function marginRank({ candidate: { verdict } }: Keyed): number {
  const { measured, limit, margin } = verdict;
  return typeof measured === 'number' && limit && margin !== null ? relativeMargin(measured, limit, margin) : 0;
}
