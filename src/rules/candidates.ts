/** Every way that a tested system has to make one penetration good, held against it. */
import { compareNumbers } from '../collect.js';
import { acrossOf, coverMass, grownAcross } from '../supports/masses.js';
import { detailFacts, detailsFor, type Place, partsOf, placeOf } from './detail-facts.js';
import type { FactObject } from './fact-schema.js';
import { DETAIL_KINDS, FIXING_KINDS, SYSTEM_KINDS } from './scope-line-kinds.js';
import { type Tally, tallied, together } from './scope-lines.js';
import { valueAt } from './size-value.js';
import { fixingFacts, type SystemLimits, systemLimits, type Tested } from './system-facts.js';
import type { Detail } from './tested-detail.js';
import type { TestedSystem } from './tested-system.js';

/** Its lines are only counted: `scopeLines` tells them one by one, `systemFacts` what is allowed. */
export interface Candidate extends Tested, Tally {
  readonly system: TestedSystem;
  /** Of the penetration, as it is or would be protected. */
  readonly facts: FactObject;
  /** The least of the lines that go by the fixing. */
  readonly fixingMargin: number;
  /** kg of protection on one metre of duct, with the local build-up of the detail; undefined: not known. */
  readonly material: number | undefined;
}

export interface Pins {
  readonly fixing?: string | undefined;
  readonly detail?: string | undefined;
}

/** A tested system held by one of its fixings at one penetration: what is the same with all of its details. */
export interface Held extends Pick<Candidate, 'system' | 'fixing'> {
  readonly place: Place;
  readonly limits: SystemLimits;
  /** Of all lines but those of a detail. */
  readonly tally: Tally;
  readonly fixingMargin: number;
}

/** Held by the best of its fixings alone: they do not bear on what else is asked. */
export function heldBest(system: TestedSystem, facts: FactObject, pinned?: string): Held {
  const fixings = pinned === undefined ? system.fixings : system.fixings.filter(({ id }) => id === pinned);
  const place = placeOf(system, facts);
  const limits = systemLimits(system, place);
  const [best] = (fixings.length > 0 ? fixings : [undefined])
    .map((fixing) => ({
      fixing,
      held: tallied(FIXING_KINDS, { facts, system: limits, fixing: fixingFacts(fixing, place.size) }),
    }))
    .sort((a, b) => compareTallies(a.held, b.held));
  const { fixing, held } = best!;
  const tally = together(tallied(SYSTEM_KINDS, { facts, system: limits }), held);
  return { system, fixing, place, limits, tally, fixingMargin: held.margin };
}

/** With one of its details; undefined: none is known to be for the barrier. */
export function sealedBy({ limits, tally, ...held }: Held, detail: Detail | undefined): Candidate {
  const { system, fixing, place, fixingMargin } = held;
  const { facts } = place;
  const sealed = tallied(DETAIL_KINDS, { facts, system: limits, detail: detailFacts(system, detail, place) });
  const { misses, unknown, margin } = together(tally, sealed);
  const material = materialOf(system, detail, place);
  return { system, fixing, detail, facts, misses, unknown, margin, fixingMargin, material };
}

/** With each of the details for the barrier; the best comes first. */
export function candidatesWith(held: Held, pinned?: string): Candidate[] {
  const details = detailsFor(held.place).filter(({ id }) => pinned === undefined || id === pinned);
  return ranked((details.length > 0 ? details : [undefined]).map((detail) => sealedBy(held, detail)));
}

export const candidatesOf = (system: TestedSystem, facts: FactObject, pins: Pins = {}): Candidate[] =>
  candidatesWith(heldBest(system, facts, pins.fixing), pins.detail);

function materialOf(system: TestedSystem, detail: Detail | undefined, { size, layers }: Place): number | undefined {
  const across = acrossOf(size);
  if (!across || !system.layer || layers === undefined) return undefined;
  const { thickness, density } = system.layer;
  const along = coverMass(across, thickness * layers, density);
  const builtUp = (detail ? partsOf(detail, 'localBuildUp') : []).map((part) => {
    const length = valueAt(part.length, size);
    const onTop = coverMass(grownAcross(across, thickness * layers), thickness * part.layers, density);
    return length === undefined ? undefined : (onTop * length * (part.faces === 'both' ? 2 : 1)) / 1000;
  });
  return builtUp.includes(undefined) ? undefined : builtUp.reduce<number>((sum, one) => sum + one!, along);
}

/** Best first; equal ones stay in the order of the document. */
export const ranked = (candidates: readonly Candidate[]): Candidate[] => [...candidates].sort(compareCandidates);

/** Fewer misses, less unknown, more margin, less material, more margin of the fixing. */
export const compareCandidates = (a: Candidate, b: Candidate): number =>
  compareTallies(a, b) ||
  compareNumbers(a.material ?? Number.POSITIVE_INFINITY, b.material ?? Number.POSITIVE_INFINITY) ||
  compareNumbers(b.fixingMargin, a.fixingMargin);

/** Fewer misses, less unknown, more margin. */
const compareTallies = (a: Tally, b: Tally): number =>
  a.misses - b.misses || a.unknown - b.unknown || compareNumbers(b.margin, a.margin);
