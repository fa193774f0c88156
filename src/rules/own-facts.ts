import type { Penetration } from '../model.js';
import { briefFacts, briefSays } from './brief-says.js';
import { chosenSystemFacts } from './choose-system.js';
import type { FactObject } from './fact-schema.js';
import { barrierFacts, ductFacts, isRated, penetrationFacts, sheetSize, tagsUnderGap } from './facts.js';
import { flangeOf } from './flange-table.js';
import type { BriefChoices } from './project-brief.js';
import { isProtection, type ProtectionCounts } from './protection.js';
import type { RuleSet } from './rule-set.js';
import type { TestedSystem } from './tested-system.js';

/** What has been decided about the project. */
export interface Decided {
  readonly choices?: BriefChoices | undefined;
  readonly systems: readonly TestedSystem[];
  /** Of flanges, where the brief says nothing. */
  readonly flanges?: RuleSet['flanges'];
}

/** The facts that belong to the penetration alone. */
export interface OwnFacts {
  readonly penetration: FactObject;
  readonly duct: FactObject;
  readonly brief: FactObject;
  readonly system: FactObject;
}

export function ownFacts(penetration: Penetration, { choices, systems, flanges = [] }: Decided): OwnFacts {
  const says = briefSays(penetration.duct.system, choices);
  const own = {
    penetration: penetrationFacts(penetration, says),
    duct: ductFacts(penetration.duct, flangeOf(sheetSize(penetration.duct), choices?.flangeHeight, flanges)),
  };
  // Leaves and their rating belong to this crossing; how often the barrier is passed does not matter here.
  const barrier = barrierFacts(penetration.barrier, { penetrations: 1, facingEnds: 0 }, tagsUnderGap([penetration]));
  return { ...own, brief: briefFacts(says), system: chosenSystemFacts({ ...own, barrier }, says, choices, systems) };
}

/** How many protected penetrations of barriers that are rated, or may be, wait for a choice of the brief. */
export function protectionCounts(
  penetrations: readonly Penetration[],
  systems: readonly FactObject[],
): ProtectionCounts {
  const concerned = penetrations
    .map(({ barrier, crossing, treatment }, i) => ({ barrier, crossing, treatment, system: systems[i] ?? {} }))
    .filter(
      ({ barrier, crossing, treatment }) =>
        crossing === 'through' && isRated(barrier.rating) !== false && isProtection(treatment.kind),
    );
  return {
    protected: concerned.length,
    withoutSystem: concerned.filter(({ system }) => system.status === undefined).length,
    withoutFixing: concerned.filter(({ system }) => system.fixingNeeded === true && system.fixing === undefined).length,
  };
}
