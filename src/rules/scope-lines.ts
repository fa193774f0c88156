/**
 * The scope of a tested system line by line: what it was tested for, held against one penetration. Choosing among systems,
 * what the nearest miss, and the evidence of a penetration all go by these lines; checks judge by the same facts.
 */

import type { Limit, Unit } from '../model.js';
import type { FactObject } from './fact-schema.js';
import { compare, decimalsOf, holds, relativeMargin, rounded } from './limit.js';
import { factOf, numberOf } from './read-fact.js';
import { type AtPenetration, LINE_KINDS, type LineKind, type LineName } from './scope-line-kinds.js';
import type { Tested } from './system-facts.js';
import { toleranceOf } from './tolerance.js';

export interface ScopeLine {
  readonly name: LineName;
  /** Path of what is measured. */
  readonly fact: string;
  readonly unit: Unit | undefined;
  /** undefined: not known. */
  readonly measured: number | string | undefined;
  /** undefined: the document or the facts leave it open. */
  readonly limit: Limit | undefined;
  readonly met: boolean | undefined;
  /** Distance inside the limit, negative when missed; undefined of what is not measured in numbers. */
  readonly margin: number | undefined;
  /** The same as a part of the limit. */
  readonly relative: number | undefined;
  /** Where the limit stands. */
  readonly source: string;
}

/** @param own the facts of the tested system at the penetration, `system.…` */
export function scopeLines(tested: Tested, own: FactObject, facts: FactObject, kinds = LINE_KINDS): ScopeLine[] {
  const at: AtPenetration = { ...facts, system: own };
  const lines: ScopeLine[] = [];
  for (const kind of kinds) {
    if (kind.when && !kind.when(at, tested)) continue;
    const { name, fact, unit } = kind;
    const value = factOf(at, fact);
    const measured = typeof value === 'number' ? rounded(value, unit) : typeof value === 'string' ? value : undefined;
    const source = kind.source?.(tested) ?? tested.system.source;
    if (kind.allowed !== undefined) {
      const allowed = factOf(at, kind.allowed);
      const met = typeof allowed === 'boolean' ? allowed : undefined;
      const limit = { among: kind.among!(tested) };
      lines.push({ name, fact, unit, measured, limit, met, margin: undefined, relative: undefined, source });
      continue;
    }
    const limit = limitOf(at, kind);
    const { met, margin, relative } = comparedWith(limit, measured, at, kind);
    lines.push({ name, fact, unit, measured, limit, met, margin, relative, source });
  }
  return lines;
}

/** Lines that go by the fixing; all others are the same with every fixing. */
export const isOfFixing = ({ name }: { readonly name: LineName }): boolean => name.startsWith('fixing');
export const FIXING_KINDS = LINE_KINDS.filter(isOfFixing);

/** Undefined where a number that it asks for is not known. */
function limitOf(at: AtPenetration, kind: LineKind): Limit | undefined {
  const limit: { atLeast?: number; atMost?: number } = {};
  for (const end of ['atLeast', 'atMost'] as const) {
    const path = kind[end];
    if (path === undefined) continue;
    const value = numberOf(at, path);
    if (value === undefined) return undefined;
    limit[end] = rounded(value, kind.unit);
  }
  return limit;
}

const UNKNOWN = { met: undefined, margin: undefined, relative: undefined };

function comparedWith(
  limit: Limit | undefined,
  measured: ScopeLine['measured'],
  at: AtPenetration,
  { unit, untold, tolerances }: LineKind,
): Pick<ScopeLine, 'met' | 'margin' | 'relative'> {
  if (typeof measured !== 'number' || !limit) return UNKNOWN;
  const { met, margin } = compare(measured, limit, decimalsOf(unit));
  const over = limit.atMost !== undefined && measured > limit.atMost;
  if (margin === null || untold?.(at, { met, over })) return UNKNOWN;
  const relative = relativeMargin(measured, limit, margin);
  // Inside, but by less than what is built and measured may be off: that can't be told.
  const off = met && tolerances && toleranceOf(tolerances, at, numberOf(at, 'brief.siteTolerance') ?? 0);
  const isHeld = !off || (!('missing' in off) && holds(measured, limit, off));
  return { met: isHeld ? met : undefined, margin, relative };
}
