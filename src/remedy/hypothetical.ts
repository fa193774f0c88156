/** What the rules would ask of the gaps of a penetration if it had an opening. */
import type { Crossings, Penetration } from '../model.js';
import { judgeOutcomes } from '../rules/index.js';
import type { Range } from './axis.js';
import { gapRange, type KindOf } from './faults.js';
import type { Judging } from './prove.js';

const NOTHING_ELSE: Omit<Crossings, 'penetrations' | 'barriers'> = {
  compartments: [],
  runs: [],
  access: [],
  doors: [],
  facingEnds: [],
  openings: [],
  apart: [],
};

export function rangeWithOpening(
  p: Penetration,
  kindOf: KindOf,
  tolerance: number,
  { rules, judge }: Judging,
): Range | null {
  const opened: Penetration = {
    ...p,
    neighbours: [],
    opening: { model: p.barrier.model, globalId: null, shape: 'rectangular', width: 1, height: 1, from: 'element' },
    gaps: { top: 0, bottom: 0, left: 0, right: 0, min: 0, max: 0, facing: {} },
  };
  const crossings = { ...NOTHING_ELSE, penetrations: [opened], barriers: [p.barrier] };
  const results = judgeOutcomes(crossings, rules, judge);
  return gapRange(
    results.filter(({ subject }) => subject.id === p.id && subject.type === 'penetration'),
    kindOf,
    tolerance,
  );
}
