/** Counts of outcomes. */
import type { CheckResult, Outcome } from '../model.js';
import type { OutcomeCounts } from './schema.js';

const counted = (count: (outcome: Outcome) => number): OutcomeCounts => ({
  passed: count('passed'),
  failed: count('failed'),
  cantTell: count('cantTell'),
  inapplicable: count('inapplicable'),
  untested: count('untested'),
});

export const sumOutcomes = (checks: readonly CheckResult[]): OutcomeCounts =>
  counted((outcome) => checks.reduce((total, check) => total + check.outcomes[outcome], 0));

export const countOutcomes = (outcomes: readonly Outcome[]): OutcomeCounts =>
  counted((outcome) => outcomes.filter((one) => one === outcome).length);
