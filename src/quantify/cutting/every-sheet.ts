/**
 * All patterns of sheets that a better plan could use, as `every-bar.ts` has them of bars: first every strip that is worth
 * enough beside the best of others, then every set of them. What a part more could be added to is left out.
 */
import { leastWorth, type Proof } from './bounds.js';
import { type Candidates, type Pattern, patternOf, type Section, type Strip, takesKey } from './pattern.js';
import type { Problem } from './problem.js';
import { StripTable } from './strips.js';

/** Strips, patterns and steps beyond which it is given up. */
const MOST = 20_000;
const STEPS = 3e6;
/** Sections, and steps of the tables that bound what follows, beyond which it is not begun. */
const SECTIONS = 2000;
const TABLES = 3e8;

export function everySheet(problem: Problem, proof: Proof, beat: number): Candidates {
  const patterns: Pattern[] = [];
  const budget = { steps: STEPS };
  const least = leastWorth(problem, proof, beat);
  let complete = true;
  for (const [i, sheet] of problem.sheets.entries())
    for (const across of [false, true]) {
      const table = new StripTable(problem, sheet, across);
      const sets = setsOfStrips(problem, table, proof.values, least[i]!, budget);
      patterns.push(...sets.found.map((strips) => patternOf(problem, i, across, strips)));
      complete &&= sets.complete;
    }
  return { patterns: [...new Map(patterns.map((pattern) => [takesKey(pattern), pattern])).values()], complete };
}

interface Found<T> {
  readonly found: T[];
  readonly complete: boolean;
}

interface Valued<T> {
  readonly of: T;
  readonly value: number;
  /** Along the strip of a section; across it of a strip. */
  readonly size: number;
}

/** Steps that are left, for all together. */
interface Budget {
  steps: number;
}

function setsOfStrips(
  problem: Problem,
  table: StripTable,
  values: readonly number[],
  least: number,
  budget: Budget,
): Found<Strip[]> {
  const counts = problem.kinds.map(({ count }) => count);
  const all = table.sections(counts, SECTIONS);
  if (!all || table.steps(table.heights, counts) > TABLES) return { found: [], complete: false };
  const rests = new Map(table.heights.map((height) => [height, table.restOfStrip(height, values, counts)]));
  const worth = new Map([...rests].map(([height, rest]) => [height, rest(table.length)]));
  const rest = table.restOfSheet(worth);
  const sections = all.map((section) => ({
    of: section,
    value: section.reduce((sum, { kind }) => sum + values[kind]!, 0),
    size: section[0]!.along,
    height: section.reduce((sum, { across }) => sum + across, 0),
  }));
  const strips: Valued<Strip>[] = [];
  let complete = true;
  for (const height of table.heights) {
    const needed = least - rest(table.width - height);
    if (worth.get(height)! < needed) continue;
    const within = sections.filter((section) => section.height <= height);
    const found = stripsOf(within, height, needed, table.length, rests.get(height)!, counts, budget);
    strips.push(...found.found);
    complete &&= found.complete && strips.length <= MOST;
  }
  const sets: Strip[][] = [];
  const done = combine(strips, table.width, least, rest, budget, (set, value) => {
    if (value >= least) sets.push(set.map(({ of }) => of));
    return sets.length <= MOST;
  });
  return { found: sets, complete: complete && done };
}

/** Strips that are just so high, into which no section more goes. */
function stripsOf(
  sections: readonly (Valued<Section> & { readonly height: number })[],
  height: number,
  needed: number,
  length: number,
  rest: (room: number) => number,
  counts: readonly number[],
  budget: Budget,
): Found<Valued<Strip>> {
  const strips: Valued<Strip>[] = [];
  const done = combine(sections, length, needed, rest, budget, (set, value, room) => {
    const left = [...counts];
    for (const { of } of set) for (const { kind } of of) left[kind]! -= 1;
    if (left.some((count) => count < 0)) return 'back';
    const fits = ({ of, size }: Valued<Section>): boolean => size <= room && canTake(left, of);
    if (value >= needed && set.some((section) => section.height === height) && !sections.some(fits))
      strips.push({ of: set.map(({ of }) => of), value, size: height });
    return strips.length <= MOST;
  });
  return { found: strips, complete: done };
}

function canTake(left: readonly number[], section: Section): boolean {
  const after = [...left];
  return section.every(({ kind }) => after[kind]!-- > 0);
}

/**
 * Every choice of items, each as often as there is room, that with the best of the rest is worth at least so much.
 *
 * @param visit of a choice: whether to go on; `back` to leave out what adds to it
 * @returns whether it came to its end
 */
function combine<T extends Valued<unknown>>(
  items: readonly T[],
  room: number,
  least: number,
  rest: (room: number) => number,
  budget: Budget,
  visit: (chosen: readonly T[], value: number, room: number) => boolean | 'back',
): boolean {
  const chosen: T[] = [];
  const from = (first: number, value: number, left: number): boolean => {
    budget.steps -= 1;
    if (budget.steps < 0) return false;
    const go = chosen.length === 0 || visit(chosen, value, left);
    if (go !== true) return go === 'back';
    for (let i = first; i < items.length; i++) {
      const item = items[i]!;
      if (item.size > left || value + item.value + rest(left - item.size) < least) continue;
      chosen.push(item);
      const ended = from(i, value + item.value, left - item.size);
      chosen.pop();
      if (!ended) return false;
    }
    return true;
  };
  return from(0, 0, room);
}
