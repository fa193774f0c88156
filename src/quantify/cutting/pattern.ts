/** How one piece of stock is cut: strips from edge to edge, each cut into sections, each section into parts of its length. */
import type { Lie, Problem } from './problem.js';

/** Parts beside each other, all as long as the section. */
export type Section = readonly Lie[];
/** Sections one after the other, all within the height of the strip. */
export type Strip = readonly Section[];

export interface Pattern {
  /** Which stock of the problem. */
  readonly sheet: number;
  /** Whether strips run across the stock; else along it. */
  readonly across: boolean;
  readonly strips: readonly Strip[];
  /** How many of each kind. */
  readonly takes: readonly number[];
}

export function patternOf(problem: Problem, sheet: number, across: boolean, strips: readonly Strip[]): Pattern {
  const takes = problem.kinds.map(() => 0);
  for (const section of strips.flat()) for (const { kind } of section) takes[kind]! += 1;
  return { sheet, across, strips: strips.filter((strip) => strip.length > 0), takes };
}

/** One and the same for patterns that take the same from the same stock. */
export const takesKey = ({ sheet, takes }: Pattern): string => `${sheet}:${takes.join()}`;

/** Without the parts that are no longer needed; `left` says how many of each kind still are. */
export function trimmed(problem: Problem, pattern: Pattern, left: readonly number[]): Pattern {
  const allowed = [...left];
  const strips = pattern.strips.map((strip) =>
    strip.map((section) => section.filter(({ kind }) => allowed[kind]!-- > 0)).filter((section) => section.length > 0),
  );
  return patternOf(problem, pattern.sheet, pattern.across, strips);
}

/** Patterns that a better plan could use. */
export interface Candidates {
  readonly patterns: readonly Pattern[];
  /** Whether these are all; else it was given up. */
  readonly complete: boolean;
}

/** How often each pattern is cut. */
export interface Solution {
  readonly cuts: readonly { readonly pattern: Pattern; readonly times: number }[];
  readonly cost: number;
}

export function solutionOf(problem: Problem, cuts: Solution['cuts']): Solution {
  return { cuts, cost: cuts.reduce((sum, { pattern, times }) => sum + times * problem.sheets[pattern.sheet]!.cost, 0) };
}
