/** Strips of a piece of stock: which heights they can have, and what each is worth at most. */
import { type Filling, fill, fillTable, fillValue, itemsOf, type Points, pointsOf } from './knapsack.js';
import type { Section, Strip } from './pattern.js';
import { type Lie, liesOn, type Problem, type Sheet } from './problem.js';
import { lotsOf, type Offer, partsWithin, repeated, sectionsOfOne } from './sections.js';

export interface PlannedStrips {
  readonly value: number;
  /** Of the strips, tallest first. */
  readonly heights: readonly number[];
  /** What a strip of a height is worth by itself. */
  readonly strips: ReadonlyMap<number, number>;
}

/** Lies of one length. */
interface Group {
  readonly along: number;
  readonly lies: readonly Lie[];
}

interface Stacked extends Group {
  /** What parts beside each other are worth, by their height. */
  readonly stack: Filling;
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
  private readonly groups: readonly Group[];

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
    const lots = this.groups.map(({ lies }) => lotsOf(lies, most));
    const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
    const stacked = sum(lots.filter((_, i) => this.groups[i]!.lies.length > 1));
    const strips = heights.length * (sum(lots) * this.alongPoints.at.length + this.acrossPoints.at.length);
    return stacked * this.acrossPoints.at.length + strips;
  }

  /** So many heights can be looked at with these steps: a few at least, and more than many is of no use. */
  heightsFor(steps: number, most: readonly number[]): number {
    return Math.min(24, Math.max(4, Math.floor(steps / this.steps([0], most))));
  }

  /** Some of the heights of what is left that fit into a room, from the greatest to the least. */
  fewHeights(room: number, number: number, most: readonly number[]): number[] {
    const left = this.groups.flatMap(({ lies }) => lies.filter(({ kind }) => most[kind]! > 0));
    const heights = new Set(left.map(({ across }) => across).filter((height) => height <= room));
    const sorted = [...heights].sort((a, b) => b - a);
    const step = Math.max(1, sorted.length / number);
    return Array.from({ length: Math.min(number, sorted.length) }, (_, i) => sorted[Math.floor(i * step)]!);
  }

  /**
   * The strips that are worth most together, each as if it were alone: no pattern with strips of these heights that takes
   * at most `most` of each kind is worth more.
   */
  plan(heights: readonly number[], room: number, values: readonly number[], most: readonly number[]): PlannedStrips {
    const stacks = this.stacks(values, most);
    const strips = new Map<number, number>();
    let highest = 0;
    // From the least height on: a taller strip that is worth no more is never needed.
    for (const height of [...heights].sort((a, b) => a - b)) {
      if (height > room) continue;
      const value = fillValue(this.alongPoints, this.offers(height, stacks, values, most));
      if (value > highest) strips.set(height, value);
      highest = Math.max(highest, value);
    }
    const [sizes, worth] = [[...strips.keys()], [...strips.values()]];
    const table = fillTable(this.acrossPoints, sizes, worth);
    const chosen = itemsOf(this.acrossPoints, table, sizes, room).map((i) => sizes[i]!);
    return { value: table.best[this.acrossPoints.floor[room]!]!, heights: chosen.sort((a, b) => b - a), strips };
  }

  /** The strip that {@link plan} counts with. It may take more than `most`. */
  planned(height: number, values: readonly number[], most: readonly number[]): Strip {
    const offers = this.offers(height, this.stacks(values, most), values, most);
    const picks = fill(this.alongPoints, offers).picks(this.length);
    return offers.flatMap(({ section }, i) => Array.from({ length: picks[i]! }, section));
  }

  /** A strip begun with the tallest part that there is room for, then with the next that fits: next to no steps. */
  firstFit(room: number, most: readonly number[]): Section[] {
    const left = [...most];
    const lies = this.groups.flatMap(({ lies }) => lies).filter(({ across }) => across <= room);
    const sections: Section[] = [];
    let length = this.length;
    for (const lie of lies.sort((a, b) => b.across - a.across || b.along - a.along))
      for (; left[lie.kind]! > 0 && lie.along <= length; left[lie.kind]! -= 1) {
        sections.push([lie]);
        length -= lie.along;
      }
    return sections;
  }

  /** A strip that takes no more than `most` of each kind, as good as is found in one go. */
  strip(
    height: number,
    values: readonly number[],
    most: readonly number[],
  ): { readonly sections: Section[]; readonly value: number } {
    const groups = this.asked(values, most);
    const offers = groups.flatMap((group) => this.sectionsOf(group, height, values, most));
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
    { along, lies }: Group,
    height: number,
    values: readonly number[],
    most: readonly number[],
  ): { readonly size: number; readonly value: number; readonly section: Section }[] {
    if (lies.length === 1)
      return sectionsOfOne(along, lies[0]!, height, values, most).flatMap(({ value, most: times, section }) =>
        Array.from({ length: value > 0 ? times : 0 }, () => ({ size: along, value, section: section() })),
      );
    const left = [...most];
    const offers = [];
    for (let room = this.length; room >= along; room -= along) {
      const { best, picks } = this.stack(lies, values, left);
      const value = best[this.acrossPoints.floor[height]!]!;
      if (value <= 0) break;
      const section = repeated(lies, picks(this.acrossPoints.at[this.acrossPoints.floor[height]!]!));
      for (const { kind } of section) left[kind]! -= 1;
      offers.push({ size: along, value, section });
    }
    return offers;
  }

  /** Every section that takes no more than `most` of each kind; undefined where there are more than `limit`. */
  sections(most: readonly number[], limit: number): Section[] | undefined {
    const sections: Section[] = [];
    for (const { lies } of this.groups) {
      let stacks: { readonly section: Section; readonly across: number }[] = [{ section: [], across: 0 }];
      for (const lie of lies) {
        stacks = stacks.flatMap(({ section, across }) => {
          const times = Math.min(most[lie.kind]!, Math.floor((this.width - across) / lie.across));
          return Array.from({ length: times + 1 }, (_, n) => ({
            section: [...section, ...repeated([lie], [n])],
            across: across + n * lie.across,
          }));
        });
        if (stacks.length > limit) return undefined;
      }
      sections.push(...stacks.map(({ section }) => section).filter((section) => section.length > 0));
    }
    return sections.length > limit ? undefined : sections;
  }

  /** What the rest of a strip of a height is worth at most, by the length that is left. */
  restOfStrip(height: number, values: readonly number[], most: readonly number[]): (room: number) => number {
    const stacks = this.stacks(values, most);
    const point = this.acrossPoints.floor[height]!;
    const { best } = fillTable(
      this.alongPoints,
      stacks.map(({ along }) => along),
      stacks.map(({ stack }) => stack.best[point]!),
    );
    return (room) => best[this.alongPoints.floor[room]!]!;
  }

  /** What strips are worth at most together, by the width that is left. */
  restOfSheet(worth: ReadonlyMap<number, number>): (room: number) => number {
    const { best } = fillTable(this.acrossPoints, [...worth.keys()], [...worth.values()]);
    return (room) => best[this.acrossPoints.floor[room]!]!;
  }

  private stack(lies: readonly Lie[], values: readonly number[], most: readonly number[]): Filling {
    const items = lies.map((lie) => ({ size: lie.across, value: values[lie.kind]!, most: most[lie.kind]! }));
    return fill(this.acrossPoints, items);
  }

  /** Only the groups of which something is left that is worth anything. */
  private asked(values: readonly number[], most: readonly number[]): Group[] {
    return this.groups.filter(({ lies }) => lies.some(({ kind }) => most[kind]! > 0 && values[kind]! > 0));
  }

  private stacks(values: readonly number[], most: readonly number[]): Stacked[] {
    return this.asked(values, most).map((group) => ({ ...group, stack: this.stack(group.lies, values, most) }));
  }

  /** Sections of a height, worth no less than any choice of parts can be. */
  private offers(
    height: number,
    stacks: readonly Stacked[],
    values: readonly number[],
    most: readonly number[],
  ): Offer[] {
    const capacity = this.acrossPoints.floor[height]!;
    return stacks.flatMap(({ along, lies, stack }) => {
      if (lies.length === 1) return sectionsOfOne(along, lies[0]!, height, values, most);
      // Of several parts: each section worth as much as the best, and so many as have any part.
      const section = (): Section => repeated(lies, stack.picks(this.acrossPoints.at[capacity]!));
      return [{ size: along, value: stack.best[capacity]!, most: partsWithin(lies, height, most), section }];
    });
  }
}
