import type { BriefSays } from './brief-says.js';
import type { FactObject } from './fact-schema.js';
import type { BriefChoices } from './project-brief.js';
import { systemFacts } from './system-facts.js';
import { fitOf } from './system-fit.js';
import type { TestedSystem } from './tested-system.js';

/**
 * The facts of the tested system for one penetration: the one that the brief names for the duct's system; where it
 * names none, of those that may be used the one that misses least, then the one of which least is unknown.
 */
export function chosenSystemFacts(
  facts: FactObject,
  says: BriefSays,
  choices: BriefChoices | undefined,
  systems: readonly TestedSystem[],
): FactObject {
  const named = says.choice?.testedSystem;
  const allowed = says.known ? (named === undefined ? (choices?.testedSystems ?? []) : [named]) : [];
  const tried = allowed.flatMap((id) => {
    const system = systems.find((one) => one.id === id);
    if (!system) return [];
    const fixing = system.fixings.find((one) => one.id === says.choice?.fixing);
    const own = systemFacts(system, fixing, facts);
    return [{ own, fit: fitOf(own, facts) }];
  });
  const [best] = tried.sort(
    (a, b) => a.fit.misses.length - b.fit.misses.length || a.fit.unknown.length - b.fit.unknown.length,
  );
  return best?.own ?? { applied: false };
}
