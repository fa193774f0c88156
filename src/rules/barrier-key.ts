import type { BarrierFacts } from '../model.js';

/** What earlier reports knew it by, where a re-export changed GlobalIds. */
export const barrierKey = ({ inferredFrom, globalId }: Pick<BarrierFacts, 'inferredFrom' | 'globalId'>): string =>
  inferredFrom ?? globalId;
