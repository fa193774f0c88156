import type { RuleStatus, Unit } from '../model.js';
import { type CheckDefinition, type CitedCheckSet, type NumberLimit, SITE } from './check-set.js';
import { perhaps } from './closest.js';
import { factAt, factPaths, isGroup, VARIABLES } from './fact-schema.js';
import { requireRange, type SizeTable } from './size-value.js';
import { requireProof } from './tested-system-sense.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireSense(source: YamlSource, set: CitedCheckSet): void {
  requireProof(source, set);
  const seen = new Set<string>();
  for (const [i, check] of set.checks.entries()) {
    const path = ['checks', i];
    if (seen.has(check.id))
      throw source.errorAt([...path, 'id'], `check id "${check.id}" is used twice in this document`);
    seen.add(check.id);
    requireBasis(source, path, set.status, check.basis.status);
    if (check.about === 'model' && check.basis.status === 'system') {
      throw source.errorAt([...path, 'basis', 'status'], 'basis "system" is for checks about fire');
    }
    if (check.services && !VARIABLES[check.each].includes('duct'))
      throw source.errorAtKey([...path, 'services'], `there is no duct with a service for each: ${check.each}`);
    requireLimit(source, path, check);
    requireTolerances(source, path, check);
    requireReasons(source, path, check);
    requireExamples(source, path, check);
  }
}

/** A check can't be better proved than the document it stands in, or than the system it goes by. */
function requireBasis(source: YamlSource, path: Path, document: RuleStatus, basis: RuleStatus | 'system'): void {
  const allowed = document === 'tested' ? ['tested', 'demonstration', 'unverified'] : [document, 'unverified'];
  // A system's own document says how far it can be trusted.
  if (basis === 'system' || allowed.includes(basis)) return;
  throw source.errorAt(
    [...path, 'basis', 'status'],
    `basis "${basis}" in a document with status "${document}"; allowed: ${[...new Set(allowed)].join(', ')}, or system`,
  );
}

function requireLimit(source: YamlSource, path: Path, check: CheckDefinition): void {
  const { atLeast, atMost, equals, among, measure } = check;
  const kinds = [
    atLeast !== undefined || atMost !== undefined ? 'atLeast/atMost' : null,
    equals !== undefined ? 'equals' : null,
    among !== undefined ? 'among' : null,
  ].filter((kind) => kind !== null);
  if (kinds.length > 1)
    throw source.errorAt(path, `only one kind of limit may stand in a check; here are ${kinds.join(' and ')}`);
  if (measure === undefined) {
    if (kinds.length > 0) throw source.errorAt(path, `${kinds[0]} has nothing to judge; add "measure"`);
    if (!check.cantTellWhen) throw source.errorAt(path, 'a check needs "measure" with a limit, or "cantTellWhen"');
    if (check.about === 'fire') throw source.errorAt(path, 'a check about fire needs "measure" with a limit');
    if (check.message)
      throw source.errorAtKey([...path, 'message'], 'without "measure" each reason has its own message');
    return;
  }
  if (kinds.length === 0) {
    throw source.errorAt([...path, 'measure'], 'a measure needs a limit: atLeast and/or atMost, or equals, or among');
  }
  if (!check.message)
    throw source.errorAt(path, '"message" is missing; a check with a measure needs failed and cantTell');
  if (check.each === 'neighbour' && isCel(atLeast) && atLeast.cel.trim() !== SYSTEM_SEPARATION) {
    throw source.errorAt(
      [...path, 'atLeast'],
      `how far to look for neighbours must be known beforehand: give a number, a table, or { cel: ${SYSTEM_SEPARATION} }`,
    );
  }
  if (isFixed(atLeast) && isFixed(atMost)) requireRange(source, path, { atLeast, atMost });
  for (const key of ['atLeast', 'atMost'] as const) requireSize(source, [...path, key], check[key], check.unit);
}

