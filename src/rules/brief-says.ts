import type { DuctFacts } from '../model.js';
import { demandOf, entryFor, type RunDemand, type ServiceRow } from '../strategy/index.js';
import type { FactObject } from './fact-schema.js';
import type { BriefChoices, SystemChoice } from './project-brief.js';

/** What has been decided for the ducts of a project. */
export interface Strategy {
  readonly choices?: BriefChoices | undefined;
  /** The rows of the service tables. */
  readonly serviceRows?: readonly ServiceRow[] | undefined;
  /** Names of the compartments that each run serves, by its id; left out: not known. */
  readonly serves?: ReadonlyMap<string, readonly string[]> | undefined;
}

/** What the project brief and the service of its system say of one duct. */
export interface BriefSays {
  /** Whether the brief says of any system what it may have. */
  readonly listsSystems: boolean;
  /** False where the brief lists systems and this one, or one that is not known, is not among them. */
  readonly known: boolean;
  readonly choice: SystemChoice | undefined;
  /** What must be known to tell whether an entry picks the duct, in words. */
  readonly openEntry: string | undefined;
  readonly demand: RunDemand;
  readonly headMovement: number | undefined;
  readonly movement: number | undefined;
  readonly siteTolerance: number;
  readonly pressure: BriefChoices['pressure'];
  readonly room: BriefChoices['room'];
}

type DuctOfRun = Pick<DuctFacts, 'run' | 'system' | 'systemType' | 'systemNames' | 'properties' | 'ratings'>;

/** What a brief does not list might be a listed system whose name was garbled, so nothing can be told of it. */
export function briefSays(duct: DuctOfRun, { choices, serviceRows, serves }: Strategy): BriefSays {
  const of = { ...duct, serves: (duct.run !== null && serves?.get(duct.run)) || null };
  const found = entryFor(of, choices?.systems ?? []);
  const listsSystems = (choices?.systems.length ?? 0) > 0;
  return {
    listsSystems,
    known: !listsSystems || found.is === 'entry',
    choice: found.is === 'entry' ? found.entry : undefined,
    openEntry: found.is === 'unknown' && duct.system !== null ? found.missing : undefined,
    demand: demandOf(of, choices, serviceRows),
    headMovement: choices?.headMovement,
    movement: choices?.movement,
    siteTolerance: choices?.siteTolerance ?? 0,
    pressure: (found.is === 'entry' ? found.entry.pressure : undefined) ?? choices?.pressure,
    room: choices?.room,
  };
}

export const briefFacts = ({ listsSystems, openEntry, demand, room, ...says }: BriefSays): FactObject => ({
  listsSystems,
  headMovementGiven: says.headMovement !== undefined,
  movementGiven: says.movement !== undefined,
  siteTolerance: says.siteTolerance,
  handsGiven: room?.hands !== undefined,
  ...(says.headMovement !== undefined && { headMovement: says.headMovement }),
  ...(says.movement !== undefined && { movement: says.movement }),
  ...(says.pressure?.over !== undefined && { overPressure: says.pressure.over }),
  ...(says.pressure?.under !== undefined && { underPressure: says.pressure.under }),
  ...(openEntry !== undefined && { openEntry }),
  ...(demand.dampers !== null && { dampers: demand.dampers }),
  ...(demand.resists !== null && { resists: demand.resists }),
  ...(demand.fire !== null && { fire: demand.fire === 'both' ? 'insideAndOutside' : demand.fire }),
});
