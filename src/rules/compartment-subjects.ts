/** Compartments and the doors in rated barriers, as checks look at them. */
import { nameOf, refOf } from '../element-refs.js';
import type { BarrierFacts, Compartment, Crossings, DoorFacts } from '../model.js';
import { barrierKey } from './barrier-key.js';
import { compartmentFacts } from './compartment-facts.js';
import type { FactObject } from './fact-schema.js';
import { doorFacts } from './facts.js';
import type { Shared, Subject } from './subject.js';

export function doorSubjects(
  { doors, barriers }: Crossings,
  sharedBy: (barrier: BarrierFacts) => Shared,
): readonly Subject[] {
  const byRef = new Map(barriers.map((barrier) => [nameOf(barrier), barrier]));
  return doors.flatMap((door) => {
    const barrier = byRef.get(nameOf(door.barrier));
    return barrier ? [doorSubject(door, barrier, sharedBy(barrier))] : [];
  });
}

function doorSubject(door: DoorFacts, barrier: BarrierFacts, shared: Shared): Subject {
  return {
    ...shared,
    facts: { ...shared.facts, door: doorFacts(door) },
    subject: { type: 'barrier', id: barrier.globalId, elements: [refOf(barrier), refOf(door)] },
    key: `${barrierKey(barrier)} ${door.globalId}`,
    side: null,
    at: door.at,
    penetrations: [],
  };
}

/** Known again by its walls; one without any by its rooms. */
export function compartmentSubject(
  compartment: Compartment,
  model: FactObject,
  byRef: ReadonlyMap<string, BarrierFacts>,
): Subject {
  const { spaces, barriers } = compartment;
  const walls = barriers.map((wall) => barrierKey(byRef.get(nameOf(wall)) ?? { ...wall, inferredFrom: null })).sort();
  const elements = [...barriers, ...spaces].map(refOf);
  return {
    facts: { model, compartment: compartmentFacts(compartment) },
    subject: { type: 'barrier', id: elements[0]?.globalId ?? compartment.id, elements },
    key: ['compartment', ...(walls.length > 0 ? walls : spaces.map(({ globalId }) => globalId))].join(' '),
    side: null,
    at: null,
    barrier: null,
    airway: null,
    rank: 0,
    penetrations: [],
  };
}