/** No length in a building is longer than a kilometre, no angle more than a turn, no rating longer than a day. */
const LARGEST: { readonly [U in Unit]: number } = { mm: 1_000_000, deg: 360, min: 1440 };

function requireSize(source: YamlSource, path: Path, limit: NumberLimit | undefined, unit: Unit | undefined): void {
  if (typeof limit !== 'number' || unit === undefined || Math.abs(limit) <= LARGEST[unit]) return;
  throw source.errorAt(path, `${limit} is more than any ${unit} here, at most ${LARGEST[unit]}; is the unit right?`);
}

/** Of lengths alone, and of limits that are a number: beside a word or a yes there is nothing to hold. */
function requireTolerances(
  source: YamlSource,
  path: Path,
  { tolerances = [], unit, each, ...limit }: CheckDefinition,
): void {
  const at = [...path, 'tolerances'];
  if (tolerances.length > 0 && (unit !== 'mm' || (limit.atLeast ?? limit.atMost) === undefined))
    throw source.errorAtKey(at, '"tolerances" belong to a limit in mm, atLeast or atMost');
  const known = [SITE, ...factPaths(each).filter(isLength)];
  for (const [i, name] of tolerances.entries()) {
    if (!known.includes(name))
      throw source.errorAt([...at, i], `"${name}" is neither "${SITE}" nor a fact in mm${perhaps(name, known)}`);
    if (tolerances.indexOf(name) < i)
      throw source.errorAt([...at, i], `"${name}" stands twice in tolerances; keep one`);
  }
}

function isLength(path: string): boolean {
  const fact = factAt(path);
  return fact !== undefined && !isGroup(fact) && fact.unit === 'mm';
}

/** The only distance that `find` knows without the facts of a place. */
const SYSTEM_SEPARATION = 'system.separationAtLeast';

const isCel = (limit: object | number | undefined): limit is { cel: string } =>
  typeof limit === 'object' && 'cel' in limit;

/** What is worked out from facts can contradict only then. */
const isFixed = (limit: NumberLimit | undefined): limit is number | SizeTable | undefined =>
  typeof limit !== 'object' || 'bySize' in limit;

function requireReasons(source: YamlSource, path: Path, check: CheckDefinition): void {
  const seen = new Set<string>();
  for (const [i, { reason }] of (check.cantTellWhen ?? []).entries()) {
    if (seen.has(reason)) {
      throw source.errorAt([...path, 'cantTellWhen', i, 'reason'], `reason "${reason}" is used twice in this check`);
    }
    seen.add(reason);
  }
}

function requireExamples(source: YamlSource, path: Path, check: CheckDefinition): void {
  const variables: readonly string[] = VARIABLES[check.each];
  const reasons = (check.cantTellWhen ?? []).map(({ reason }) => reason);
  const outcomes = new Map<string, string>();
  for (const [i, example] of check.examples.entries()) {
    const at = [...path, 'examples', i];
    const given = JSON.stringify([example.facts, example.brief ?? {}]);
    const before = outcomes.get(given) ?? example.outcome;
    if (before !== example.outcome)
      throw source.errorAt(
        [...at, 'outcome'],
        `another example has the same facts and the outcome ${before}; keep one`,
      );
    outcomes.set(given, before);
    for (const variable of Object.keys(example.facts)) {
      if (variables.includes(variable)) continue;
      throw source.errorAtKey(
        [...at, 'facts', variable],
        `there are no facts of "${variable}" for each: ${check.each}${perhaps(variable, variables)}; known: ${variables.join(', ')}`,
      );
    }
    for (const [j, reason] of (example.reasons ?? []).entries()) {
      if (reasons.includes(reason)) continue;
      throw source.errorAt([...at, 'reasons', j], `the check has no reason "${reason}"${perhaps(reason, reasons)}`);
    }
    if (example.outcome !== 'cantTell' && (example.wouldBe || example.missing || example.reasons)) {
      throw source.errorAt(at, '"wouldBe", "missing" and "reasons" belong to outcome cantTell');
    }
  }
}
