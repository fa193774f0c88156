/** Everything that checks look at, one list for each kind. */
import { nameOf, refOf } from '../element-refs.js';
import type {
  AirElementKind,
  BarrierFacts,
  Crossings,
  FacingEnds,
  ModelInfo,
  Penetration,
  SupportRow,
} from '../model.js';
import { accessSubjects } from './access-subjects.js';
import { barrierKey } from './barrier-key.js';
import { compartmentSubject, doorSubjects } from './compartment-subjects.js';
import { type CrossedBarrier, crossedBarriers, identityOf, leastKnown, rankOf, stricter } from './crossed-barriers.js';
import type { Decided } from './decided.js';
import { type Face, faceFacts } from './face-facts.js';
import { EACH, type Each, type FactObject } from './fact-schema.js';
import { barrierFacts, endsFacts, leakFacts, tagsUnderGap } from './facts.js';
import { gapFacts } from './gap-facts.js';
import type { WallLeak } from './leaks.js';
import { codeFacts, modelFacts } from './model-facts.js';
import { type Choice, choicesFor, chosenSystem, ownFacts, protectionCounts } from './own-facts.js';
import { pairs } from './pairs.js';
import { faceSubject, gapSubject, neighbourSubject, penetrationSubject } from './penetration-subjects.js';
import { roomSubjects } from './room-subjects.js';
import { type RunStrategy, runStrategies } from './run-strategy.js';
import { compartmentNames, runSubjects } from './run-subjects.js';
import type { Shared, Subject } from './subject.js';
import { scheduleRows } from './support-schedule.js';
import { spanSubjects, supportSubjects } from './support-subjects.js';
import { SupportedRun, supportsByRun } from './supported-run.js';
import { stricterSystem } from './system-facts.js';
import type { TestedSystem } from './tested-system.js';

export type Subjects = { readonly [E in Each]: readonly Subject[] };

export interface Cases {
  readonly subjects: Subjects;
  readonly strategies: readonly RunStrategy[];
  readonly supports: readonly SupportRow[];
  /** By the ids of the penetrations. */
  readonly choices: ReadonlyMap<string, Choice>;
}

export function casesOf(
  crossings: Crossings,
  models: readonly ModelInfo[] | undefined,
  decided: Decided = { systems: [], dampers: [] },
): Cases {
  const { penetrations } = crossings;
  const choices = choicesFor(penetrations, decided);
  const facts = new Map([...choices].map(([id, choice]) => [id, ownFacts(choice)]));
  const faces = new Map(
    penetrations.map((one) => [one.id, faceFacts(one, facts.get(one.id)!.system, decided.choices?.room)]),
  );
  const facesOf = ({ id, crossing }: Penetration): readonly Face[] => (crossing === 'through' ? faces.get(id)! : []);
  const model = modelFacts(
    crossings,
    models,
    protectionCounts(
      penetrations,
      penetrations.map((one) => ({ ...facts.get(one.id)!, faces: facesOf(one) })),
    ),
  );
  const crossed = crossedBarriers(crossings);
  const byId = new Map(penetrations.map((penetration) => [penetration.id, penetration]));
  const subjects: { [E in Each]: Subject[] } = Object.fromEntries(EACH.map((each) => [each, []])) as never;
  for (const one of crossed) {
    const counts = { penetrations: one.penetrations.length, facingEnds: one.facing.length };
    const underGap = tagsUnderGap(one.penetrations);
    const sharedBy = (barrier: BarrierFacts): Shared => ({
      facts: { model, barrier: barrierFacts(barrier, counts, underGap) },
      barrier: one.id,
      airway: null,
      rank: rankOf(barrier),
    });
    subjects.barrier.push(barrierSubject(one, sharedBy(leastKnown(one))));
    for (const ends of one.facing) subjects.facingEnds.push(facingSubject(ends, sharedBy(ends.barrier)));
    for (const leak of one.leaks) subjects.leak.push(leakSubject(leak, sharedBy(leak.barrier)));
    for (const penetration of one.penetrations) {
      const own = penetrationSubject(penetration, facts.get(penetration.id)!, sharedBy(penetration.barrier));
      subjects.penetration.push(own);
      for (const gap of gapFacts(penetration, byId)) subjects.gap.push(gapSubject(penetration, gap, own));
      subjects.face.push(...facesOf(penetration).map((face) => faceSubject(penetration, face, own)));
    }
    for (const { first, second, distance } of pairs(one.penetrations, byId)) {
      const [a, b] = [facts.get(first.id)!, facts.get(second.id)!];
      const together = { ...a, system: stricterSystem(a.system, b.system) };
      const own = penetrationSubject(first, together, sharedBy(stricter(first.barrier, second.barrier)));
      subjects.neighbour.push(neighbourSubject(first, second, distance, own));
    }
  }
  const countsOf = new Map(crossed.map((one) => [one.id, one]));
  subjects.door.push(
    ...doorSubjects(crossings, (barrier) => {
      const one = countsOf.get(identityOf(barrier));
      const counts = { penetrations: one?.penetrations.length ?? 0, facingEnds: one?.facing.length ?? 0 };
      const facts = { model, barrier: barrierFacts(barrier, counts, tagsUnderGap(one?.penetrations ?? [])) };
      return { facts, barrier: identityOf(barrier), airway: null, rank: rankOf(barrier) };
    }),
  );
  const byRef = new Map(crossings.barriers.map((barrier) => [nameOf(barrier), barrier]));
  subjects.compartment.push(...crossings.compartments.map((one) => compartmentSubject(one, model, byRef)));
  const { accessGap, bend, accessPanel } = accessSubjects(crossings, choices, decided, model);
  subjects.accessGap.push(...accessGap);
  subjects.bend.push(...bend);
  subjects.accessPanel.push(...accessPanel);
  const strategies = runStrategies(crossings, {
    ...decided,
    testedInLine: (id) => testedInLine(choices.get(id)),
  });
  const called = compartmentNames(crossings.compartments);
  const systemAt = (id: string) => {
    const choice = choices.get(id);
    return choice?.chosen.system.applied === true ? chosenSystem(choice) : undefined;
  };
  const supportsOf = supportsByRun(crossings.supports);
  const held: SupportedRun[] = [];
  for (const strategy of strategies) {
    const { run, lapses } = runSubjects(strategy, { model, nameOf: called, systemAt });
    subjects.run.push(run);
    subjects.lapse.push(...lapses);
    const supported = new SupportedRun(
      { strategy, run, system: systemOf(strategy, systemAt) },
      supportsOf(strategy.run.id),
      decided,
    );
    if (strategy.mustResist === false || !supported.isProtected) continue;
    held.push(supported);
    if (strategy.mustResist !== true) continue;
    subjects.support.push(...supportSubjects(supported));
    subjects.supportSpan.push(...spanSubjects(supported));
  }
  subjects.room.push(...roomSubjects(crossings, choices, decided, model));
  const supports = {
    runs: held.length,
    unknownRuns: held.filter(({ isModelled }) => !isModelled).length,
  };
  subjects.model.push(modelSubject({ model, code: codeFacts(decided), supports }));
  return { subjects, strategies, supports: held.flatMap(scheduleRows), choices };
}

