/** What the fire strategy makes of each airway of a run: what is asked of it, what of it must hold back fire, where it does not. */
import type { AirElementKind, Compartment, Crossings, Penetration, Run } from '../model.js';
import { type Airway, airwaysOf, withPassage } from '../strategy/airways.js';
import type { Reason, RunDemand } from '../strategy/index.js';
import { type Continuity, continuityOf, IN_LINE } from '../strategy/lapses.js';
import { shelterOf } from '../strategy/shelter.js';
import { listed } from '../words/text.js';
import { briefSays, type Strategy } from './brief-says.js';
import { requiredMinutes, type SeparationMinutes } from './minutes.js';
import { isProtection } from './protection.js';

export interface RunStrategy {
  readonly run: Run;
  /** Which airway of the run, from 1. */
  readonly ordinal: number;
  readonly airway: Airway;
  readonly demand: AirwayDemand;
  /** Of the barriers that it passes without a fire damper, else of those that it ends at, and of the demand on it the greatest. */
  readonly required: SeparationMinutes;
  /** The least that the protection of what must resist is declared for; what has none lapses, and does not count here. */
  readonly declared: SeparationMinutes;
  /** Undefined: it can't be told. */
  readonly mustResist: boolean | undefined;
  readonly continuity: Continuity;
}

export type AirwayDemand = Pick<RunDemand, 'service' | 'resists' | 'dampers' | 'fire' | 'reasons'>;

export interface StrategyOptions extends Strategy {
  /** Of the elements in line those that the tested system of a penetration covers. */
  readonly testedInLine: (penetration: string) => readonly AirElementKind[];
}

/** Those that pass a barrier; in the order of the runs. */
export function runStrategies(
  { runs, penetrations, compartments }: Crossings,
  options: StrategyOptions,
): RunStrategy[] {
  const byId = new Map(penetrations.map((penetration) => [penetration.id, penetration]));
  const compartmentOf = new Map(compartments.map((compartment) => [compartment.id, compartment]));
  return runs.flatMap((run) =>
    airwaysOf(run, byId)
      .filter(({ inner, shut }) => inner.length + shut.length > 0)
      .map((airway, i) => strategyOf(run, i + 1, airway, compartmentOf, options)),
  );
}

function strategyOf(
  run: Run,
  ordinal: number,
  airway: Airway,
  compartmentOf: ReadonlyMap<string, Compartment>,
  options: StrategyOptions,
): RunStrategy {
  const open = withPassage(airway, 'open');
  const shut = withPassage(airway, 'shut');
  const all = [...airway.inner, ...airway.shut].map(({ penetration }) => penetration);
  const says = new Map(all.map((one) => [one, briefSays(one.duct, options)]));
  const demand = together([...says.values()].map((one) => one.demand));
  // Where dampers end it on all sides it lies between their barriers, and is asked for as much as those.
  const asked = (open.length > 0 ? open : shut).map((one) => requiredMinutes(one.barrier.rating, says.get(one)!));
  const required = {
    integrity: greatest(asked.map((one) => one.integrity)),
    insulation: greatest(asked.map((one) => one.insulation)),
  };
  const continuity = continuityOf(airway, {
    shelterOf: (id) => shelterOf(compartmentOf.get(id), required),
    testedInLine: open.map(({ id }) => options.testedInLine(id)).reduce(inBoth, IN_LINE),
  });
  const perhapsProtected = continuity.needed.filter(({ protection }) => protection.kind !== 'none');
  return {
    run,
    ordinal,
    airway,
    demand: { ...demand, reasons: [...demand.reasons, ...factsOf(open, continuity, airway, compartmentOf)] },
    required,
    declared: {
      integrity: least(perhapsProtected.map(({ protection }) => protection.integrity)),
      insulation: least(perhapsProtected.map(({ protection }) => protection.insulation)),
    },
    mustResist: mustResist(demand, open, continuity),
    continuity,
  };
}

/** A run whose ducts are asked for different things is asked for the most of them. */
function together(demands: readonly RunDemand[]): AirwayDemand {
  const all = <K extends 'service' | 'resists' | 'dampers' | 'fire'>(key: K) => [
    ...new Set(demands.map((one) => one[key])),
  ];
  const [services, resists, dampers, fire] = [all('service'), all('resists'), all('dampers'), all('fire')];
  const reasons = new Map(demands.flatMap((one) => one.reasons).map((reason) => [reason.says, reason]));
  return {
    service: services.length === 1 ? services[0]! : null,
    resists: resists.includes(null) ? null : resists.includes('always') ? 'always' : 'whereUndampered',
    dampers: dampers.includes(null) ? null : dampers.includes('never') ? 'never' : 'allowed',
    fire: fire.length === 1 ? fire[0]! : fire.includes(null) ? null : 'both',
    reasons: [...reasons.values()],
  };
}

/** Which ducts were protected at a barrier, or must be, since their system must not have a damper there. */
function mustResist(
  { resists, dampers }: AirwayDemand,
  open: readonly Penetration[],
  { needed }: Continuity,
): boolean | undefined {
  if (resists === 'always') return needed.length > 0;
  if (open.some(({ treatment }) => isProtection(treatment.kind))) return true;
  if (resists === null || dampers === null) return undefined;
  return dampers === 'never' && open.length > 0;
}

/** What the models themselves show to be asked for. */
function factsOf(
  open: readonly Penetration[],
  { served }: Continuity,
  { stretches }: Airway,
  compartmentOf: ReadonlyMap<string, Compartment>,
): Reason[] {
  const name = (id: string): string => compartmentOf.get(id)?.name ?? id;
  const passed = [...new Set(stretches.flatMap(({ compartment }) => compartment ?? []))].filter(
    (id) => !served.compartments.includes(id),
  );
  const model = (says: string): Reason => ({ says, source: 'the model', status: 'model' });
  return [
    ...(served.compartments.length > 0 ? [model(`it serves ${listed(served.compartments.map(name))}`)] : []),
    ...(served.count === 1 && open.length > 0 && passed.length > 0
      ? [model(`it passes ${listed(passed.map(name))} without serving it`)]
      : []),
    ...(open.length > 0
      ? [model(`it passes ${listed([...new Set(open.map(({ barrier }) => barrier.name))])} without a fire damper`)]
      : []),
  ];
}

const inBoth = (a: readonly AirElementKind[], b: readonly AirElementKind[]) => a.filter((kind) => b.includes(kind));

/** Undefined where one of them is not known, or there is none. */
const greatest = (values: readonly (number | undefined)[]): number | undefined =>
  values.length === 0 || values.includes(undefined) ? undefined : Math.max(...values.map((value) => value ?? 0));
const least = (values: readonly (number | null)[]): number | undefined =>
  values.length === 0 || values.includes(null) ? undefined : Math.min(...values.map((value) => value ?? 0));
