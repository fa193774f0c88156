import type { Penetration } from '../model.js';
import { briefFacts, briefSays } from './brief-says.js';
import { chosenSystemFacts, type TestedDocuments } from './choose-system.js';
import type { FactObject } from './fact-schema.js';
import { barrierFacts, ductFacts, isRated, penetrationFacts, tagsUnderGap } from './facts.js';
import type { BriefChoices } from './project-brief.js';
import { isProtection, type ProtectionCounts } from './protection.js';

/** What has been decided about the project. */
export interface Decided extends TestedDocuments {
  readonly choices?: BriefChoices | undefined;
}

/** The facts that belong to the penetration alone. */
export interface OwnFacts {
  readonly penetration: FactObject;
  readonly duct: FactObject;
  readonly brief: FactObject;
  readonly system: FactObject;
}

export function ownFacts(penetration: Penetration, { choices, ...tested }: Decided): OwnFacts {
  const says = briefSays(penetration.duct.system, choices);
  const own = {
    penetration: penetrationFacts(penetration, says),
    duct: ductFacts(penetration.duct, choices?.flangeHeight),
  };
  // Leaves and their rating belong to this crossing; how often the barrier is passed does not matter here.
  const barrier = barrierFacts(penetration.barrier, { penetrations: 1, facingEnds: 0 }, tagsUnderGap([penetration]));
  return { ...own, brief: briefFacts(says), system: chosenSystemFacts({ ...own, barrier }, says, choices, tested) };
}

/** How many penetrations of barriers that are rated, or may be, wait for a choice of the brief. */
export function protectionCounts(
  penetrations: readonly Penetration[],
  systems: readonly FactObject[],
): ProtectionCounts {
  const concerned = penetrations
    .map(({ barrier, crossing, treatment }, i) => ({ barrier, crossing, treatment, system: systems[i] ?? {} }))
    .filter(
      ({ barrier, crossing, treatment }) =>
        crossing === 'through' && isRated(barrier.rating) !== false && treatment.kind !== 'none',
    );
  const protectedOnes = concerned.filter(({ treatment }) => isProtection(treatment.kind));
  const dampered = concerned.filter(({ treatment }) => treatment.kind === 'damper');
  return {
    protected: protectedOnes.length,
    withoutSystem: protectedOnes.filter(({ system }) => system.status === undefined).length,
    withoutFixing: protectedOnes.filter(({ system }) => system.fixingNeeded === true && system.fixing === undefined)
      .length,
    dampered: dampered.length,
    dampersWithoutProof: dampered.filter(({ system }) => system.status === undefined).length,
  };
}