/** Elements in line with the duct that the tested system chosen for a penetration covers. */
function testedInLine(choice: Choice | undefined): readonly AirElementKind[] {
  const chosen = choice && chosenSystem(choice);
  if (!chosen) return [];
  const { flexible, inLine } = chosen.scope.duct;
  return flexible ? ['flexible', ...inLine] : inLine;
}

/** The one that protects it at its barriers; undefined: none, or several. */
function systemOf(
  { airway }: RunStrategy,
  systemAt: (penetration: string) => TestedSystem | undefined,
): TestedSystem | undefined {
  const chosen = new Set(
    [...airway.inner, ...airway.shut].flatMap(({ penetration }) => systemAt(penetration.id) ?? []),
  );
  return chosen.size === 1 ? [...chosen][0] : undefined;
}

function modelSubject(facts: FactObject): Subject {
  return {
    facts,
    subject: { type: 'model', id: 'federation', elements: [] },
    key: 'federation',
    side: null,
    at: null,
    barrier: null,
    airway: null,
    // What can't be told of the whole review comes before all single places.
    rank: Number.POSITIVE_INFINITY,
    penetrations: [],
  };
}

function barrierSubject(crossed: CrossedBarrier, shared: Shared): Subject {
  const { penetrations, facing, leaks } = crossed;
  const barrier = leastKnown(crossed);
  return {
    ...shared,
    subject: { type: 'barrier', id: barrier.globalId, elements: [refOf(barrier)] },
    key: barrierKey(barrier),
    side: null,
    // A barrier has no point of its own here; the first place where something passes it is where to look.
    at: penetrations[0]?.position ?? facing[0]?.position ?? leaks[0]?.leak.at ?? barrier.head?.at ?? null,
    penetrations: penetrations.map(({ id }) => id),
  };
}

function facingSubject(ends: FacingEnds, shared: Shared): Subject {
  return {
    ...shared,
    facts: { ...shared.facts, ends: endsFacts(ends) },
    subject: {
      type: 'barrier',
      id: ends.barrier.globalId,
      elements: [refOf(ends.barrier), refOf(ends.ends[0]), refOf(ends.ends[1])],
    },
    key: `${barrierKey(ends.barrier)} ${ends.key}`,
    side: null,
    at: ends.position,
    penetrations: [],
  };
}

function leakSubject({ leak, barrier, other, ordinal }: WallLeak, shared: Shared): Subject {
  return {
    ...shared,
    facts: { ...shared.facts, leak: leakFacts(leak.width, other) },
    subject: { type: 'barrier', id: barrier.globalId, elements: [refOf(barrier), refOf(other)] },
    key: [...[barrier, other].map(barrierKey).sort(), `leak ${ordinal}`].join(' '),
    side: null,
    at: leak.at,
    penetrations: [],
  };
}
