/** The most value that fits into a capacity: dynamic programmes over the sums that sizes can make. Whole numbers only. */

/** The sums that sizes can make up to a capacity, each as often as one likes; nothing ever begins anywhere else. */
export interface Points {
  readonly at: Int32Array;
  /** Index of the last point at or below, for every whole number up to the capacity. */
  readonly floor: Int32Array;
}

export function pointsOf(capacity: number, sizes: readonly number[]): Points {
  const reached = new Uint8Array(capacity + 1);
  reached[0] = 1;
  const fitting = [...new Set(sizes)].filter((size) => size <= capacity);
  for (const size of fitting) for (let c = size; c <= capacity; c++) if (reached[c - size]) reached[c] = 1;
  const at: number[] = [];
  const floor = new Int32Array(capacity + 1);
  for (let c = 0; c <= capacity; c++) {
    if (reached[c]) at.push(c);
    floor[c] = at.length - 1;
  }
  return { at: Int32Array.from(at), floor };
}

export interface Item {
  readonly size: number;
  readonly value: number;
  readonly most: number;
}

/** The best filling of every capacity at once. */
export interface Filling {
  /** By point. */
  readonly best: Float64Array;
  /** How many of each item fill a capacity best. */
  readonly picks: (capacity: number) => number[];
}

/** Steps that {@link fill} takes, to be told before it is called; it takes as many bytes. */
export const fillSteps = (points: Points, items: readonly Item[]): number =>
  items.reduce((sum, { most }) => sum + Math.ceil(Math.log2(most + 1)), 0) * points.at.length;

/** Each item at most as often as it says. Exact: every number of an item is a sum of its lots, which double. */
export function fill(points: Points, items: readonly Item[]): Filling {
  const lots = lotsOf(items, points.floor.length - 1);
  const count = points.at.length;
  const taken = new Uint8Array(lots.length * count);
  const best = bestByPoint(points, lots, taken);
  const picks = (capacity: number): number[] => {
    const numbers = items.map(() => 0);
    let p = points.floor[capacity]!;
    for (let i = lots.length - 1; i >= 0; i--) {
      if (!taken[i * count + p]) continue;
      const { item, times, size } = lots[i]!;
      numbers[item]! += times;
      p = points.floor[points.at[p]! - size]!;
    }
    return numbers;
  };
  return { best, picks };
}

/** Only what the whole capacity is worth. */
export const fillValue = (points: Points, items: readonly Item[]): number =>
  bestByPoint(points, lotsOf(items, points.floor.length - 1)).at(-1)!;

function bestByPoint({ at, floor }: Points, lots: readonly Lot[], taken?: Uint8Array): Float64Array {
  const count = at.length;
  const best = new Float64Array(count);
  for (const [i, { size, value }] of lots.entries())
    for (let p = count - 1; p >= 0; p--) {
      const room = at[p]! - size;
      if (room < 0) break;
      const filled = best[floor[room]!]! + value;
      if (filled <= best[p]!) continue;
      best[p] = filled;
      if (taken) taken[i * count + p] = 1;
    }
  return best;
}

/** Several of one item as one. */
interface Lot {
  readonly item: number;
  readonly times: number;
  readonly size: number;
  readonly value: number;
}

function lotsOf(items: readonly Item[], capacity: number): Lot[] {
  return items.flatMap(({ size, value, most }, item) => {
    const lots: Lot[] = [];
    if (value <= 0) return lots;
    let rest = Math.min(most, Math.floor(capacity / size));
    for (let next = 1; rest > 0; next *= 2) {
      const times = Math.min(next, rest);
      lots.push({ item, times, size: size * times, value: value * times });
      rest -= times;
    }
    return lots;
  });
}

/** Any number of each item, for every capacity at once. */
export interface Table {
  /** By point. */
  readonly best: Float64Array;
  /** The item that was put in last; -1 where the point below does as well. */
  readonly last: Int32Array;
}

export function fillTable(points: Points, sizes: readonly number[], values: readonly number[]): Table {
  const count = points.at.length;
  const best = new Float64Array(count);
  const last = new Int32Array(count).fill(-1);
  for (let p = 1; p < count; p++) {
    best[p] = best[p - 1]!;
    for (let i = 0; i < sizes.length; i++) {
      const room = points.at[p]! - sizes[i]!;
      if (room < 0) continue;
      const value = best[points.floor[room]!]! + values[i]!;
      if (value <= best[p]!) continue;
      best[p] = value;
      last[p] = i;
    }
  }
  return { best, last };
}

/** The items of a table's best filling of a capacity. */
export function itemsOf(points: Points, { last }: Table, sizes: readonly number[], capacity: number): number[] {
  const items: number[] = [];
  let p = points.floor[capacity]!;
  while (p > 0) {
    const item = last[p]!;
    if (item < 0) p -= 1;
    else {
      items.push(item);
      p = points.floor[points.at[p]! - sizes[item]!]!;
    }
  }
  return items;
}
