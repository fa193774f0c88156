/** What is found in a part of a building, as it stands in the whole: names of an earlier report, and what hangs on all of a run. */
import { fileUnder, onceForEach } from '../collect.js';
import { nameOf } from '../element-refs.js';
import type { BuildingWide } from '../find/find-penetrations.js';
import type { BarrierFacts, Crossings, ElementRef, Federation, Penetration, Run } from '../model.js';
import type { WholeRuns } from '../rules/index.js';
import { compartmentsServed } from '../strategy/airways.js';
import type { Building } from './building.js';

/** An opening that is a little larger or smaller changes neither how a wall meets the structure nor a compartment. */
export function wideIn({ barriers }: Federation, { barrier, wide }: Building): BuildingWide {
  const heads = barriers.flatMap((one) => {
    const head = wide.heads.get(barrier(one)!);
    return head ? [[one, head] as const] : [];
  });
  return { ...wide, heads: new Map(heads) };
}

/** To be judged as the part that it is. */
export interface Part {
  readonly crossings: Crossings;
  readonly wholeRuns: WholeRuns;
}

export function partOf(found: Crossings, building: Building): Part {
  const { runWith, serves, systems } = namesIn(building);
  const parts = found.runs.flatMap(({ id, elements }) => {
    const run = runWith(elements[0]!);
    return run && run.elements.length > elements.length ? [[id, run] as const] : [];
  });
  const known = new Map(parts);
  return {
    crossings: {
      ...withKeys(found, building),
      compartments: compartmentsIn(found),
      runs: found.runs.map((run) => {
        const whole = known.get(run.id);
        return whole ? { ...run, system: whole.system, systems: whole.systems } : run;
      }),
    },
    wholeRuns: {
      serves: new Map(parts.map(([id, run]) => [id, serves.get(run.id) ?? null])),
      systems: new Map(parts.map(([id, run]) => [id, systems.get(run.id) ?? []])),
    },
  };
}

/** What is looked up by name in the whole, once for each building. */
const namesIn = onceForEach(({ crossings, tested, penetrations }: Building) => {
  const runs = new Map<string, Run>();
  for (const run of crossings.runs) for (const one of run.elements) runs.set(nameOf(one), run);
  const systems = new Map<string, string[]>();
  for (const { penetration, chosen } of tested) {
    const run = penetrations.get(penetration)?.duct.run;
    if (run && chosen) fileUnder(systems, run, chosen.system);
  }
  return {
    runWith: (ref: ElementRef) => runs.get(nameOf(ref)),
    serves: compartmentsServed(crossings),
    systems,
    inferred: new Map(crossings.barriers.map((barrier) => [nameOf(barrier), barrier.inferredFrom])),
    carried: new Map(
      crossings.penetrations.flatMap((p) => (p.inferredFrom === null ? [] : [[p.inferredFrom.ownKey, p] as const])),
    ),
  };
});

/** Of all compartments of the building those that the part has to do with. */
function compartmentsIn({ compartments, penetrations, runs }: Crossings): Crossings['compartments'] {
  const ids = new Set([
    ...penetrations.flatMap((one) => one.compartments),
    ...runs.flatMap(({ stretches }) => stretches.map(({ compartment }) => compartment)),
  ]);
  return compartments.filter(({ id }) => ids.has(id));
}

/** An earlier report may have given its keys on. */
function withKeys(found: Crossings, building: Building): Crossings {
  const { inferred, carried } = namesIn(building);
  const named = <T extends BarrierFacts>(barrier: T): T => ({
    ...barrier,
    inferredFrom: inferred.get(nameOf(barrier)) ?? null,
  });
  return {
    ...found,
    barriers: found.barriers.map(named),
    facingEnds: found.facingEnds.map((ends) => ({ ...ends, barrier: named(ends.barrier) })),
    penetrations: found.penetrations.map((p): Penetration => {
      const known = carried.get(p.key);
      const barrier = named(p.barrier);
      return known ? { ...p, barrier, key: known.key, inferredFrom: known.inferredFrom } : { ...p, barrier };
    }),
  };
}
