/**
 * The tested system, fixing and detail by which each penetration is judged, or the tested damper where a damper is all that is
 * there: what the brief settles; where it settles nothing, of what may be used the best along the run.
 */
import { fileUnder } from '../collect.js';
import { resistsFire } from '../fire-rating/index.js';
import type { Penetration } from '../model.js';
import { chooseAlong } from './along-run.js';
import type { BriefSays } from './brief-says.js';
import { type Candidate, candidatesOf, type Pins } from './candidates.js';
import { isFor, testedDamperFacts } from './damper-facts.js';
import { damperFitOf } from './damper-fit.js';
import type { FactObject } from './fact-schema.js';
import type { BriefChoices } from './project-brief.js';
import { isProtection } from './protection.js';
import type { RuleSet } from './rule-set.js';
import { systemFacts } from './system-facts.js';
import { besideRest, type WholeRuns } from './whole-runs.js';

export type TestedDocuments = Pick<RuleSet, 'systems' | 'dampers'>;

/** What is chosen from, and what the rest of a run has where only a part of it is there. */
type ToChooseFrom = TestedDocuments & { readonly wholeRuns?: WholeRuns | undefined };

/** A penetration with what was found and decided of it. */
export interface ToChoose {
  readonly penetration: Penetration;
  readonly facts: FactObject;
  readonly says: BriefSays;
}

export interface Chosen {
  /** `system.…` of the penetration. */
  readonly system: FactObject;
  /** undefined: none, or a tested damper. */
  readonly candidate: Candidate | undefined;
  /** The brief settles the tested system; else the review took the best. */
  readonly settled: boolean;
}

const NONE: Chosen = { system: { applied: false }, candidate: undefined, settled: false };

/** By the ids of the penetrations. */
export function chooseSystems(
  all: readonly ToChoose[],
  choices: BriefChoices | undefined,
  tested: ToChooseFrom,
): ReadonlyMap<string, Chosen> {
  const chosen = new Map<string, Chosen>();
  const together = new Map<string, { id: string; candidates: Candidate[]; settled: boolean }[]>();
  for (const one of all) {
    const { id } = one.penetration;
    if (!one.says.known) chosen.set(id, NONE);
    else if (one.penetration.treatment.kind === 'damper') chosen.set(id, chosenDamper(one, choices, tested));
    else {
      const named = namedFor(one, choices);
      const run = concernedRun(one);
      const allowed = documentsFor(tested.systems, named?.testedSystem, choices?.testedSystems);
      const systems = named ? allowed : besideRest(allowed, run, tested.wholeRuns);
      const candidates = systems.flatMap((system) => candidatesOf(system, one.facts, named));
      fileUnder(together, run === null ? `penetration ${id}` : `run ${run}`, {
        id,
        candidates,
        settled: named !== undefined,
      });
    }
  }
  for (const places of together.values()) {
    const best = chooseAlong(
      places.map(({ candidates }) => candidates),
      choices?.testedSystems ?? [],
    );
    for (const [i, { id, settled }] of places.entries()) {
      const candidate = best[i];
      chosen.set(id, candidate ? { system: systemFacts(candidate, candidate.facts), candidate, settled } : NONE);
    }
  }
  return chosen;
}

/** What passes nothing rated, or is not protected, has no say in what protects the rest of its run: null. */
function concernedRun({ penetration: { duct, barrier, crossing, treatment } }: ToChoose): string | null {
  const isConcerned = crossing === 'through' && resistsFire(barrier.rating) !== false && isProtection(treatment.kind);
  return isConcerned ? duct.run : null;
}

/** For the penetration itself, else for the duct's system. */
function namedFor(
  { penetration, says }: ToChoose,
  choices: BriefChoices | undefined,
): (Pins & { readonly testedSystem: string }) | undefined {
  const pin = choices?.pinned.find((one) => one.penetration === penetration.tag || one.penetration === penetration.key);
  if (pin) return pin;
  const { testedSystem, fixing, detail } = says.choice ?? {};
  return testedSystem === undefined ? undefined : { testedSystem, fixing, detail };
}

/** What the brief names, else all that it allows. */
const documentsFor = <T extends { readonly id: string }>(
  documents: readonly T[],
  named: string | undefined,
  allowed: readonly string[] | undefined,
): T[] =>
  (named === undefined ? (allowed ?? []) : [named]).flatMap((id) => documents.find((one) => one.id === id) ?? []);

/** A document about other dampers says nothing of this one. The one that misses least, then of which least is unknown. */
function chosenDamper(
  { facts, says }: ToChoose,
  choices: BriefChoices | undefined,
  { dampers }: TestedDocuments,
): Chosen {
  const [best] = documentsFor(dampers, says.choice?.testedDamper, choices?.testedDampers)
    .filter((damper) => isFor(damper, facts))
    .map((damper) => testedDamperFacts(damper, facts))
    .map((system) => ({ system, fit: damperFitOf(system, facts) }))
    .sort((a, b) => a.fit.misses.length - b.fit.misses.length || a.fit.unknown.length - b.fit.unknown.length);
  return best ? { ...NONE, system: best.system, settled: says.choice?.testedDamper !== undefined } : NONE;
}
