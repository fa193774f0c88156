/** All patterns of sheets by three stages of cuts, where there are few parts: by which parts a strip and a sheet can hold. */
import { type Pattern, patternOf, type Section, type Strip } from './pattern.js';
import type { Problem } from './problem.js';
import { StripTable } from './strips.js';

/** Selections of parts beyond which it is given up: the time goes by their square. */
const SELECTIONS = 2000;

/** Only those that nothing can be added to. @returns undefined where there are too many selections */
export function everySelection(problem: Problem): Pattern[] | undefined {
  const count = problem.kinds.reduce((product, kind) => product * (kind.count + 1), 1);
  if (count > SELECTIONS) return undefined;
  const selections = selectionsOf(problem);
  return problem.sheets.flatMap((sheet, i) =>
    [false, true].flatMap((across) => {
      const table = new StripTable(problem, sheet, across);
      return fullest(selections, table).map((strips) => patternOf(problem, i, across, strips));
    }),
  );
}

/** So many of each kind, by number: what is taken from a selection is taken from its number. */
interface Selections {
  readonly takes: readonly (readonly number[])[];
  /** What one part of a kind adds to the number. */
  readonly steps: readonly number[];
}

function selectionsOf({ kinds }: Problem): Selections {
  let count = 1;
  const steps = kinds.map((kind) => {
    const step = count;
    count *= kind.count + 1;
    return step;
  });
  const take = (n: number): number[] => kinds.map((kind, i) => Math.floor(n / steps[i]!) % (kind.count + 1));
  return { steps, takes: Array.from({ length: count }, (_, n) => take(n)) };
}

const isPart = ({ takes }: Selections, part: number, whole: number): boolean =>
  part <= whole && takes[part]!.every((take, kind) => take <= takes[whole]![kind]!);

interface Stack {
  readonly section: Section;
  readonly selection: number;
  readonly along: number;
  readonly across: number;
}

function stacksOf({ steps, takes }: Selections, table: StripTable): Stack[] {
  return table.sections(takes.at(-1)!, Infinity)!.map((section) => ({
    section,
    selection: section.reduce((sum, { kind }) => sum + steps[kind]!, 0),
    along: section[0]!.along,
    across: section.reduce((sum, { across }) => sum + across, 0),
  }));
}

interface HeldStrip {
  readonly height: number;
  readonly strip: Strip;
}

/** The lowest strip that holds each selection; undefined where none does. */
function lowestStrips(selections: Selections, table: StripTable): (HeldStrip | undefined)[] {
  const lowest: (HeldStrip | undefined)[] = selections.takes.map(() => undefined);
  const stacks = stacksOf(selections, table);
  for (const height of [...table.heights].sort((a, b) => a - b)) {
    const within = stacks.filter(({ across }) => across <= height);
    const length = selections.takes.map((_, n) => (n === 0 ? 0 : Infinity));
    const last: (Stack | undefined)[] = [];
    for (let n = 1; n < length.length; n++)
      for (const stack of within) {
        if (!isPart(selections, stack.selection, n)) continue;
        const longer = length[n - stack.selection]! + stack.along;
        if (longer > table.length || longer >= length[n]!) continue;
        length[n] = longer;
        last[n] = stack;
      }
    for (let n = 1; n < length.length; n++)
      if (!lowest[n] && length[n]! < Infinity)
        lowest[n] = { height, strip: chain(n, last).map(({ section }) => section) };
  }
  return lowest;
}

/** What was put in last, then what before it. */
function chain<T extends { readonly selection: number }>(from: number, last: readonly (T | undefined)[]): T[] {
  const items: T[] = [];
  for (let n = from; n > 0; n -= items.at(-1)!.selection) items.push(last[n]!);
  return items;
}

/** The strips of every sheet that nothing can be added to. */
function fullest(selections: Selections, table: StripTable): Strip[][] {
  const strips = lowestStrips(selections, table).flatMap((held, selection) => (held ? [{ ...held, selection }] : []));
  const height = selections.takes.map((_, n) => (n === 0 ? 0 : Infinity));
  const last: ((typeof strips)[number] | undefined)[] = [];
  for (let n = 1; n < height.length; n++)
    for (const strip of strips) {
      if (strip.selection > n) break;
      if (!isPart(selections, strip.selection, n)) continue;
      const higher = height[n - strip.selection]! + strip.height;
      if (higher > table.width || higher >= height[n]!) continue;
      height[n] = higher;
      last[n] = strip;
    }
  const all = selections.takes.at(-1)!;
  const isFull = (n: number): boolean =>
    selections.steps.every((step, kind) => selections.takes[n]![kind]! === all[kind]! || height[n + step] === Infinity);
  return selections.takes.flatMap((_, n) =>
    n > 0 && height[n]! < Infinity && isFull(n) ? [chain(n, last).map(({ strip }) => strip)] : [],
  );
}
