import type { RuleSet } from '../src/rules/rule-set.js';

/**
 * What checks say is remembered by the list that they stand in. Whoever asks these rules for it gets a list of its own, so
 * that a test judges anew, and again when it runs with a mutant; `{ ...rules }` is one list to judge many times by.
 */
export function askedAnew(rules: RuleSet): RuleSet {
  return {
    ...rules,
    get checks() {
      return [...rules.checks];
    },
  };
}
