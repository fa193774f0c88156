import { resistsFire } from '../fire-rating/index.js';
import type {
  AirElementKind,
  BarrierFacts,
  Crossings,
  FacingEnds,
  Finding,
  ModelInfo,
  Penetration,
  Side,
  Vec3,
} from '../model.js';
import { isSaidToStopShort } from './barrier-facts.js';
import { compartmentSubject, doorSubjects } from './compartment-subjects.js';
import { EACH, type Each, type FactObject } from './fact-schema.js';
import {
  barrierFacts,
  codeFacts,
  endsFacts,
  type GapFacts,
  gapFacts,
  leakFacts,
  modelFacts,
  neighbourFacts,
  tagsUnderGap,
} from './facts.js';
import { type WallLeak, wallLeaks } from './leaks.js';
import { type Decided, type OwnFacts, ownFacts, protectionCounts } from './own-facts.js';
import { pairs } from './pairs.js';
import { textOf } from './read-fact.js';
import { barrierKey, refOf } from './refs.js';
import { type RunStrategy, runStrategies } from './run-strategy.js';
import { compartmentNames, runSubjects } from './run-subjects.js';
import { stricterSystem } from './system-facts.js';

/** One thing that a check looks at. */
export interface Subject {
  readonly facts: FactObject;
  readonly subject: Finding['subject'];
  /** Stable between revisions as far as the model's GlobalIds are; no file names, no coordinates. */
  readonly key: string;
  readonly side: Side | null;
  readonly at: Vec3 | null;
  /** Which barrier it is about; null for the models. */
  readonly barrier: string | null;
  /** Which run, or part of it between fire dampers, it is about as a whole; null: none. */
  readonly airway: string | null;
  /** Minutes by which findings are put in order. */
  readonly rank: number;
  /** Ids of the penetrations it is about. */
  readonly penetrations: readonly string[];
}

export type Subjects = { readonly [E in Each]: readonly Subject[] };

export interface Cases {
  readonly subjects: Subjects;
  readonly strategies: readonly RunStrategy[];
}

interface CrossedBarrier {
  readonly id: string;
  readonly penetrations: Penetration[];
  readonly facing: FacingEnds[];
  readonly leaks: WallLeak[];
  /** As each of its crossings shows it, and as itself where its head shows a gap. */
  readonly seen: BarrierFacts[];
}

export function casesOf(
  crossings: Crossings,
  models: readonly ModelInfo[] | undefined,
  decided: Decided = { systems: [], dampers: [] },
): Cases {
  const { penetrations } = crossings;
  const facts = new Map(penetrations.map((penetration) => [penetration.id, ownFacts(penetration, decided)]));
  const model = modelFacts(
    crossings,
    models,
    protectionCounts(
      penetrations,
      penetrations.map(({ id }) => facts.get(id)!.system),
    ),
  );
  const crossed = crossedBarriers(crossings);
  const byId = new Map(penetrations.map((penetration) => [penetration.id, penetration]));
  const subjects: { [E in Each]: Subject[] } = Object.fromEntries(EACH.map((each) => [each, []])) as never;
  subjects.model.push(modelSubject({ model, code: codeFacts(decided) }));
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
      for (const gap of gapFacts(penetration)) subjects.gap.push(gapSubject(penetration, gap, own));
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
  subjects.compartment.push(...crossings.compartments.map((one) => compartmentSubject(one, model)));
  const strategies = runStrategies(crossings, {
    ...decided,
    testedInLine: (id) => testedInLine(facts.get(id), decided),
  });
  const nameOf = compartmentNames(crossings.compartments);
  for (const strategy of strategies) {
    const { run, lapses } = runSubjects(strategy, model, nameOf);
    subjects.run.push(run);
    subjects.lapse.push(...lapses);
  }
  return { subjects, strategies };
}

/** Elements in line with the duct that the tested system chosen for a penetration covers. */
function testedInLine(own: OwnFacts | undefined, { systems }: Decided): readonly AirElementKind[] {
  const chosen = systems.find(({ id }) => id === (own && textOf(own.system, 'id')));
  if (!chosen) return [];
  const { flexible, inLine } = chosen.scope.duct;
  return flexible ? ['flexible', ...inLine] : inLine;
}

export type Shared = Pick<Subject, 'facts' | 'barrier' | 'airway' | 'rank'>;

/**
 * Barriers with a penetration, facing ends, a leak or something amiss at their head; the others give nothing to check. In
 * that order.
 */
