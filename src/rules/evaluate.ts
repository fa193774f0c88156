import type { Limit, Outcome, Tolerance, Unit } from '../model.js';
import { isCode } from '../strategy/index.js';
import type { Known, Unknown } from './expression.js';
import { type Each, type FactObject, missingName, VARIABLES } from './fact-schema.js';
import { compare, decimalsOf, holds, rounded, within } from './limit.js';
import { type BarrierRows, valueByBarrier } from './published-values.js';
import { ductSizeOf, numberOf, textOf } from './read-fact.js';
import type { CompiledCheck, LimitValue } from './rule-set.js';
import { type DuctSize, type SizeTable, valueAt } from './size-value.js';
import { toleranceOf } from './tolerance.js';
import { GENERIC } from './words.js';

/** What the project brief decides about proof and about the code that holds. */
export interface Proof {
  /** Demonstration documents count as tested. */
  readonly demonstration: boolean;
  /** The code that holds; checks of any other do not apply. */
  readonly jurisdiction?: string | undefined;
  readonly edition?: readonly string[] | undefined;
  /** How far what is built may lie off what is modelled, mm; 0 when left out. */
  readonly siteTolerance?: number | undefined;
}

/** What one check says of one subject, not yet in words. */
export interface Verdict {
  readonly outcome: Outcome;
  readonly wouldBe: 'passed' | null;
  /** The reason of the check that held; null when none did. */
  readonly reason: string | null;
  readonly measured: number | string | boolean | null;
  readonly limit: Limit | null;
  readonly margin: number | null;
  /** What the margin has to hold for the limit to be met; null where that is not asked for, or not known. */
  readonly tolerance: Tolerance | null;
  readonly missing: readonly string[];
  /** Why it could not be worked out, where no fact is missing. */
  readonly problem: string | null;
  /** What the missing facts, or the problem, leave open; null where nothing is. */
  readonly open: 'applies' | 'code' | 'system' | 'reasons' | 'measure' | 'limit' | 'margin' | null;
}

const BLANK: Verdict = {
  outcome: 'cantTell',
  wouldBe: null,
  reason: null,
  measured: null,
  limit: null,
  margin: null,
  tolerance: null,
  missing: [],
  problem: null,
  open: null,
};

/** Most verdicts of a building: one for all of them. */
const INAPPLICABLE: Verdict = { ...BLANK, outcome: 'inapplicable' };
const ONLY_INAPPLICABLE: readonly Verdict[] = [INAPPLICABLE];

/** One verdict, or one for each reason that holds. Never `passed` while something the check asks for is unknown. */
export const evaluateCheck = (check: CompiledCheck, given: FactObject, proof: Proof): readonly Verdict[] =>
  evaluateReady(check, withAllVariables(check.each, given), proof);

/** The same of facts that `withAllVariables` made ready, for who holds many checks against them. */
export function evaluateReady(check: CompiledCheck, facts: FactObject, proof: Proof): readonly Verdict[] {
  const scope = outOfScope(check, facts, proof);
  if (scope) return scope === INAPPLICABLE ? ONLY_INAPPLICABLE : [scope];

  if (check.proof === 'system' && textOf(facts, 'system.status') === undefined) {
    return [{ ...BLANK, missing: [missingName('system.status')], open: 'system' }];
  }

  const held: Verdict[] = [];
  const lacking: Unknown[] = [];
  for (const { definition, when } of check.reasons) {
    const holds = when.evaluate(facts);
    if (!holds.known) lacking.push(holds);
    else if (holds.value === true) held.push({ ...BLANK, reason: definition.reason, missing: definition.missing });
  }
  if (lacking.length > 0) held.unshift(unknown('reasons', ...lacking));
  if (held.length > 0) return held;
  // About fire a measure is always there: the loader sees to it.
  if (!check.measure) return [{ ...BLANK, outcome: 'passed' }];

  const measured = check.measure.evaluate(facts);
  return [measured.known ? judgeMeasured(check, measured.value, facts, proof) : unknown('measure', measured)];
}

/**
 * The most, or the least, that a check asks for, tolerances taken off, where it applies and that is a number; undefined:
 * nothing.
 */
export function requiredLimit(check: CompiledCheck, given: FactObject, proof: Proof): number | undefined {
  const facts = withAllVariables(check.each, given);
  if (outOfScope(check, facts, proof)) return undefined;
  const limit = limitFor(check, facts);
  if ('known' in limit) return undefined;
  const tolerance = toleranceFor(check, facts, proof);
  const { atMost, atLeast } = within(limit, tolerance && 'known' in tolerance ? null : tolerance);
  return atMost ?? atLeast;
}

/** Undefined where the check applies: its code holds, the system has its service, and its condition is met. */
function outOfScope(check: CompiledCheck, facts: FactObject, proof: Proof): Verdict | undefined {
  const { services, basis } = check.definition;
  const { jurisdiction, edition = [] } = proof;
  const isOurs = basis.code === null || isCode(basis.code, { jurisdiction, edition });
  const service = services && textOf(facts, 'duct.service');
  const isOther = services !== undefined && service !== undefined && !services.some((one) => one === service);
  const applies = check.where?.evaluate(facts);
  if (isOurs === false || isOther || (applies?.known && applies.value !== true)) return INAPPLICABLE;
  if (applies && !applies.known) return unknown('applies', applies);
  // What a system is for does not matter until it is known which code holds.
  if (isOurs === undefined) {
    const missing = jurisdiction === undefined ? ['brief.jurisdiction', 'brief.edition'] : ['brief.edition'];
    return { ...BLANK, missing, open: 'code' };
  }
  const isOpen = services !== undefined && service === undefined;
  return isOpen ? { ...BLANK, missing: ['duct.service'], open: 'applies' } : undefined;
}

