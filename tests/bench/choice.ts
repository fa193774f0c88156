/** 10,000 penetrations against three tested systems: does it fit, and which is chosen. */
import type { BriefSays } from '../../src/rules/brief-says.js';
import { chosenSystemFacts } from '../../src/rules/choose-system.js';
import type { FactObject } from '../../src/rules/fact-schema.js';
import type { BriefChoices, RuleSet, TestedSystem } from '../../src/rules/index.js';
import { factsOf, placesAtRandom } from './places.js';
import { choosePlainly, plainOf } from './plain-loop.js';

const PENETRATIONS = 10_000;

/** The brief allows all of the systems and names none. */
function choose(facts: FactObject, systems: readonly TestedSystem[]): unknown {
  const says = { known: true, choice: undefined } as BriefSays;
  const choices = { testedSystems: systems.map(({ id }) => id) } as unknown as BriefChoices;
  return chosenSystemFacts(facts, says, choices, { systems, dampers: [] }).id;
}

/** Each chooses for every penetration, and both choose alike. */
export function choiceBench({ systems: all }: RuleSet): { program: () => number; plain: () => number; of: string } {
  const systems = threeOf(all);
  const places = placesAtRandom(PENETRATIONS);
  const facts = places.map(factsOf);
  const plain = systems.map(plainOf);
  for (const [i, place] of places.entries()) {
    const [own, other] = [choose(facts[i]!, systems), systems[choosePlainly(place, plain)]?.id];
    if (own !== other)
      throw new Error(`The plain loop chooses ${other} for ${JSON.stringify(place)}, not ${String(own)}.`);
  }
  // What is counted keeps the work from being left out.
  const chosen = (choice: (i: number) => unknown): number =>
    places.reduce((count, _, i) => count + (choice(i) === systems[0]!.id ? 1 : 0), 0);
  return {
    of: `${PENETRATIONS} penetrations × ${systems.length} systems`,
    program: () => chosen((i) => choose(facts[i]!, systems)),
    plain: () => chosen((i) => systems[choosePlainly(places[i]!, plain)]?.id),
  };
}

function threeOf(systems: readonly TestedSystem[]): TestedSystem[] {
  const [first, ...rest] = systems;
  if (!first) throw new Error('There is no tested system among the rules.');
  const [second = first, third = { ...first, id: 'again' }] = rest;
  return [first, second, third];
}
