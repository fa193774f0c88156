import type { BriefSays } from './brief-says.js';
import { isFor, testedDamperFacts } from './damper-facts.js';
import { damperFitOf } from './damper-fit.js';
import type { FactObject } from './fact-schema.js';
import type { BriefChoices } from './project-brief.js';
import { textOf } from './read-fact.js';
import type { RuleSet } from './rule-set.js';
import { systemFacts } from './system-facts.js';
import { type Fit, fitOf } from './system-fit.js';

export type TestedDocuments = Pick<RuleSet, 'systems' | 'dampers'>;

interface Tried {
  readonly own: FactObject;
  readonly fit: Fit;
}

/**
 * The facts of the tested system, or of the tested damper where a damper is all that is there: the one that the brief
 * names for the duct's system; where it names none, of those that may be used the one that misses least, then the one of
 * which least is unknown.
 */
export function chosenSystemFacts(
  facts: FactObject,
  says: BriefSays,
  choices: BriefChoices | undefined,
  tested: TestedDocuments,
): FactObject {
  if (!says.known) return { applied: false };
  const isDamper = textOf(facts, 'penetration.treatment.kind') === 'damper';
  const tried = isDamper ? triedDampers(facts, says, choices, tested) : triedSystems(facts, says, choices, tested);
  const [best] = tried.sort(
    (a, b) => a.fit.misses.length - b.fit.misses.length || a.fit.unknown.length - b.fit.unknown.length,
  );
  return best?.own ?? { applied: false };
}

/** What the brief names for the duct's system, else all that it allows. */
const chosen = <T extends { readonly id: string }>(
  documents: readonly T[],
  named: string | undefined,
  allowed: readonly string[] | undefined,
): T[] =>
  (named === undefined ? (allowed ?? []) : [named]).flatMap((id) => documents.find((one) => one.id === id) ?? []);

const triedSystems = (
  facts: FactObject,
  { choice }: BriefSays,
  choices: BriefChoices | undefined,
  { systems }: TestedDocuments,
): Tried[] =>
  chosen(systems, choice?.testedSystem, choices?.testedSystems).map((system) => {
    const fixing = system.fixings.find((one) => one.id === choice?.fixing);
    const own = systemFacts(system, fixing, facts);
    return { own, fit: fitOf(own, facts) };
  });

/** A document about other dampers says nothing of this one. */
const triedDampers = (
  facts: FactObject,
  { choice }: BriefSays,
  choices: BriefChoices | undefined,
  { dampers }: TestedDocuments,
): Tried[] =>
  chosen(dampers, choice?.testedDamper, choices?.testedDampers)
    .filter((damper) => isFor(damper, facts))
    .map((damper) => {
      const own = testedDamperFacts(damper, facts);
      return { own, fit: damperFitOf(own, facts) };
    });