function judgeMeasured(check: CompiledCheck, value: Known['value'], facts: FactObject, proof: Proof): Verdict {
  const { unit } = check.definition;
  const measured = rounded(value, unit);
  const limit = limitFor(check, facts);
  if ('known' in limit) return { ...unknown('limit', limit), measured };
  const { atLeast, atMost } = limit;
  if (atLeast !== undefined && atMost !== undefined && atLeast > atMost) {
    return { ...BLANK, measured, limit, open: 'limit', problem: GENERIC.contradiction(atLeast, atMost) };
  }
  const { met, margin } = compare(measured, limit, decimalsOf(unit));
  const tolerance = toleranceFor(check, facts, proof);
  const isUnknown = tolerance !== null && 'known' in tolerance;
  const judged = { ...BLANK, measured, limit, margin, tolerance: isUnknown ? null : tolerance };
  // However exactly it is built and measured: what is modelled is outside the limit.
  if (!met) return { ...judged, outcome: 'failed' };
  if (isUnknown) return { ...unknown('margin', tolerance), measured, limit, margin };
  if (tolerance && typeof measured === 'number' && !holds(measured, limit, tolerance))
    return { ...judged, open: 'margin' };
  const status = check.proof === 'system' ? textOf(facts, 'system.status') : check.proof;
  return proves(status, proof) ? { ...judged, outcome: 'passed' } : { ...judged, wouldBe: 'passed' };
}

function proves(status: string | undefined, proof: Proof): boolean {
  return status === 'model' || status === 'tested' || (status === 'demonstration' && proof.demonstration);
}

/** What the margin of a met limit has to hold; null where the check asks for nothing of the kind. */
function toleranceFor({ definition }: CompiledCheck, facts: FactObject, proof: Proof): Tolerance | Unknown | null {
  const { tolerances } = definition;
  if (!tolerances) return null;
  const tolerance = toleranceOf(tolerances, facts, proof.siteTolerance ?? 0);
  return 'missing' in tolerance
    ? { known: false, missing: tolerance.missing.map(missingName), problem: null }
    : tolerance;
}

function limitFor(check: CompiledCheck, facts: FactObject): Limit | Unknown {
  const { atLeast, atMost, equals, among } = check.limit;
  const { unit } = check.definition;
  const values = {
    ...(atLeast && { atLeast: limitValue(atLeast, facts, unit) }),
    ...(atMost && { atMost: limitValue(atMost, facts, unit) }),
    ...(equals && { equals: limitValue(equals, facts, unit) }),
  };
  const notKnown = Object.values(values).find((value) => !value.known);
  if (notKnown && !notKnown.known) return notKnown;
  const known = Object.entries(values).flatMap(([key, value]) => (value.known ? [[key, value.value]] : []));
  return { ...Object.fromEntries(known), ...(among && { among }) };
}

/** A limit that is worked out is rounded like what it is compared with; one that is written down holds as written. */
function limitValue(
  limit: LimitValue<number | string | boolean>,
  facts: FactObject,
  unit: Unit | undefined,
): Known | Unknown {
  if ('literal' in limit) return { known: true, value: limit.literal };
  if ('table' in limit) return limitBySize(limit.table, facts);
  if ('rows' in limit) return limitByBarrier(limit.rows, facts);
  const result = limit.expression.evaluate(facts);
  return result.known ? { known: true, value: rounded(result.value, unit) } : result;
}

function limitBySize(table: SizeTable, facts: FactObject): Known | Unknown {
  const size = ductSizeOf(facts);
  const value = valueAt(table, size);
  if (value !== undefined) return { known: true, value };
  const asked = size.shape === undefined ? ['shape'] : size.shape === 'circular' ? ['diameter'] : ['width', 'height'];
  const missing = asked.filter((name) => size[name as keyof DuctSize] === undefined).map((name) => `duct.${name}`);
  return { known: false, missing, problem: missing.length > 0 ? null : GENERIC.beyondTable };
}

function limitByBarrier(rows: BarrierRows, facts: FactObject): Known | Unknown {
  const minutes = numberOf(facts, 'barrier.minutes');
  if (minutes === undefined) return { known: false, missing: [missingName('barrier.minutes')], problem: null };
  const value = valueByBarrier(rows, minutes);
  return value === undefined ? { known: false, missing: [], problem: GENERIC.beyondRows } : { known: true, value };
}

/** All that is lacking in one verdict, so that a check says at most one such thing of a subject. */
const unknown = (open: Verdict['open'], ...lacking: readonly Unknown[]): Verdict => ({
  ...BLANK,
  open,
  missing: [...new Set(lacking.flatMap(({ missing }) => missing))],
  problem: lacking.find(({ problem }) => problem !== null)?.problem ?? null,
});

/** A variable without any fact is an empty object: its facts are unknown, not undeclared. */
export const withAllVariables = (each: Each, facts: FactObject): FactObject =>
  Object.fromEntries(VARIABLES[each].map((variable) => [variable, facts[variable] ?? {}]));
