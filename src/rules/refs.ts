import type { BarrierFacts, ElementRef } from '../model.js';

export const refOf = ({ model, globalId }: ElementRef): ElementRef => ({ model, globalId });
export const nameOf = ({ model, globalId }: ElementRef): string => `${model} ${globalId}`;

/** What earlier reports knew it by, where a re-export changed GlobalIds. */
export const barrierKey = ({ inferredFrom, globalId }: Pick<BarrierFacts, 'inferredFrom' | 'globalId'>): string =>
  inferredFrom ?? globalId;
