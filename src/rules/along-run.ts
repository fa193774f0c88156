/** Which tested system protects each penetration of a run: a run belongs to one system, or to such as may stand beside it. */
import { compareNumbers, compareTexts } from '../collect.js';
import { type Candidate, compareCandidates } from './candidates.js';
import type { TestedSystem, TestedSystemDocument } from './tested-system.js';

type System = TestedSystem | TestedSystemDocument;

/** Nobody builds a run from more; with so few, all sets of them can be tried. Common practice, no source. */
const MOST_TOGETHER = 3;

/**
 * The best candidate for each place, so that in this order: every place has one, the fewest limits are missed, the least is
 * unknown, the tightest margins are widest, the fewest systems are used, the least material is needed. Exact: every set of
 * compatible systems is tried, and within a set each place has a best candidate of its own. Of equals the first listed.
 *
 * @param places of one run: the candidates of each
 * @param listed ids of systems; those that are not among them come after, by their ids
 */
export function chooseAlong(
  places: readonly (readonly Candidate[])[],
  listed: readonly string[],
): (Candidate | undefined)[] {
  const place = ({ id }: System): number => (listed.includes(id) ? listed.indexOf(id) : listed.length);
  const systems = [...new Set(places.flat().map(({ system }) => system))].sort(
    (a, b) => place(a) - place(b) || compareTexts(a.id, b.id),
  );
  let best: Assignment | undefined;
  for (const set of compatibleSets(systems)) {
    const assignment = assigned(places, set);
    if (!best || compareAssignments(assignment, best) < 0) best = assignment;
  }
  // What the brief settled for one place may stand beside nothing that fits the others.
  return places.map((candidates, i) => best?.chosen[i] ?? [...candidates].sort(compareCandidates)[0]);
}

export const areCompatible = (a: System, b: System): boolean => a.id === b.id || says(a, b) || says(b, a);

const says = ({ compatibleWith = [] }: System, other: System): boolean =>
  compatibleWith.some(({ system }) => system === other.id);

function compatibleSets(systems: readonly System[]): System[][] {
  const sets: System[][] = [];
  const grow = (set: readonly System[], from: number): void => {
    for (let i = from; i < systems.length; i++) {
      const next = systems[i]!;
      if (!set.every((one) => areCompatible(one, next))) continue;
      const grown = [...set, next];
      sets.push(grown);
      if (grown.length < MOST_TOGETHER) grow(grown, i + 1);
    }
  };
  grow([], 0);
  return sets.sort((a, b) => a.length - b.length);
}

interface Assignment {
  readonly chosen: readonly (Candidate | undefined)[];
  /** Without one; limits missed; limits unknown. */
  readonly counts: readonly number[];
  /** Ascending. */
  readonly margins: readonly number[];
  readonly systems: number;
  readonly material: number;
}

const assigned = (places: readonly (readonly Candidate[])[], set: readonly System[]): Assignment =>
  assignmentOf(
    places.map((candidates) => candidates.filter(({ system }) => set.includes(system)).sort(compareCandidates)[0]),
  );

export function assignmentOf(chosen: readonly (Candidate | undefined)[]): Assignment {
  const used = chosen.filter((one) => one !== undefined);
  const sum = (of: (one: Candidate) => number): number => used.reduce((total, one) => total + of(one), 0);
  return {
    chosen,
    counts: [chosen.length - used.length, sum(({ misses }) => misses), sum(({ unknown }) => unknown)],
    margins: used.map(({ margin }) => margin).sort(compareNumbers),
    systems: new Set(used.map(({ system }) => system)).size,
    material: sum(({ material }) => material ?? Number.POSITIVE_INFINITY),
  };
}

/** Below 0: `a` is better. */
export const compareAssignments = (a: Assignment, b: Assignment): number =>
  lexically(a.counts, b.counts) ||
  -lexically(a.margins, b.margins) ||
  a.systems - b.systems ||
  compareNumbers(a.material, b.material);

function lexically(a: readonly number[], b: readonly number[]): number {
  const i = a.findIndex((value, at) => value !== b[at]);
  return i < 0 ? 0 : compareNumbers(a[i]!, b[i]!);
}
