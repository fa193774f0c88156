/** Which concession of the brief stands beside which finding, and why one is not in force. Outcomes are not touched. */
import { needsAttention } from '../attention.js';
import { fileUnder } from '../collect.js';
import type { Concession, Finding, Limit } from '../model.js';
import type { BareFinding, BriefConcession } from '../rules/index.js';
import { rounded } from '../rules/limit.js';
import { limitWords, OUTCOME_WORDS, valueWords } from '../words/values.js';
import type { ListedConcession } from './schema.js';

export interface Concessions {
  readonly list: readonly ListedConcession[];
  /** What stands beside a finding; null: nothing. */
  readonly beside: (finding: Finding) => Concession | null;
}

/**
 * @param results every result: a concession of what has passed is told from one whose finding is no more
 * @param listed the part of them that has ids in the report
 * @param createdAt of the review, ISO 8601; its day is the day on which concessions must hold
 */
export function concessionsOn(
  given: readonly BriefConcession[],
  results: readonly BareFinding[],
  createdAt: string,
  listed: readonly Pick<Finding, 'id' | 'key'>[],
): Concessions {
  const ids = new Map(listed.map(({ key, id }) => [key, id]));
  const byKey = new Map<string, BareFinding[]>();
  // Keys of all results are worked out only where one is asked for.
  if (given.length > 0) for (const finding of results) fileUnder(byKey, finding.key, finding);
  const list = given.map(({ note: _, ...one }): ListedConcession => {
    const findings = byKey.get(one.key) ?? [];
    const state = stateOf(one, findings, createdAt.slice(0, 10));
    const isBeside = state.state === 'inForce' || state.state === 'lapsed';
    return { ...one, expires: one.expires ?? null, ...state, finding: isBeside ? (ids.get(one.key) ?? null) : null };
  });
  const standing = new Map(list.flatMap((one) => (one.finding === null ? [] : [[one.key, one] as const])));
  return {
    list,
    beside: ({ key }) => {
      const one = standing.get(key);
      if (!one || (one.state !== 'inForce' && one.state !== 'lapsed')) return null;
      const { reason, grantedBy, role, reference, date, expires, state, because } = one;
      return { reason, grantedBy, role, reference, date, expires, state, because };
    },
  };
}

type State = Pick<ListedConcession, 'state' | 'because'>;

function stateOf(one: BriefConcession, findings: readonly BareFinding[], day: string): State {
  const [finding, ...others] = findings;
  if (!finding) return { state: 'stale', because: 'no finding has its key any more' };
  if (others.length > 0) return { state: 'refused', because: `${findings.length} findings have its key` };
  if (!needsAttention(finding)) {
    const what =
      finding.wouldBe === 'passed' ? 'meets its limit' : `is ${OUTCOME_WORDS[finding.outcome].toLowerCase()}`;
    return { state: 'refused', because: `there is nothing to concede: what it is about ${what}` };
  }
  const because = whyLapsed(one, finding, day);
  return { state: because === null ? 'inForce' : 'lapsed', because };
}

function whyLapsed({ date, expires, measured, limit }: BriefConcession, now: BareFinding, day: string): string | null {
  if (date > day) return `it is dated ${date}, after this review`;
  if (expires !== undefined && expires < day) return `it expired on ${expires}`;
  const value = (one: Finding['measured']) => (one === null ? 'not known' : valueWords(one));
  if (!isSame(measured, now.measured)) return `measured was ${value(measured)} and is ${value(now.measured)}`;
  const bounds = (one: Limit | null) => (one === null ? 'not known' : limitWords(one));
  if (!isSameLimit(limit, now.limit)) return `the limit was ${bounds(limit)} and is ${bounds(now.limit)}`;
  return null;
}

type Value = Finding['measured'] | undefined;

const isSame = (a: Value, b: Value): boolean => written(a) === written(b);

/** Binary noise of a number is no change. */
const written = (value: Value): Value => (value === null || value === undefined ? null : rounded(value, undefined));

function isSameLimit(a: Limit | null, b: Limit | null): boolean {
  if (a === null || b === null) return a === b;
  const [some, other] = [a.among ?? [], b.among ?? []];
  return (
    isSame(a.atLeast, b.atLeast) &&
    isSame(a.atMost, b.atMost) &&
    isSame(a.equals, b.equals) &&
    some.length === other.length &&
    some.every((value, i) => isSame(value, other[i]))
  );
}
