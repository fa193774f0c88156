/** Sections that a strip can have, as items of a knapsack: what they are worth by the length that they take. */
import type { Item } from './knapsack.js';
import type { Section } from './pattern.js';
import type { Lie } from './problem.js';

export interface Offer extends Item {
  readonly section: () => Section;
}

export const repeated = (lies: readonly Lie[], numbers: readonly number[]): Lie[] =>
  lies.flatMap((lie, i) => Array.from({ length: numbers[i]! }, () => lie));

export const partsWithin = (lies: readonly Lie[], height: number, most: readonly number[]): number =>
  lies.reduce((sum, { kind, across }) => sum + (across <= height ? most[kind]! : 0), 0);

export const lotsOf = (lies: readonly Lie[], most: readonly number[]): number =>
  Math.ceil(Math.log2(1 + lies.reduce((sum, { kind }) => sum + most[kind]!, 0)));

/** Full stacks of one part, and one of the rest. */
export function sectionsOfOne(
  along: number,
  lie: Lie,
  height: number,
  values: readonly number[],
  most: readonly number[],
): Offer[] {
  const count = most[lie.kind]!;
  const stack = Math.min(Math.floor(height / lie.across), count);
  if (stack === 0) return [];
  const offer = (parts: number, times: number): Offer => ({
    size: along,
    value: parts * values[lie.kind]!,
    most: times,
    section: () => repeated([lie], [parts]),
  });
  return [offer(stack, Math.floor(count / stack)), offer(count % stack, 1)];
}
