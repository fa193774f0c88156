/** What is still to be cut while a plan is made. */
import type { Pattern } from './pattern.js';
import type { Problem } from './problem.js';

/** What is still to be cut, and from how many pieces on hand. */
export interface Left {
  readonly counts: number[];
  readonly onHand: number[];
}

export const leftOf = ({ kinds, sheets }: Problem): Left => ({
  counts: kinds.map(({ count }) => count),
  onHand: sheets.map(({ onHand }) => onHand),
});

export const nothingLeft = ({ counts }: Left): boolean => counts.every((count) => count === 0);

/** The same problem, of what is left alone. */
export const problemOfLeft = (problem: Problem, { counts, onHand }: Left): Problem => ({
  ...problem,
  kinds: problem.kinds.map((kind, i) => ({ ...kind, count: counts[i]! })),
  sheets: problem.sheets.map((sheet, i) => ({ ...sheet, onHand: onHand[i]! })),
});

/** Takes a pattern from what is left, as often as it is wholly needed, but no more than `most` times. */
export function cutFrom(left: Left, pattern: Pattern, most: number): number {
  const whole = pattern.takes.map((take, kind) => (take === 0 ? Infinity : Math.floor(left.counts[kind]! / take)));
  const times = Math.min(Math.max(1, Math.min(...whole)), left.onHand[pattern.sheet]!, most);
  pattern.takes.forEach((take, kind) => {
    left.counts[kind] = Math.max(0, left.counts[kind]! - take * times);
  });
  left.onHand[pattern.sheet]! -= times;
  return times;
}
