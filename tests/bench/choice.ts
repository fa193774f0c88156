/** 10,000 penetrations against three tested systems: which fit, which comes nearest, and which is chosen. */
import type { Penetration } from '../../src/model.js';
import type { BriefSays } from '../../src/rules/brief-says.js';
import type { Candidate } from '../../src/rules/candidates.js';
import { chooseSystems, type ToChoose } from '../../src/rules/choose-system.js';
import { detailsFor, placeOf } from '../../src/rules/detail-facts.js';
import type { FactObject } from '../../src/rules/fact-schema.js';
import { fittingAt } from '../../src/rules/fitting.js';
import type { BriefChoices, RuleSet, TestedSystem } from '../../src/rules/index.js';
import { type ScopeLine, scopeLines } from '../../src/rules/scope-lines.js';
import { placesAtRandom } from './places.js';
import { type Best, bestPlainly, plainOf } from './plain-loop.js';

const PENETRATIONS = 10_000;

export interface ChoiceBench {
  readonly of: string;
  readonly comparisons: number;
  /** How many the first system is chosen for; what is counted keeps the work from being left out. */
  readonly choose: () => number;
  /** How many anything fits. */
  readonly fit: () => number;
  readonly plain: () => number;
}

/** @throws Error where the plain loop finds another best than the program */
export function choiceBench({ systems }: RuleSet): ChoiceBench {
  const places = placesAtRandom(PENETRATIONS);
  const all = places.map(toChoose);
  // The brief allows all of the systems and names none; every place is a run of its own.
  const choices = { testedSystems: systems.map(({ id }) => id), pinned: [] } as unknown as BriefChoices;
  const choose = () => chooseSystems(all, choices, { systems, dampers: [] });
  const plain = plainOf(linesOfEach(places, systems));
  const chosen = choose();
  const own = all.map(({ penetration }) => bestOf(chosen.get(penetration.id)!.candidate!));
  for (const [i, best] of bestPlainly(plain).entries())
    if (!areAlike(best, own[i]!))
      throw new Error(
        `The plain loop finds ${JSON.stringify(best)} at place ${i}, the program ${JSON.stringify(own[i])}.`,
      );
  return {
    of: `${PENETRATIONS} penetrations × ${systems.length} systems`,
    comparisons: plain.values.length,
    choose: () => [...choose().values()].filter(({ candidate: one }) => one?.system === systems[0]).length,
    fit: () => places.filter((facts) => fittingAt(facts, systems).feasible.length > 0).length,
    plain: () => bestPlainly(plain).filter(({ misses }) => misses === 0).length,
  };
}

/** The program rounds margins. */
const areAlike = (a: Best, b: Best): boolean =>
  a.misses === b.misses &&
  a.unknown === b.unknown &&
  (a.margin === b.margin || Math.abs(a.margin - b.margin) < MARGIN_NOISE);
const MARGIN_NOISE = 1e-6;

const bestOf = ({ misses, unknown, margin }: Candidate): Best => ({
  misses,
  unknown,
  margin,
});

function* linesOfEach(places: readonly FactObject[], systems: readonly TestedSystem[]): Generator<ScopeLine[][]> {
  for (const facts of places) yield systems.flatMap((system) => linesAt(system, facts));
}

/** Every detail for the barrier with every fixing. */
const linesAt = (system: TestedSystem, facts: FactObject): ScopeLine[][] => {
  const details = detailsFor(placeOf(system, facts));
  return (details.length > 0 ? details : [undefined]).flatMap((detail) =>
    (system.fixings.length > 0 ? system.fixings : [undefined]).map((fixing) =>
      scopeLines({ system, fixing, detail }, facts),
    ),
  );
};

/** What choosing needs of a penetration beside its facts. */
function toChoose(facts: FactObject, i: number): ToChoose {
  const { kind } = (facts.penetration as FactObject).treatment as FactObject;
  const penetration = { id: `P-${i}`, tag: `T-${i}`, key: `K-${i}`, duct: { run: null } };
  const barrier = { rating: { state: 'stated' } };
  return {
    penetration: { ...penetration, barrier, crossing: 'through', treatment: { kind } } as unknown as Penetration,
    facts,
    says: { known: true, choice: undefined } as BriefSays,
  };
}
