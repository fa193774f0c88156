import type { Limit, Tolerance, Unit } from '../model.js';
import { oneLine } from '../words/text.js';
import { limitWords, valueWords } from '../words/values.js';
import type { Verdict } from './evaluate.js';
import { type Fact, type FactObject, type FactValue, factAt, isGroup } from './fact-schema.js';
import { neededMargin, within } from './limit.js';
import { factOf, isObject } from './read-fact.js';
import type { CompiledCheck } from './rule-set.js';
import { fillTemplate, type Special } from './template.js';
import { GENERIC, missingWords, NOT_KNOWN } from './words.js';

export interface Said {
  readonly message: string;
  readonly remedy: string | null;
}

/** Puts a verdict into words, by the templates of its check or, where it has none, by the general ones. */
export function say(check: CompiledCheck, verdict: Verdict, facts: FactObject, waiting: number): Said {
  const wordsFor = (name: string): string => specialWords(name, check, verdict, waiting) ?? factWords(facts, name);
  const remedy = remedyTemplate(check, verdict);
  // A remedy has to end inside the limit by what the margin must hold.
  const { by } = specialOf(check, verdict, waiting, verdict.tolerance);
  return {
    message: fillTemplate(messageTemplate(check, verdict), wordsFor),
    remedy: remedy === undefined ? null : fillTemplate(remedy, (name) => (name === 'by' ? by() : wordsFor(name))),
  };
}

function messageTemplate(check: CompiledCheck, verdict: Verdict): string {
  const { each, title, message, basis } = check.definition;
  if (verdict.outcome === 'inapplicable') return GENERIC.inapplicable(each, title);
  const isNumber = typeof verdict.measured === 'number';
  if (verdict.outcome === 'passed') {
    return check.measure ? GENERIC.passed(each, title, isNumber) : GENERIC.nothingAgainst(each, title);
  }
  if (verdict.wouldBe === 'passed') {
    const source = check.proof === 'system' ? '{system.name}: {system.status}' : basis.source;
    return GENERIC.wouldPass(each, title, source, isNumber);
  }
  if (verdict.open === 'margin' && verdict.tolerance)
    return GENERIC.withoutMargin(each, title, check.proof === 'system', verdict.tolerance);
  const reason = reasonOf(check, verdict);
  if (reason) return reason.message;
  if (verdict.problem !== null) return GENERIC.problem(each, title, verdict.problem);
  if (verdict.outcome === 'failed' && message) return message.failed;
  const areMissing = verdict.missing.length > 1;
  if (verdict.open === 'code' && basis.code) return GENERIC.ofCode(each, title, basis.code, areMissing);
  if (verdict.open === 'applies') return GENERIC.undecided(each, title, areMissing);
  // The check's own words speak of what it measures; of anything else that is missing they may not be true.
  return verdict.open === 'measure' && message ? message.cantTell : GENERIC.missing(each, title, areMissing);
}

function remedyTemplate(check: CompiledCheck, verdict: Verdict): string | undefined {
  const reason = reasonOf(check, verdict);
  if (reason) return reason.remedy;
  if (verdict.open === 'margin' && verdict.limit && verdict.tolerance)
    return GENERIC.moreMargin(verdict.tolerance, isPossible(within(verdict.limit, verdict.tolerance)));
  if (verdict.outcome === 'failed') return check.definition.remedy?.failed;
  // It says how to supply what is measured, so it helps with nothing else that is missing.
  const lacksMeasure = verdict.open === 'measure' && verdict.problem === null;
  return lacksMeasure ? check.definition.remedy?.cantTell : undefined;
}

const reasonOf = (check: CompiledCheck, verdict: Verdict) =>
  verdict.reason === null
    ? undefined
    : check.reasons.find(({ definition }) => definition.reason === verdict.reason)?.definition;

function specialWords(name: string, check: CompiledCheck, verdict: Verdict, waiting: number): string | undefined {
  const words = specialOf(check, verdict, waiting, null);
  return Object.hasOwn(words, name) ? words[name as Special]() : undefined;
}

/** Whether any value is left. */
const isPossible = ({ atLeast, atMost }: Limit): boolean =>
  atLeast === undefined || atMost === undefined || atLeast <= atMost;

/** @param tolerance what is still to be gone beyond the limit; null: it is the limit that counts */
function specialOf(
  check: CompiledCheck,
  { measured, limit, margin, missing }: Verdict,
  waiting: number,
  tolerance: Tolerance | null,
): { readonly [S in Special]: () => string } {
  const { unit } = check.definition;
  const beyond = tolerance ? neededMargin(tolerance) : 0;
  return {
    measured: () => (measured === null ? NOT_KNOWN : wordsOf(check.measure?.fact, measured, unit)),
    limit: () => (limit === null ? NOT_KNOWN : limitWords(limit, unit)),
    atLeast: () => (limit?.atLeast === undefined ? NOT_KNOWN : valueWords(limit.atLeast, unit)),
    atMost: () => (limit?.atMost === undefined ? NOT_KNOWN : valueWords(limit.atMost, unit)),
    by: () => (margin === null ? NOT_KNOWN : valueWords(beyond > 0 ? beyond - margin : Math.abs(margin), unit)),
    missing: () => missingWords(missing),
    waiting: () => String(waiting),
  };
}

/** Words of the fact a placeholder names; a placeholder that names none is left as it stands. */
function factWords(facts: FactObject, path: string): string {
  if (!/^[a-z]\w*(\.\w+)+$/i.test(path)) return `{${path}}`;
  const value = factOf(facts, path);
  const entry = factAt(path);
  if (value === undefined || isObject(value) || !entry || isGroup(entry)) return NOT_KNOWN;
  return wordsOf(entry, value, entry.unit);
}

/** A wall may well be called "both": only what is one of a list of words has words of ours. */
const wordsOf = (fact: Fact | undefined, value: FactValue, unit: Unit | undefined): string =>
  typeof value === 'string' && fact?.type === 'text' && !fact.values ? oneLine(value) : valueWords(value, unit);
