import type { Change, SingleChange } from '../model.js';

/** The parts of a change, in the order in which they are made. */
export const singlesOf = (change: Change): readonly SingleChange[] =>
  change.kind === 'several' ? change.changes : [change];
