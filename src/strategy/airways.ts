/**
 * Airways: the parts of a run between which nothing shuts in a fire. Fire that enters an airway where it opens into a
 * compartment must not leave it in another one, so everything of it that lies outside the compartment it serves has to hold
 * fire back; derived from the rules that reference tables give for ducts without dampers (common practice, no source).
 */
import { compareTexts } from '../collect.js';
import { resistsFire } from '../fire-rating/index.js';
import { groupsJoined } from '../joined.js';
import type { Crossings, Penetration, Run, Stretch } from '../model.js';

/**
 * What is at a barrier between two stretches. `shut`: a fire damper. `open`: no damper that holds back fire. `perhapsShut`:
 * a damper of unknown purpose. `perhapsNone`: nobody knows whether the barrier is rated, or the duct passes it as a whole.
 */
export type Passage = 'shut' | 'open' | 'perhapsShut' | 'perhapsNone';

export interface Link {
  readonly penetration: Penetration;
  readonly passage: Passage;
  /** On both sides; one where the other is not modelled. */
  readonly stretches: readonly Stretch[];
}

export interface Airway {
  readonly stretches: readonly Stretch[];
  /** All but those that are shut. */
  readonly inner: readonly Link[];
  /** The dampers that end it. */
  readonly shut: readonly Link[];
}

/** In the order of their stretches. */
export function airwaysOf({ stretches }: Run, penetrations: ReadonlyMap<string, Penetration>): Airway[] {
  const links = linksOf(stretches, penetrations);
  const pairs = links.filter(({ passage }) => passage !== 'shut').flatMap(pairsOf);
  return groupsJoined(stretches, pairs).map((own) => {
    const touching = links.filter((link) => link.stretches.some((one) => own.includes(one)));
    return {
      stretches: own,
      inner: touching.filter(({ passage }) => passage !== 'shut'),
      shut: touching.filter(({ passage }) => passage === 'shut'),
    };
  });
}

function linksOf(stretches: readonly Stretch[], penetrations: ReadonlyMap<string, Penetration>): Link[] {
  const ids = [...new Set(stretches.flatMap(({ ends }) => ends.map(({ penetration }) => penetration)))];
  return ids.sort(compareTexts).flatMap((id): Link[] => {
    const penetration = penetrations.get(id);
    const both = stretches.filter(({ ends }) => ends.some((end) => end.penetration === id));
    return penetration ? [{ penetration, passage: passageOf(penetration), stretches: both }] : [];
  });
}

export function passageOf({ barrier, crossing, treatment, dampers }: Penetration): Passage {
  if (treatment.kind === 'damper' || treatment.kind === 'both') return 'shut';
  if (resistsFire(barrier.rating) !== true || crossing !== 'through') return 'perhapsNone';
  return dampers.some(({ purpose }) => purpose === 'unknown') ? 'perhapsShut' : 'open';
}

/** The penetrations at which an airway passes a barrier like this. */
export const withPassage = ({ inner, shut }: Airway, passage: Passage): Penetration[] =>
  [...inner, ...shut].filter((link) => link.passage === passage).map(({ penetration }) => penetration);

const pairsOf = ({ stretches }: Link): (readonly [Stretch, Stretch])[] =>
  stretches.slice(1).map((other) => [stretches[0]!, other] as const);

/** The stretches that are reached from some of them through links of these kinds. */
export function reachedFrom(
  { stretches, inner }: Airway,
  from: readonly Stretch[],
  through: readonly Passage[],
): ReadonlySet<Stretch> {
  const pairs = inner.filter(({ passage }) => through.includes(passage)).flatMap(pairsOf);
  const groups = groupsJoined(stretches, pairs);
  return new Set(groups.filter((group) => group.some((one) => from.includes(one))).flat());
}

/** The compartments that an airway opens into, and how surely. */
export interface Served {
  /** Ids of those that are known, in their order. */
  readonly compartments: readonly string[];
  /** Those stretches which open into them, or into one that is not known. */
  readonly stretches: readonly Stretch[];
  /** How many compartments; null: not known. */
  readonly count: number | null;
}

const opensInside = ({ serves, outside }: Stretch): boolean => serves.length > 0 && outside !== true;

/**
 * What opens outside the building serves none of its compartments. Ends at which nothing is modelled show nothing. Where
 * only a barrier of unknown rating lies between two openings, nobody knows whether they lie in one compartment, whatever
 * the walls show: walls that may be rated part none.
 */
export function servedBy(airway: Airway): Served {
  const open = airway.stretches.filter(opensInside);
  const compartments = [...new Set(open.flatMap(({ compartment }) => compartment ?? []))].sort(compareTexts);
  const unknown = open.filter(({ compartment }) => compartment === null);
  const isOne = unknown.length === 1 && compartments.length === 0;
  const sure = new Set(open.slice(0, 1).flatMap((one) => [...reachedFrom(airway, [one], ['open', 'perhapsShut'])]));
  const isKnown = unknown.length === 0 && open.every((one) => sure.has(one));
  const count = isOne
    ? 1
    : compartments.length > 1 || (compartments.length === 1 && isKnown)
      ? compartments.length
      : null;
  return { compartments, stretches: open, count };
}

/** Names of the compartments that each run serves, by its id; of a run of which not all are known there are none. */
export function compartmentsServed({ runs, compartments }: Crossings): Map<string, readonly string[]> {
  const names = new Map(compartments.map(({ id, name }) => [id, name]));
  return new Map(
    runs.flatMap(({ id, stretches }): [string, string[]][] => {
      const open = stretches.filter(opensInside);
      const known = [...new Set(open.flatMap(({ compartment }) => compartment ?? []))];
      if (known.length === 0 || open.some(({ compartment }) => compartment === null)) return [];
      return [[id, known.map((one) => names.get(one) ?? one)]];
    }),
  );
}
