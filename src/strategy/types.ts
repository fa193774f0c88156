/** What the fire strategy of ductwork is worked out from and what it says: plain data, nothing of IFC or geometry. */
import type { DemandReason, DuctProperty, DuctRatings, FireSide, RuleStatus, Service } from '../model.js';

/** Whether ducts may have fire dampers where they pass rated barriers. */
export type Dampers = 'allowed' | 'never';
/**
 * `always`: all of a run that lies outside the compartment which it serves must resist fire.
 * `whereUndampered`: only where it passes a rated barrier without a fire damper.
 */
export type Resists = 'always' | 'whereUndampered';

/** A code and its edition, as texts; letter case and blanks at the ends make no difference. */
export interface Code {
  readonly jurisdiction: string;
  readonly edition: string;
}

/** What is known of the system that a duct, or a run of ducts, belongs to. */
export interface SystemOfDuct {
  readonly system: string | null;
  readonly systemType: string | null;
  readonly systemNames: readonly string[];
  readonly properties: readonly DuctProperty[];
  readonly ratings: DuctRatings;
  /** Names of the compartments that the run serves; null: not known. */
  readonly serves: readonly string[] | null;
}

/** What may be asked of a system: what is left out is not said. Minutes are the least, whatever the barriers ask. */
export interface Asked {
  readonly dampers?: Dampers | undefined;
  readonly resists?: Resists | undefined;
  readonly fire?: FireSide | undefined;
  readonly integrity?: number | undefined;
  readonly insulation?: number | undefined;
}

/** An entry of the brief's list of systems. It holds for the ducts that its one selector picks. */
export interface SystemEntry extends Asked {
  /** Name of the system. */
  readonly system?: string | undefined;
  /** Its predefined type, e.g. `EXHAUST`. */
  readonly systemType?: string | undefined;
  readonly property?: DuctProperty | undefined;
  /** Name of a compartment that the run serves. */
  readonly compartment?: string | undefined;
  readonly service?: Service | undefined;
}

/** What the brief changes of a service: more words, other defaults; `noDefault` takes one away. */
export interface ServiceChange {
  readonly service: Service;
  /** False: no words show this service; only an entry of a system can name it. */
  readonly byWords?: boolean | undefined;
  readonly words?: readonly string[] | undefined;
  readonly dampers?: Dampers | 'noDefault' | undefined;
  readonly resists?: Resists | 'noDefault' | undefined;
  readonly fire?: FireSide | 'noDefault' | undefined;
  readonly integrity?: number | 'noDefault' | undefined;
  readonly insulation?: number | 'noDefault' | undefined;
}

export interface StrategyChoices {
  readonly jurisdiction?: string | undefined;
  /** One for each code that holds there. */
  readonly edition: readonly string[];
  readonly systems: readonly SystemEntry[];
  readonly services: readonly ServiceChange[];
}

/** A row of a service table: what words show a service, and what holds for it unless a brief says otherwise. */
export interface ServiceRow {
  readonly service: Service;
  readonly words: readonly string[];
  readonly wholeWords: readonly string[];
  readonly source: string;
  readonly status: RuleStatus;
  /** The first that speaks of something counts; those of a code hold only where the brief names it. */
  readonly defaults: readonly ServiceDefault[];
}

export interface ServiceDefault extends Asked {
  readonly source: string;
  readonly status: RuleStatus;
  /** Null: whatever code holds. */
  readonly code: Code | null;
}

/** One step of the way to a demand. */
export type Reason = DemandReason;

export interface RunDemand {
  /** Null: none of the named services, or not known: see `serviceState`. */
  readonly service: Service | null;
  readonly serviceState: 'named' | 'noneOfThem' | 'unknown';
  /** Null: not known, e.g. the brief lists systems and this is none of them. */
  readonly resists: Resists | null;
  readonly dampers: Dampers | null;
  /** Least minutes, whatever barriers ask; 0: none; null: not known. */
  readonly integrity: number | null;
  readonly insulation: number | null;
  /** Null: not said, or not known. */
  readonly fire: FireSide | null;
  /** The chain, in order. */
  readonly reasons: readonly Reason[];
}
