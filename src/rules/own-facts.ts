import { resistsFire } from '../fire-rating/index.js';
import type { Penetration, Service } from '../model.js';
import type { RunDemand } from '../strategy/index.js';
import { briefFacts, briefSays } from './brief-says.js';
import { type Chosen, chooseSystems, type ToChoose } from './choose-system.js';
import type { Decided } from './decided.js';
import type { Face } from './face-facts.js';
import type { FactObject } from './fact-schema.js';
import { barrierFacts, ductFacts, penetrationFacts, sheetSize, tagsUnderGap } from './facts.js';
import { flangeOf } from './flange-table.js';
import { isProtection, type ProtectionCounts } from './protection.js';
import type { TestedSystem } from './tested-system.js';

/** The facts that belong to the penetration alone. */
export interface OwnFacts {
  readonly penetration: FactObject;
  readonly duct: FactObject;
  readonly brief: FactObject;
  readonly system: FactObject;
}

/** With those of the barrier, as it is at this crossing, and without those of a tested system. */
type GivenFacts = Readonly<Record<'penetration' | 'duct' | 'brief' | 'barrier', FactObject>>;

/** What was chosen for a penetration, and by which facts. */
export interface Choice {
  readonly facts: GivenFacts;
  readonly chosen: Chosen;
}

/** By the ids of penetrations. What protects one along a run bears on what may protect the next. */
export function choicesFor(penetrations: readonly Penetration[], decided: Decided): ReadonlyMap<string, Choice> {
  const all = penetrations.map((penetration) => toChoose(penetration, decided));
  const chosen = chooseSystems(all, decided.choices, decided);
  return new Map(all.map(({ penetration: { id }, facts }) => [id, { facts, chosen: chosen.get(id)! }]));
}

export const ownFacts = ({ facts: { penetration, duct, brief }, chosen: { system } }: Choice): OwnFacts => ({
  ...{ penetration, duct, brief, system },
});

function toChoose(
  penetration: Penetration,
  { flanges = [], ...strategy }: Decided,
): ToChoose & { readonly facts: GivenFacts } {
  const { choices } = strategy;
  const says = briefSays(penetration.duct, strategy);
  const flange = flangeOf(sheetSize(penetration.duct), choices?.flangeHeight, flanges);
  const own = {
    penetration: penetrationFacts(penetration, says),
    duct: ductFacts(penetration.duct, flange, serviceFact(says.demand)),
  };
  // Leaves and their rating belong to this crossing; how often the barrier is passed does not matter here.
  const barrier = barrierFacts(penetration.barrier, { penetrations: 1, facingEnds: 0 }, tagsUnderGap([penetration]));
  return { penetration, says, facts: { ...own, barrier, brief: briefFacts(says) } };
}

/** The tested system by which the penetration is judged; undefined: none was chosen. */
export const chosenSystem = ({ chosen: { candidate } }: Choice): TestedSystem | undefined => candidate?.system;

/** What is none of the named services is known to be none; null: not known. */
export const serviceFact = ({ service, serviceState }: RunDemand): Service | 'none' | null =>
  serviceState === 'noneOfThem' ? 'none' : service;

/** How many penetrations of barriers that are rated, or may be, wait for a choice of the brief. */
export function protectionCounts(
  penetrations: readonly Penetration[],
  own: readonly (Pick<OwnFacts, 'system' | 'brief'> & { readonly faces: readonly Face[] })[],
): ProtectionCounts {
  const concerned = penetrations
    .map(({ barrier, crossing, treatment, dampers }, i) => ({ barrier, crossing, treatment, dampers, ...own[i]! }))
    .filter(
      ({ barrier, crossing, treatment }) =>
        crossing === 'through' && resistsFire(barrier.rating) !== false && treatment.kind !== 'none',
    );
  const protectedOnes = concerned.filter(({ treatment }) => isProtection(treatment.kind));
  const built = protectedOnes
    .filter(({ dampers, system }) => dampers.length === 0 && system.facesNeeded !== undefined)
    .flatMap(({ faces }) => faces.filter(({ facts }) => facts.needed === true));
  const dampered = concerned.filter(({ treatment }) => treatment.kind === 'damper');
  return {
    protected: protectedOnes.length,
    withoutSystem: protectedOnes.filter(({ system }) => system.status === undefined).length,
    withoutPressure: protectedOnes.filter(
      ({ system, brief }) =>
        (system.overPressureStated === true && brief.overPressure === undefined) ||
        (system.underPressureStated === true && brief.underPressure === undefined),
    ).length,
    facesToBuildAt: built.length,
    facesUntold: built.filter(({ facts }) => facts.reached === undefined).length,
    dampered: dampered.length,
    dampersWithoutProof: dampered.filter(({ system }) => system.status === undefined).length,
  };
}
