import type { Code } from '../strategy/index.js';
import type { Basis, CheckDefinition, CheckSet, CitedCheckSet, NumberLimit, WrittenCheck } from './check-set.js';
import { perhaps } from './closest.js';
import { type PublishedValue, sourceWords } from './published-values.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Puts published values where documents name them, so that each value and its source stand in one place. */

export type PublishedValues = readonly PublishedValue[];

export const citeAll = (source: YamlSource, set: CheckSet, values: PublishedValues): CitedCheckSet => ({
  ...set,
  checks: set.checks.map((check, i) => citeCheck(source, ['checks', i], check, values)),
});

function citeCheck(source: YamlSource, path: Path, check: WrittenCheck, values: PublishedValues): CheckDefinition {
  const { atLeast, atMost, basis, ...rest } = check;
  const limit = (key: 'atLeast' | 'atMost'): { [K in typeof key]?: NumberLimit } => {
    const given = check[key];
    if (given === undefined) return {};
    if (typeof given !== 'object' || !('published' in given)) return { [key]: given };
    return { [key]: limitOf(source, [...path, key, 'published'], given.published, check, values) };
  };
  return {
    ...rest,
    ...limit('atLeast'),
    ...limit('atMost'),
    basis: citeBasis(source, [...path, 'basis'], basis, values),
  };
}

type WrittenBasis = WrittenCheck['basis'];

function citeBasis(source: YamlSource, path: Path, basis: WrittenBasis, values: PublishedValues): Basis {
  const { published, status } = basis;
  if (published === undefined) {
    const { source: from, clause } = basis;
    if (from === undefined) throw source.errorAt(path, 'a basis needs "source", or "published" with the id of a value');
    return { source: from, clause, status, code: codeOf(source, path, basis) };
  }
  for (const key of ['source', 'clause', 'jurisdiction', 'edition'] as const) {
    if (basis[key] === undefined) continue;
    throw source.errorAtKey(
      [...path, key],
      `"${key}" stands with the published value "${published}"; leave it out here`,
    );
  }
  const value = findValue(source, [...path, 'published'], published, values);
  return { source: sourceWords(value), clause: value.clause, status, code: codeOfValue(value) };
}

/** Both or neither: half a code is none. */
export function codeOf(
  source: YamlSource,
  path: Path,
  { jurisdiction, edition }: { readonly jurisdiction?: string | undefined; readonly edition?: string | undefined },
): Code | null {
  if (jurisdiction !== undefined && edition !== undefined) return { jurisdiction, edition };
  if (jurisdiction === undefined && edition === undefined) return null;
  throw source.errorAt(path, 'what belongs to one code needs both "jurisdiction" and "edition"');
}

export const codeOfValue = ({ jurisdiction, edition }: PublishedValue): Code | null =>
  jurisdiction !== undefined && edition !== undefined ? { jurisdiction, edition } : null;

export function findValue(source: YamlSource, path: Path, id: string, values: PublishedValues): PublishedValue {
  const found = values.find((value) => value.id === id);
  if (found) return found;
  const ids = values.map((value) => value.id);
  throw source.errorAt(
    path,
    values.length === 0
      ? `there is no published value "${id}": no published-values document was given with this one`
      : `there is no published value "${id}"${perhaps(id, ids)}`,
  );
}

function limitOf(
  source: YamlSource,
  path: Path,
  id: string,
  { unit, basis }: WrittenCheck,
  values: PublishedValues,
): NumberLimit {
  const { value, confidence, ...entry } = findValue(source, path, id, values);
  if (basis.published !== id)
    throw source.errorAt(path, `the limit is the published value "${id}", so the basis must be { published: ${id} }`);
  if (confidence === 'memoryLow')
    throw source.errorAt(path, `"${entry.id}" is a faint memory (memoryLow); it may not become a limit`);
  const form = 'number' in value ? value.number : 'bySize' in value || 'byBarrier' in value ? value : undefined;
  if (form === undefined)
    throw source.errorAt(
      path,
      `"${id}" is no number and no table by the size of the duct or the minutes of the barrier`,
    );
  const own = 'unit' in value ? value.unit : undefined;
  if (own !== (unit ?? 'ratio'))
    throw source.errorAt(
      path,
      `"${id}" is in ${own}, but the check has ${unit === undefined ? 'no unit' : `unit ${unit}`}`,
    );
  return typeof form === 'number' ? form : 'bySize' in form ? { bySize: form.bySize } : { byBarrier: form.byBarrier };
}
