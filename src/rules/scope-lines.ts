/**
 * The scope of a tested system line by line: what it was tested for, held against one penetration. Choosing among systems,
 * what the nearest miss, and the evidence of a penetration all go by these lines; checks judge by the same facts.
 */

import type { Limit, Unit } from '../model.js';
import { detailFacts, placeOf } from './detail-facts.js';
import type { FactObject } from './fact-schema.js';
import { compare, decimalsOf, holds, relativeMargin, rounded } from './limit.js';
import type { AtSystem, LineKind } from './line-kind.js';
import { numberReader } from './read-fact.js';
import { LINE_KINDS, type LineName } from './scope-line-kinds.js';
import { fixingFacts, systemLimits, type Tested } from './system-facts.js';
import { toleranceOf } from './tolerance.js';

/** What comparing tells. */
interface Compared {
  /** undefined: not known. */
  readonly met: boolean | undefined;
  /** Distance inside the limit, negative when missed; undefined of what is not measured in numbers. */
  readonly margin: number | undefined;
  /** The same as a part of the limit. */
  readonly relative: number | undefined;
}

export interface ScopeLine extends Compared {
  readonly name: LineName;
  /** Path of what is measured. */
  readonly fact: string;
  readonly unit: Unit | undefined;
  /** undefined: not known. */
  readonly measured: number | string | undefined;
  /** undefined: the document or the facts leave it open. */
  readonly limit: Limit | undefined;
  /** Where the limit stands. */
  readonly source: string;
}

/** All lines, with their words and sources. */
export function scopeLines(tested: Tested, facts: FactObject): ScopeLine[] {
  const { system, fixing, detail } = tested;
  const place = placeOf(system, facts);
  const at = {
    facts,
    system: systemLimits(system, place),
    fixing: fixingFacts(fixing, place.size),
    detail: detailFacts(system, detail, place),
  };
  return LINE_KINDS.filter(({ when }) => !when || when(at)).map((kind) => {
    const { name, fact, unit } = kind;
    const measured = measuredAt(kind, at);
    const limit = kind.among ? { among: kind.among(tested) } : limitAt(kind, at);
    const source = kind.source?.(tested) ?? system.source;
    return { name, fact, unit, measured, limit, ...comparedAt(kind, at, measured, limit), source };
  });
}

/** How lines come out. */
export interface Tally {
  readonly misses: number;
  readonly unknown: number;
  /** The least of what is built, each as a part of its limit; Infinity where nothing is measured in numbers. */
  readonly margin: number;
}

/** The same lines only counted: ranking asks no more, and thousands are ranked for each one that is shown. */
export function tallied<At extends AtSystem>(kinds: readonly LineKind<At>[], at: At): Tally {
  let [misses, unknown, margin] = [0, 0, Number.POSITIVE_INFINITY];
  for (const kind of kinds) {
    if (kind.when && !kind.when(at)) continue;
    const { met, relative } = comparedAt(kind, at, measuredAt(kind, at), limitAt(kind, at));
    if (met === false) misses++;
    if (met === undefined) unknown++;
    if (isBuilt(kind) && relative !== undefined && relative < margin) margin = relative;
  }
  return { misses, unknown, margin };
}

export const together = (a: Tally, b: Tally): Tally => ({
  misses: a.misses + b.misses,
  unknown: a.unknown + b.unknown,
  margin: Math.min(a.margin, b.margin),
});

/** More minutes than are asked, or less pressure than was tested, make nothing easier to build. */
export const isBuilt = ({ unit, fact }: { readonly unit?: Unit | undefined; readonly fact: string }): boolean =>
  unit !== 'min' && !fact.startsWith('brief.');

function measuredAt<At>({ measured, unit }: LineKind<At>, at: At): ScopeLine['measured'] {
  const value = measured(at);
  return typeof value === 'number' ? rounded(value, unit) : typeof value === 'string' ? value : undefined;
}

/** In numbers; undefined where one that it asks for is not known. */
function limitAt<At>({ atLeast, atMost, unit }: LineKind<At>, at: At): Limit | undefined {
  const [least, most] = [atLeast?.(at), atMost?.(at)];
  if ((atLeast && least === undefined) || (atMost && most === undefined)) return undefined;
  const limit: { atLeast?: number; atMost?: number } = {};
  if (least !== undefined) limit.atLeast = rounded(least, unit);
  if (most !== undefined) limit.atMost = rounded(most, unit);
  return limit;
}

const UNKNOWN: Compared = { met: undefined, margin: undefined, relative: undefined };

function comparedAt<At extends AtSystem>(
  { allowed, unit, untold, tolerances }: LineKind<At>,
  at: At,
  measured: ScopeLine['measured'],
  limit: Limit | undefined,
): Compared {
  if (allowed) return { ...UNKNOWN, met: allowed(at) };
  if (typeof measured !== 'number' || !limit) return UNKNOWN;
  const { met, margin } = compare(measured, limit, decimalsOf(unit));
  const over = limit.atMost !== undefined && measured > limit.atMost;
  if (margin === null || untold?.(at, { met, over })) return UNKNOWN;
  const relative = relativeMargin(measured, limit, margin);
  // Inside, but by less than what is built and measured may be off: that can't be told.
  const off = met && tolerances && toleranceOf(tolerances, at.facts, siteTolerance(at.facts) ?? 0);
  const isHeld = !off || (!('missing' in off) && holds(measured, limit, off));
  return { met: isHeld ? met : undefined, margin, relative };
}

const siteTolerance = numberReader('brief.siteTolerance');