function crossedBarriers(crossings: Crossings): CrossedBarrier[] {
  const { penetrations, facingEnds, barriers } = crossings;
  const found = new Map<string, CrossedBarrier>();
  const at = (barrier: BarrierFacts): CrossedBarrier => {
    const id = identityOf(barrier);
    const known = found.get(id) ?? { id, penetrations: [], facing: [], leaks: [], seen: [] };
    found.set(id, known);
    known.seen.push(barrier);
    return known;
  };
  for (const penetration of [...penetrations].sort(byText(({ id }) => id))) {
    at(penetration.barrier).penetrations.push(penetration);
  }
  for (const ends of [...facingEnds].sort(byText(({ key }) => key))) at(ends.barrier).facing.push(ends);
  for (const leak of wallLeaks(crossings)) at(leak.barrier).leaks.push(leak);
  for (const barrier of [...barriers].sort(byText(identityOf)))
    if ((barrier.head?.gap ?? 0) > 0 || isSaidToStopShort(barrier)) at(barrier);
  return [...found.values()];
}

/**
 * GlobalIds may repeat even within one file, so what else tells two barriers apart belongs to it; not the thickness and
 * the rating, which may differ from one crossing of the same barrier to the next where other leaves stand before it.
 */
const identityOf = ({ model, globalId, name, kind, storey }: BarrierFacts): string =>
  JSON.stringify([model, globalId, name, kind, storey?.globalId ?? null]);

/** As it is seen where least is known of its rating: what holds for the barrier must hold at all its crossings. */
const leastKnown = ({ seen }: CrossedBarrier): BarrierFacts => seen.reduce(stricter);

/** The one whose rating is not known; of two known ones the one that asks more. */
function stricter(a: BarrierFacts, b: BarrierFacts): BarrierFacts {
  const demand = (barrier: BarrierFacts): number =>
    resistsFire(barrier.rating) === undefined ? Number.POSITIVE_INFINITY : rankOf(barrier);
  return demand(b) > demand(a) ? b : a;
}

/** The integrity counts first; a bare duration stands in for it. What has no number comes last. */
function rankOf({ rating }: BarrierFacts): number {
  if (resistsFire(rating) !== true) return 0;
  const minutes = [rating.integrity, rating.insulation, rating.duration].filter((value) => typeof value === 'number');
  return minutes[0] ?? 0;
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

function penetrationSubject(penetration: Penetration, own: OwnFacts, shared: Shared): Subject {
  return {
    ...shared,
    facts: { ...shared.facts, ...own },
    subject: {
      type: 'penetration',
      id: penetration.id,
      elements: [...penetration.elements.map(refOf), refOf(penetration.barrier)],
    },
    key: penetration.key,
    side: null,
    at: penetration.position,
    penetrations: [penetration.id],
  };
}

function gapSubject(penetration: Penetration, gap: GapFacts, own: Subject): Subject {
  return {
    ...own,
    facts: { ...own.facts, gap: gap.facts },
    key: `${own.key} ${gap.place}`,
    side: gap.side,
    at: gap.side === null ? own.at : middleOfGap(penetration, gap.side, gap.value),
  };
}

/** Half-way between the duct's edge and what the gap ends at, in the plane of the elevation drawing. */
function middleOfGap({ outlines, frame, position }: Penetration, side: Side, value: number | null): Vec3 {
  const points = outlines.duct.flat();
  if (points.length === 0 || value === null) return position;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [left, right, bottom, top] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const middles: { readonly [S in Side]: readonly [number, number] } = {
    top: [(left + right) / 2, top + value / 2],
    bottom: [(left + right) / 2, bottom - value / 2],
    left: [left - value / 2, (bottom + top) / 2],
    right: [right + value / 2, (bottom + top) / 2],
  };
  const [x, y] = middles[side];
  return along(position, (i) => x * frame.right[i] + y * frame.up[i]);
}

function neighbourSubject(first: Penetration, second: Penetration, distance: number, own: Subject): Subject {
  return {
    ...own,
    facts: { ...own.facts, neighbour: neighbourFacts(first, second, distance) },
    subject: {
      ...own.subject,
      elements: [...first.elements.map(refOf), ...second.elements.map(refOf), refOf(first.barrier)],
    },
    key: [first.key, second.key].sort().join(' '),
    at: along(first.position, (i) => (second.position[i] - first.position[i]) / 2),
    penetrations: [first.id, second.id],
  };
}

const along = (start: Vec3, step: (axis: 0 | 1 | 2) => number): Vec3 => [
  tenth(start[0] + step(0)),
  tenth(start[1] + step(1)),
  tenth(start[2] + step(2)),
];

/** Positions are reported to 0.1 mm. */
const tenth = (value: number): number => Number(value.toFixed(1));

function byText<T>(textOf: (item: T) => string): (a: T, b: T) => number {
  return (a, b) => (textOf(a) < textOf(b) ? -1 : textOf(a) > textOf(b) ? 1 : 0);
}
