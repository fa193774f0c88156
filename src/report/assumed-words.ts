/** What was assumed and what would change, for the summary and for report.html. */
import type { Outcome } from '../model.js';
import { counted, listed } from '../words/text.js';
import { OUTCOME_WORDS } from '../words/values.js';
import type { Assumed } from './schema.js';

export interface AssumedWords {
  /** `siteTolerance is 5 (the brief: 0)`. */
  readonly choices: readonly string[];
  /** What becomes of the counts. */
  readonly counts: readonly string[];
  readonly goes: readonly string[];
  readonly comes: readonly string[];
}

export function assumedWords({ choices, outcomes, penetrationOutcomes, goes, comes }: Assumed): AssumedWords {
  const value = (one: unknown): string => (one === null || one === undefined ? 'left out' : JSON.stringify(one));
  return {
    choices: choices.map((one) => `${one.name} is ${value(one.value)} (in the brief: ${value(one.before)})`),
    counts: [
      `Penetrations: ${countWords(penetrationOutcomes)}.`,
      `Results of all checks: ${countWords(outcomes)}.`,
      `${counted(goes.length, 'finding')} would go or change, ${counted(comes.length, 'finding')} would come or change.`,
    ],
    goes: goes.map(
      ({ key, check, outcome, other, message }) =>
        `${check} ${key}, ${word(outcome)}${other === null ? '' : ` now, ${word(other)} then`}: ${message}`,
    ),
    comes: comes.map(
      ({ key, check, outcome, other, message }) =>
        `${check} ${key}, ${word(outcome)} then${other === null ? '' : `, ${word(other)} now`}: ${message}`,
    ),
  };
}

const word = (outcome: Outcome): string => OUTCOME_WORDS[outcome].toLowerCase();

const COUNTED = ['failed', 'cantTell', 'passed'] as const;

/** `12 failed (now 14), 3 can't tell (as now)`. */
const countWords = ({ before, after }: Assumed['outcomes']): string =>
  listed(
    COUNTED.map(
      (outcome) =>
        `${after[outcome]} ${word(outcome)} (${after[outcome] === before[outcome] ? 'as now' : `now ${before[outcome]}`})`,
    ),
  );
