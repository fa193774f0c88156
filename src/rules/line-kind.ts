/** What one line of a tested scope is made of, and by what it goes. */
import type { Unit } from '../model.js';
import type { DetailLimits } from './detail-facts.js';
import type { FactObject, FactValue } from './fact-schema.js';
import type { FixingLimits, SystemLimits, Tested } from './system-facts.js';

/** A penetration, and what a tested system allows there whatever holds and seals it. */
export interface AtSystem {
  readonly facts: FactObject;
  readonly system: SystemLimits;
}
export interface AtFixing extends AtSystem {
  readonly fixing: FixingLimits;
}
export interface AtDetail extends AtSystem {
  readonly detail: DetailLimits;
}
export type AtPenetration = AtFixing & AtDetail;

/** @typeParam At all that the line goes by */
export interface LineKind<At = AtPenetration> {
  /** Short name, as examples of documents have it. */
  readonly name: string;
  /** The check that judges it. */
  readonly check: string;
  /** Path of what is measured, as reports have it. */
  readonly fact: string;
  readonly measured: (at: At) => FactValue | FactObject | undefined;
  /** What that is called here, where the fact's own words would not tell it from another line. */
  readonly what?: string;
  readonly unit?: Unit;
  /** Left out: it always counts. */
  readonly when?: (at: At) => boolean;
  /** Words that were tested, and whether this is one of them. */
  readonly among?: (tested: Tested) => readonly string[];
  readonly allowed?: (at: At) => boolean | undefined;
  readonly atLeast?: (at: At) => number | undefined;
  readonly atMost?: (at: At) => number | undefined;
  /** What the margin has to hold, as of the check: `site`, and facts that say how exactly it is measured. */
  readonly tolerances?: readonly string[];
  /** The comparison tells nothing after all. */
  readonly untold?: (at: At, is: { readonly met: boolean; readonly over: boolean }) => boolean;
  /** Where the limit stands, if not in the source of the whole document. */
  readonly source?: (tested: Tested) => string | undefined;
}
