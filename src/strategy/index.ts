/** The fire strategy of ductwork: plain data in, plain data out. */
export { demandOf } from './demand.js';
export { type EntryFound, entryFor, isCode, isSame } from './entry-for.js';
export { serviceOf } from './service-of.js';
export type {
  Asked,
  Code,
  Dampers,
  Reason,
  Resists,
  RunDemand,
  ServiceChange,
  ServiceDefault,
  ServiceRow,
  StrategyChoices,
  SystemEntry,
  SystemOfDuct,
} from './types.js';
