/** Strips of a piece of stock: which heights they can have, and what each is worth at most. */
import { fill, fillTable, type Item, itemsOf, type Points, pointsOf } from './knapsack.js';
import type { Section } from './pattern.js';
import { type Lie, liesOn, type Problem, type Sheet } from './problem.js';

export interface PlannedStrips {
  readonly value: number;
  /** Of the strips, tallest first. */
  readonly heights: readonly number[];
  /** What a strip of a height is worth by itself. */
  readonly strips: ReadonlyMap<number, number>;
}

/** Sizes in steps, each with the kerf. Lies are turned so that strips always run along. */
export class StripTable {
  readonly length: number;
  readonly width: number;
  /** Every height that parts of one length make beside each other. */
  readonly heights: readonly number[];
  private readonly alongPoints: Points;
  private readonly acrossPoints: Points;
  /** Lies by their length, longest first. */
  readonly groups: readonly { readonly along: number; readonly lies: readonly Lie[] }[];

  constructor(
    problem: Problem,
    sheet: Sheet,
    /** Whether strips run across the stock. */
    readonly across: boolean,
  ) {
    const [length, width] = across ? [sheet.width, sheet.length] : [sheet.length, sheet.width];
    this.length = length + sheet.kerf;
    this.width = width + sheet.kerf;
    const lies = liesOn(problem, sheet).map((lie) => (across ? { ...lie, along: lie.across, across: lie.along } : lie));
    const lengths = [...new Set(lies.map(({ along }) => along))].sort((a, b) => b - a);
    this.groups = lengths.map((along) => ({ along, lies: lies.filter((lie) => lie.along === along) }));
    this.alongPoints = pointsOf(this.length, lengths);
    this.acrossPoints = pointsOf(
      this.width,
      lies.map((lie) => lie.across),
    );
    const stacks = this.groups.flatMap((group) => [
      ...pointsOf(
        this.width,
        group.lies.map((lie) => lie.across),
      ).at,
    ]);
    this.heights = [...new Set(stacks)].filter((height) => height > 0).sort((a, b) => b - a);
  }

  /** Steps of {@link plan}, about. */
  steps(heights: readonly number[], most: readonly number[]): number {
    const lots = this.groups.reduce((sum, { lies }) => sum + lotsOf(lies, most), 0);
    return heights.length * (lots * this.alongPoints.at.length + this.acrossPoints.at.length);
  }

  /** Some of the heights that fit into a room, from the greatest to the least. */
  fewHeights(room: number, most: number): number[] {
    const fitting = this.heights.filter((height) => height <= room);
    if (fitting.length <= most) return fitting;
    const singles = new Set(this.groups.flatMap(({ lies }) => lies.map(({ across }) => across)));
    const chosen = fitting.filter((height) => singles.has(height));
    const step = Math.max(1, chosen.length / most);
    return Array.from({ length: Math.min(most, chosen.length) }, (_, i) => chosen[Math.floor(i * step)]!);
  }

  /**
   * The strips that are worth most together, each as if it were alone: no pattern with strips of these heights that takes
   * at most `most` of each kind is worth more.
   */
  plan(heights: readonly number[], room: number, values: readonly number[], most: readonly number[]): PlannedStrips {
    const stacks = this.groups.map(({ lies }) => this.stack(lies, values, most));
    const strips = new Map<number, number>();
    let highest = 0;
    // From the least height on: a taller strip that is worth no more is never needed.
    for (const height of [...heights].sort((a, b) => a - b)) {
      if (height > room) continue;
      const items = this.groups.flatMap(({ along, lies }, g) =>
        lies.length === 1
          ? sectionsOfOne(along, lies[0]!, height, values, most)
          : sectionsAtMost(along, lies, stacks[g]!.best[this.acrossPoints.floor[height]!]!, height, most),
      );
      const value = fill(this.alongPoints, items).best.at(-1)!;
      if (value > highest) strips.set(height, value);
      highest = Math.max(highest, value);
    }
    const [sizes, worth] = [[...strips.keys()], [...strips.values()]];
    const table = fillTable(this.acrossPoints, sizes, worth);
    const chosen = itemsOf(this.acrossPoints, table, sizes, room).map((i) => sizes[i]!);
    return { value: table.best[this.acrossPoints.floor[room]!]!, heights: chosen.sort((a, b) => b - a), strips };
  }

  /** A strip that takes no more than `most` of each kind, as good as is found in one go. */
  strip(
    height: number,
    values: readonly number[],
    most: readonly number[],
  ): { readonly sections: Section[]; readonly value: number } {
    const offers = this.groups.flatMap(({ along, lies }) => this.sectionsOf(along, lies, height, values, most));
    const picks = fill(
      this.alongPoints,
      offers.map(({ size, value }) => ({ size, value, most: 1 })),
    ).picks(this.length);
    const left = [...most];
    const sections: Section[] = [];
    let value = 0;
    offers.forEach(({ section }, i) => {
      if (picks[i] === 0) return;
      // A part that may turn is offered both ways.
      const kept = section.filter(({ kind }) => left[kind]!-- > 0);
      if (kept.length === 0) return;
      sections.push(kept);
      value += kept.reduce((sum, { kind }) => sum + values[kind]!, 0);
    });
    return { sections, value };
  }

  /** The sections of one length that a strip can have, the best first, until parts or the length run out. */
  private sectionsOf(
    along: number,
    lies: readonly Lie[],
    height: number,
    values: readonly number[],
    most: readonly number[],
  ): { readonly size: number; readonly value: number; readonly section: Section }[] {
    const left = [...most];
    const offers = [];
    for (let room = this.length; room >= along; room -= along) {
      const { best, picks } = this.stack(lies, values, left);
      const value = best[this.acrossPoints.floor[height]!]!;
      if (value <= 0) break;
      const numbers = picks(this.acrossPoints.at[this.acrossPoints.floor[height]!]!);
      const section = lies.flatMap((lie, i) => Array.from({ length: numbers[i]! }, () => lie));
      for (const { kind } of section) left[kind]! -= 1;
      offers.push({ size: along, value, section });
    }
    return offers;
  }

  private stack(lies: readonly Lie[], values: readonly number[], most: readonly number[]) {
    const items = lies.map((lie) => ({ size: lie.across, value: values[lie.kind]!, most: most[lie.kind]! }));
    return fill(this.acrossPoints, items);
  }
}

const lotsOf = (lies: readonly Lie[], most: readonly number[]): number =>
  Math.ceil(Math.log2(1 + lies.reduce((sum, { kind }) => sum + most[kind]!, 0)));

/** Full stacks of one part, and one of the rest. */
function sectionsOfOne(
  along: number,
  { kind, across }: Lie,
  height: number,
  values: readonly number[],
  most: readonly number[],
): Item[] {
  const stack = Math.min(Math.floor(height / across), most[kind]!);
  if (stack === 0) return [];
  return [
    { size: along, value: stack * values[kind]!, most: Math.floor(most[kind]! / stack) },
    { size: along, value: (most[kind]! % stack) * values[kind]!, most: 1 },
  ];
}

/** Of several parts: each section worth as much as the best, and so many as have any part. */
function sectionsAtMost(
  along: number,
  lies: readonly Lie[],
  value: number,
  height: number,
  most: readonly number[],
): Item[] {
  return [
    { size: along, value, most: lies.reduce((sum, { kind, across }) => sum + (across <= height ? most[kind]! : 0), 0) },
  ];
}
