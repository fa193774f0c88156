/** Which tested details would do at a penetration if the duct were protected so: not what is there. And which come nearest. */
import { type Candidate, candidatesWith, heldBest, ranked, sealedBy } from './candidates.js';
import type { FactObject } from './fact-schema.js';
import { numberOf } from './read-fact.js';
import { reachedRating } from './system-facts.js';
import type { TestedSystem } from './tested-system.js';

export interface Fitting {
  /** Nothing is missed and nothing is unknown; best first. */
  readonly feasible: readonly Candidate[];
  /** Where nothing is feasible; best first, at most three. */
  readonly nearest: readonly Candidate[];
}

const NEAREST = 3;

/** @param facts of the penetration */
export function fittingAt(facts: FactObject, systems: readonly TestedSystem[]): Fitting {
  const held = systems.map((system) => heldBest(system, protectedBy(system, facts)));
  const forBarrier = held.flatMap((one) => candidatesWith(one));
  const feasible = ranked(forBarrier.filter(({ misses, unknown }) => misses === 0 && unknown === 0));
  if (feasible.length > 0) return { feasible, nearest: [] };
  // What is nearest may be a detail of other barriers.
  const tried = new Set(forBarrier.map(({ detail }) => detail));
  const others = held.flatMap((one) =>
    one.system.details.filter((detail) => !tried.has(detail)).map((detail) => sealedBy(one, detail)),
  );
  return { feasible, nearest: ranked([...forBarrier, ...others]).slice(0, NEAREST) };
}

/** By as many layers as what is asked needs; undefined where no number of them reaches it. */
function protectedBy(system: TestedSystem, facts: FactObject): FactObject {
  const as = (layers: number | undefined): FactObject => ({
    ...facts,
    penetration: { ...(facts.penetration as FactObject), treatment: { kind: system.protection, layers } },
  });
  const { layersFor } = reachedRating(system, facts);
  // Where none reaches it, the most that was tested comes nearest.
  const most = system.scope.ratings.at(-1)?.layers;
  const asked = ['integrity', 'insulation'].map((name) => numberOf(facts, `penetration.required.${name}`));
  return as(typeof layersFor === 'number' ? layersFor : asked.includes(undefined) ? undefined : most);
}
