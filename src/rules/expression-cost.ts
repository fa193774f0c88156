import type { Known, Unknown } from './expression.js';
import { type FactObject, type FactValue, factAt, isGroup } from './fact-schema.js';

/**
 * The most that one evaluation may cost: the characters of the expression times the items and characters of the texts
 * that it reads. A step takes some nanoseconds; the shipped expressions take thousands of steps at most.
 */
export const MAX_STEPS = 10_000_000;

type Evaluate = (facts: FactObject) => Known | Unknown;

/** An evaluation that would cost more gives a problem instead: never a value, so never a pass. */
export function withinCost(length: number, reads: readonly string[], evaluate: Evaluate): Evaluate {
  const long = reads.filter(isOpenEnded).map((path) => path.split('.'));
  if (long.length === 0) return evaluate;
  return (facts) => {
    const size = long.reduce((sum, path) => sum + sizeAt(facts, path), 0);
    if (length * size <= MAX_STEPS) return evaluate(facts);
    const problem = `the expression would take more than ${MAX_STEPS} steps here: the model says too much of what it reads`;
    return { known: false, missing: [], problem };
  };
}

/** As long as the model makes it: lists, and texts that are not chosen from a few. */
function isOpenEnded(path: string): boolean {
  const entry = factAt(path);
  return entry !== undefined && !isGroup(entry) && (entry.type === 'texts' || (entry.type === 'text' && !entry.values));
}

function sizeAt(facts: FactObject, path: readonly string[]): number {
  let value: FactObject | FactValue | undefined = facts;
  for (const name of path)
    value = typeof value === 'object' && !Array.isArray(value) ? (value as FactObject)[name] : undefined;
  if (typeof value === 'string') return value.length;
  return Array.isArray(value) ? value.reduce((sum: number, item: string) => sum + 1 + item.length, 0) : 0;
}
