/** Airways of runs, and the places where their protection lapses, as checks look at them. */
import { compareTexts } from '../collect.js';
import { refsOf } from '../element-refs.js';
import { furthestApart, lerp } from '../geometry/vector.js';
import type { Compartment, StretchPart, Vec3 } from '../model.js';
import { type Airway, withPassage } from '../strategy/airways.js';
import type { Doubt, Lapse } from '../strategy/lapses.js';
import { counted, listed, oneLine } from '../words/text.js';
import { areCompatible } from './along-run.js';
import { compartmentFacts } from './compartment-facts.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import type { RunStrategy } from './run-strategy.js';
import type { Subject } from './subject.js';
import type { TestedSystem } from './tested-system.js';

export interface RunSubjects {
  readonly run: Subject;
  /** What lapses; one of the kind `none` where nothing does. */
  readonly lapses: readonly Subject[];
}

/** What is known beside the strategy of a run. */
export interface AroundRuns {
  readonly model: FactObject;
  /** Of a compartment, by its id. */
  readonly nameOf: (id: string) => string;
  /** What protects a penetration, by its id; undefined: nothing that was tested. */
  readonly systemAt: (id: string) => TestedSystem | undefined;
}

export function runSubjects(strategy: RunStrategy, { model, nameOf, systemAt }: AroundRuns): RunSubjects {
  const { run, ordinal, airway, required, continuity } = strategy;
  const facts = { model, run: { ...runFacts(strategy, nameOf), ...systemsAlong(airway, systemAt) } };
  const parts = airway.stretches.flatMap((stretch) => stretch.parts);
  const key = keyOf(airway);
  const subjectOf = (elements: readonly StretchPart[], own: FactObject, name: string): Subject => ({
    facts: own,
    subject: { type: 'run', id: run.id, elements: refsOf(elements) },
    key: name,
    side: null,
    at: middleOf(elements),
    barrier: null,
    airway: `${run.id} ${ordinal}`,
    rank: required.integrity ?? 0,
    penetrations: [...airway.inner, ...airway.shut].map(({ penetration }) => penetration.id),
  });
  const lapses = inPlaceOrder(continuity.lapses).map((lapse, i) =>
    subjectOf(lapse.parts, { ...facts, lapse: lapseFacts(lapse, nameOf) }, `${key} ${lapse.kind} ${i + 1}`),
  );
  const none = { ...facts, lapse: { kind: 'none', length: 0, elements: 0 } };
  return {
    run: subjectOf(parts, facts, key),
    lapses: lapses.length > 0 ? lapses : [subjectOf(parts, none, `${key} none`)],
  };
}

function runFacts(
  { run, airway, demand, required, declared, mustResist, continuity }: RunStrategy,
  nameOf: (id: string) => string,
): FactObject {
  const { served, needed } = continuity;
  return known({
    id: run.id,
    name: run.system === null ? run.id : `${oneLine(run.system)} (${run.id})`,
    system: run.system,
    service: demand.service,
    undampered: withPassage(airway, 'open').length,
    dampered: airway.shut.length,
    mustResist,
    resists: demand.resists,
    dampers: demand.dampers,
    served: served.count,
    looseEnds: continuity.looseEnds,
    serves: listed(served.compartments.map(nameOf)),
    required: known({ ...required }),
    declared: known({ ...declared }),
    length: lengthOf(needed.filter(({ protection }) => protection.kind !== 'none')),
  });
}

/** Those that protect the duct at the barriers that it passes. */
function systemsAlong(airway: Airway, systemAt: AroundRuns['systemAt']): FactObject {
  const ids = [...airway.inner, ...airway.shut].map(({ penetration }) => penetration.id);
  const systems = [...new Set(ids.flatMap((id) => systemAt(id) ?? []))].sort((a, b) => compareTexts(a.id, b.id));
  return {
    testedSystems: systems.length,
    testedSystemNames: listed(systems.map(({ name }) => name)),
    systemsCompatible: systems.every((a) => systems.every((b) => areCompatible(a, b))),
  };
}

function lapseFacts({ kind, parts, length, compartments, doubts }: Lapse, nameOf: (id: string) => string): FactObject {
  const isKnown = (doubt: Doubt): boolean => !doubts.includes(doubt);
  return known({
    kind,
    length,
    elements: parts.length,
    what: whatOf(parts),
    where: compartments.length > 0 ? listed(compartments.map(nameOf)) : 'no known compartment',
    servedKnown: isKnown('served'),
    ratingKnown: isKnown('rating'),
    damperKnown: isKnown('damper'),
    shaftKnown: isKnown('shaft'),
  });
}

/** Of what is long its first and its last piece say where it is. */
function whatOf(parts: readonly StretchPart[]): string {
  const names = [...new Set(parts.map(({ name, globalId }) => oneLine(name) || globalId))];
  if (names.length < 4) return listed(names);
  const [from, to] = furthestApart(parts.map(({ from, to }) => lerp(from, to, 0.5)));
  const nameAt = (at: Vec3): string => {
    const part = parts.find((one) => lerp(one.from, one.to, 0.5).every((x, i) => x === at[i]));
    return part ? oneLine(part.name) || part.globalId : '';
  };
  return `${counted(names.length, 'piece')} between ${nameAt(from)} and ${nameAt(to)}`;
}

const lengthOf = (parts: readonly StretchPart[]): number =>
  Number(parts.reduce((sum, { length }) => sum + length, 0).toFixed(1));

/** By one of its penetrations, which are known again in a later revision; by those that end it where none is within. */
function keyOf({ inner, shut }: Airway): string {
  const keys = (inner.length > 0 ? inner : shut).map(({ penetration }) => penetration.key);
  return `run ${keys.sort(compareTexts)[0]}`;
}

/** GlobalIds change from one revision to the next, places seldom do. */
const inPlaceOrder = (lapses: readonly Lapse[]): Lapse[] =>
  [...lapses].sort((a, b) => a.from[0] - b.from[0] || a.from[1] - b.from[1] || a.from[2] - b.from[2]);

/** Of the longest of them, where something can be seen. */
function middleOf(parts: readonly StretchPart[]): Vec3 | null {
  const [longest] = [...parts].sort((a, b) => b.length - a.length);
  return longest ? (lerp(longest.from, longest.to, 0.5).map((x) => Number(x.toFixed(1))) as unknown as Vec3) : null;
}

/** Names of compartments by their ids; of a shaft that does not enclose what is in it also why. */
export function compartmentNames(compartments: readonly Compartment[]): (id: string) => string {
  const names = new Map(compartments.map((one) => [one.id, nameWithGaps(one)]));
  return (id) => names.get(id) ?? id;
}

function nameWithGaps(compartment: Compartment): string {
  const { gaps } = compartmentFacts(compartment);
  const name = oneLine(compartment.name);
  return compartment.shaft === true && typeof gaps === 'string'
    ? `${name} (a shaft that does not take over: ${gaps})`
    : name;
}
