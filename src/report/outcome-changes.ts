/** What became of outcomes after a change, in one line. */
import { type CheckResult, OUTCOMES, type Outcome } from '../model.js';
import { OUTCOME_WORDS } from '../words/values.js';
import { sumOutcomes } from './outcome-counts.js';
import type { OutcomeCounts } from './schema.js';

export interface OutcomeChanges {
  readonly outcomes: OutcomeCounts;
  /** Null: nothing was judged before. */
  readonly before: OutcomeCounts | null;
  /** Checks whose outcomes are others than before; null: there is no such check. */
  readonly checks: readonly {
    readonly id: string;
    readonly before: OutcomeCounts | null;
    readonly after: OutcomeCounts | null;
  }[];
}

/** @param before left out: nothing was judged before */
export function outcomeChanges(
  before: readonly CheckResult[] | undefined,
  after: readonly CheckResult[],
): OutcomeChanges {
  const [old, now] = [before ?? [], after].map((checks) => new Map(checks.map(({ id, outcomes }) => [id, outcomes])));
  const ids = before ? [...new Set([...now!.keys(), ...old!.keys()])] : [];
  return {
    outcomes: sumOutcomes(after),
    before: before ? sumOutcomes(before) : null,
    checks: ids
      .map((id) => ({ id, before: old!.get(id) ?? null, after: now!.get(id) ?? null }))
      .filter((check) => OUTCOMES.some((one) => check.before?.[one] !== check.after?.[one])),
  };
}

/** Those that a line has room for. */
const MOST_CHECKS = 4;

/** E.g. `failed 12 → 15, can't tell 40, passed 300; gap-within-tested-range: failed 2 → 5`. */
export function outcomeChangesLine({ outcomes, before, checks }: OutcomeChanges): string {
  const total = (['failed', 'cantTell', 'passed'] as const).map((one) => moved(one, before?.[one], outcomes[one]));
  if (before === null) return total.join(', ');
  if (checks.length === 0) return `${total.join(', ')}; as before`;
  const shown = checks.slice(0, MOST_CHECKS).map((check) => `${check.id}: ${checkWords(check)}`);
  const rest = checks.length - shown.length;
  return [total.join(', '), ...shown, ...(rest > 0 ? [`and ${rest} more checks`] : [])].join('; ');
}

function checkWords({ before, after }: OutcomeChanges['checks'][number]): string {
  if (after === null) return 'is no longer there';
  const told = OUTCOMES.filter((one) => (before?.[one] ?? 0) !== after[one]);
  const words = told.map((one) => moved(one, before?.[one], after[one]));
  return before === null ? `new, ${words.join(', ') || 'nothing to judge'}` : words.join(', ');
}

function moved(outcome: Outcome, before: number | undefined, after: number): string {
  const name = OUTCOME_WORDS[outcome].toLowerCase();
  return before === undefined || before === after ? `${name} ${after}` : `${name} ${before} → ${after}`;
}
