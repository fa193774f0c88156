/** How often each check came to each outcome. */
import type { CheckResult, Outcome, RuleStatus } from '../model.js';
import type { Result } from './finding.js';
import { textOf } from './read-fact.js';
import { type CompiledCheck, RULE_STATUSES } from './rule-set.js';

/** Of several systems that were gone by, the one that proves least; where none was chosen nothing is proved. */
function statusOf(basis: RuleStatus | 'system', judged: readonly Result[]): RuleStatus {
  if (basis !== 'system') return basis;
  const used = judged.map(({ about }) => textOf(about.facts, 'system.status'));
  return RULE_STATUSES.findLast((status) => used.includes(status)) ?? 'unverified';
}

/** Results that are kept are counted once. */
const COUNTED = new WeakMap<readonly Result[], CheckResult>();

export function countedOnce(check: CompiledCheck, judged: readonly Result[]): CheckResult {
  const counted = COUNTED.get(judged) ?? resultOf(check, judged);
  COUNTED.set(judged, counted);
  return counted;
}

function resultOf({ definition }: CompiledCheck, judged: readonly Result[]): CheckResult {
  const { code } = definition.basis;
  const count = (outcome: Outcome): number => judged.filter(({ verdict }) => verdict.outcome === outcome).length;
  return {
    id: definition.id,
    title: definition.title,
    about: definition.about,
    unit: definition.unit ?? null,
    stops: definition.stops ?? null,
    basis: {
      source: definition.basis.source,
      clause: definition.basis.clause ?? null,
      status: statusOf(definition.basis.status, judged),
      jurisdiction: code?.jurisdiction ?? null,
      edition: code?.edition ?? null,
    },
    outcomes: {
      passed: count('passed'),
      failed: count('failed'),
      cantTell: count('cantTell'),
      inapplicable: count('inapplicable'),
      untested: count('untested'),
      wouldPass: judged.filter(({ verdict }) => verdict.wouldBe === 'passed').length,
    },
  };
}
