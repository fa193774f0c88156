/** Judges a plan by itself: knows nothing of how it was made. */
import type { CutPart, CutPattern, CuttingPlan, Stock } from '../../../src/quantify/cutting/types.js';

/** Sizes are told to 0.1 mm. */
const NOISE = 1e-6;

interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

const flat = ({ x, y, length, width }: { x: number; y: number; length: number; width?: number }): Rectangle => ({
  x,
  y,
  length,
  width: width ?? 1,
});

/** Every fault of a plan, in words; none for a good one. */
export function faultsOfPlan(plan: CuttingPlan, parts: readonly CutPart[], stocks: readonly Stock[]): string[] {
  return [
    ...plan.patterns.flatMap((pattern, i) => faultsOfPattern(pattern, parts).map((fault) => `pattern ${i}: ${fault}`)),
    ...countFaults(plan, parts),
    ...sumFaults(plan, stocks),
  ];
}

function faultsOfPattern({ stock, cuts, offcuts, times }: CutPattern, parts: readonly CutPart[]): string[] {
  const faults: string[] = [];
  if (!(Number.isInteger(times) && times > 0)) faults.push(`cut ${times} times`);
  if (cuts.length === 0) faults.push('nothing is cut');
  const sheet = flat({ x: 0, y: 0, ...stock });
  const pieces = [...cuts, ...offcuts].map(flat);
  for (const piece of pieces) if (!inside(piece, sheet)) faults.push(`${JSON.stringify(piece)} is not inside`);
  for (const [i, a] of pieces.entries())
    for (const [j, b] of pieces.entries())
      if (i < j && !apart(a, b, i < cuts.length && j < cuts.length ? stock.kerf : 0))
        faults.push(`${i} and ${j} overlap`);
  for (const cut of cuts) {
    const part = parts.find(
      (p) => p.id === cut.part && [p.length, p.width].includes(cut.length) && (!cut.turned || p.mayTurn === true),
    );
    if (!part) faults.push(`${cut.part} is no part of this size`);
    const [length, width] = cut.turned ? [cut.width, cut.length] : [cut.length, cut.width];
    if (part && (part.length !== length || (part.width ?? stock.width) !== width))
      faults.push(`${cut.part} has a wrong size`);
  }
  const byCuts = [true, false].some((along) => isCut(cuts.map(flat), sheet, along, 3, stock.kerf));
  if (!byCuts) faults.push('can not be cut from edge to edge in three stages');
  return faults;
}

const inside = (a: Rectangle, b: Rectangle): boolean =>
  a.x >= -NOISE && a.y >= -NOISE && a.x + a.length <= b.length + NOISE && a.y + a.width <= b.width + NOISE;

const apart = (a: Rectangle, b: Rectangle, by: number): boolean =>
  Math.max(a.x - b.x - b.length, b.x - a.x - a.length, a.y - b.y - b.width, b.y - a.y - a.width) >= by - NOISE;

/**
 * Whether so many stages of cuts from edge to edge, alternately along and across, give just these pieces: every stage cuts
 * wherever it can, then every slab is as thick as what lies in it.
 */
function isCut(pieces: readonly Rectangle[], region: Rectangle, along: boolean, stages: number, kerf: number): boolean {
  const [only] = pieces;
  if (
    pieces.length === 1 &&
    Math.abs(only!.length - region.length) < NOISE &&
    Math.abs(only!.width - region.width) < NOISE
  )
    return true;
  if (stages === 0) return false;
  const from = (r: Rectangle): number => (along ? r.x : r.y);
  const size = (r: Rectangle): number => (along ? r.length : r.width);
  const slabs: { start: number; end: number; readonly pieces: Rectangle[] }[] = [];
  for (const piece of [...pieces].sort((a, b) => from(a) - from(b))) {
    const last = slabs.at(-1);
    if (last && from(piece) < last.end + kerf - NOISE) {
      last.pieces.push(piece);
      last.end = Math.max(last.end, from(piece) + size(piece));
    } else if (last && from(piece) < last.end - NOISE) return false;
    else slabs.push({ start: from(piece), end: from(piece) + size(piece), pieces: [piece] });
  }
  return slabs.every(({ start, end, pieces: within }) => {
    const slab = along ? { ...region, x: start, length: end - start } : { ...region, y: start, width: end - start };
    return isCut(within, slab, !along, stages - 1, kerf);
  });
}

function countFaults({ patterns }: CuttingPlan, parts: readonly CutPart[]): string[] {
  const asked = new Map<string, number>();
  for (const { id, count } of parts) asked.set(id, (asked.get(id) ?? 0) + count);
  const cut = new Map<string, number>();
  for (const { cuts, times } of patterns) for (const { part } of cuts) cut.set(part, (cut.get(part) ?? 0) + times);
  return [...asked].flatMap(([id, count]) =>
    (cut.get(id) ?? 0) === count ? [] : [`${id}: ${count} asked, ${cut.get(id)} cut`],
  );
}

function sumFaults(plan: CuttingPlan, stocks: readonly Stock[]): string[] {
  const faults: string[] = [];
  const pieces = (stock: Stock): number =>
    plan.patterns.reduce((sum, pattern) => sum + (pattern.stock === stock ? pattern.times : 0), 0);
  const used = (stock: Stock): number => plan.used.find((each) => each.stock === stock)?.pieces ?? 0;
  for (const stock of stocks) {
    if (pieces(stock) !== used(stock)) faults.push(`${stock.id}: ${pieces(stock)} in patterns, ${used(stock)} used`);
    if (pieces(stock) > (stock.onHand ?? Infinity)) faults.push(`${stock.id}: more than there are`);
  }
  const sold = stocks.filter(({ onHand }) => onHand === undefined);
  const by = (size: (stock: Stock) => number): number =>
    sold.reduce((sum, stock) => sum + used(stock) * size(stock), 0);
  const sums = [by(({ length }) => length), by(({ length, width }) => length * (width ?? 0))];
  if (!sums.some((sum) => Math.abs(sum - plan.bought) < 1e-3)) faults.push(`bought is ${plan.bought}, not ${sums}`);
  if (plan.lowerBound > plan.bought + NOISE) faults.push('the bound is above the plan');
  const gap = plan.bought === plan.lowerBound ? 0 : (plan.bought - plan.lowerBound) / plan.lowerBound;
  if (Math.abs(gap - plan.gap) > 1e-9) faults.push(`the gap is ${gap}, not ${plan.gap}`);
  if (!(plan.waste >= -1e-9 && plan.waste < 1)) faults.push(`waste is ${plan.waste}`);
  return faults;
}
