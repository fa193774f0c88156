/**
 * Parts taken apart into bars: one that is n wide and l long as n slices of a unit's width, each l long. Slices may lie
 * anywhere on the slices of the stock, so that no plan of any kind buys less than the best plan of the slices (the bar
 * relaxation; Scheithauer 1999, from memory). The same holds across. A part that may turn counts as the lesser of its ways.
 */
import type { Highs } from 'highs';
import { leastCost, leastValues } from './bounds.js';
import type { Effort } from './effort.js';
import { fillTable, itemsOf, type Points, pointsOf, type Table } from './knapsack.js';
import { coarseUnit, liesOn, type Problem } from './problem.js';
import { Covering } from './solver.js';

/** Values are whole numbers of this share of the dearest stock: times a width they are exact. */
const FINE = 2 ** 34;
const ROUNDS = 400;
/** What a filling has to save to pay: below this it is noise of the solver. */
const SAVES = 1e-9;

/** In whole units of cost, by the values of a linear programme that fills slices of stock with slices of parts. */
export function barBound(highs: Highs, problem: Problem, effort: Effort): number {
  return Math.max(...[false, true].map((across) => boundOneWay(highs, problem, across, effort)));
}

function boundOneWay(highs: Highs, problem: Problem, across: boolean, effort: Effort): number {
  const asked = slicesOf(problem, across);
  const lengths = [...asked.keys()];
  const stock = slicedStock(problem, across, lengths);
  const scale = FINE / Math.max(...stock.map(({ cost }) => cost));
  const covering = new Covering(highs, effort, [
    ...asked.values(),
    ...stock.map(({ onHand, slices }) => -onHand * slices),
  ]);
  const add = ({ cost }: SlicedStock, row: number, items: readonly number[]): void => {
    const entries = new Map([[lengths.length + row, -1]]);
    for (const item of items) entries.set(item, (entries.get(item) ?? 0) + 1);
    covering.add(cost, entries);
  };
  stock.forEach((sheet, row) => {
    sheet.sizes.forEach((size, item) => {
      if (size <= sheet.room) add(sheet, row, new Array<number>(Math.floor(sheet.room / size)).fill(item));
    });
  });
  let bound = 0;
  try {
    for (let round = 0; round < ROUNDS; round++) {
      const solved = covering.solve();
      if (!solved || !effort.has(1)) break;
      const values = lengths.map((_, i) => Math.floor(solved.values[i]! * scale));
      let paying = 0;
      const tables = new Map<string, Table>();
      const held = stock.map((sheet, row) => {
        const { points, sizes, room, cost } = sheet;
        const alike = `${room} ${sizes[0]}`;
        const table = tables.get(alike) ?? fillTable(points, sizes, values);
        if (!tables.has(alike)) effort.spend(sizes.length * points.at.length);
        tables.set(alike, table);
        const most = table.best.at(-1)!;
        if (most > (cost + solved.values[lengths.length + row]! + cost * SAVES) * scale) {
          add(sheet, row, itemsOf(points, table, sizes, room));
          paying += 1;
        }
        return most * sheet.slices;
      });
      bound = Math.max(bound, leastCost(problem, valuesOfParts(problem, across, lengths, values), held));
      if (paying === 0) break;
    }
  } finally {
    covering.dispose();
  }
  return bound;
}

/** How many slices of each length all parts make. Half of the parts that may turn lie each way. */
function slicesOf({ kinds }: Problem, across: boolean): Map<number, number> {
  const slices = new Map<number, number>();
  const add = (long: number, wide: number, count: number): void => {
    slices.set(long, (slices.get(long) ?? 0) + wide * count);
  };
  for (const { length, width, mayTurn, count } of kinds) {
    const [long, wide] = across ? [width, length] : [length, width];
    add(long, wide, mayTurn ? count / 2 : count);
    if (mayTurn) add(wide, long, count / 2);
  }
  return slices;
}

interface SlicedStock {
  readonly room: number;
  readonly slices: number;
  /** Of a slice. */
  readonly cost: number;
  readonly onHand: number;
  /** By length, each with the kerf. */
  readonly sizes: readonly number[];
  readonly points: Points;
}

function slicedStock(problem: Problem, across: boolean, lengths: readonly number[]): SlicedStock[] {
  const unit = coarseUnit(problem);
  return problem.sheets.map(({ length, width, kerf, cost, onHand }) => {
    const [long, slices] = across ? [width + kerf, length + kerf] : [length + kerf, width + kerf];
    // Shorter parts and longer stock ask for no more.
    const room = Math.ceil(long / unit);
    const sizes = lengths.map((size) => Math.floor((size + kerf) / unit));
    return { room, slices, cost: cost / slices, onHand, sizes, points: pointsOf(room, sizes) };
  });
}

function valuesOfParts(problem: Problem, across: boolean, lengths: readonly number[], values: readonly number[]) {
  const worth = new Map(lengths.map((length, i) => [length, values[i]!]));
  const kerf = Math.min(...problem.sheets.map((sheet) => sheet.kerf));
  const lies = problem.sheets.flatMap((sheet) => liesOn(problem, sheet));
  return leastValues(problem, lies, ({ kind, turned }) => {
    const { length, width } = problem.kinds[kind]!;
    const [long, wide] = across === turned ? [length, width] : [width, length];
    return worth.get(long)! * (wide + kerf);
  });
}
