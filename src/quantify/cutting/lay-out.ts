/** Where everything lies on a piece of stock: cuts with the ids of parts, and what is left over. */
import type { Pattern, Strip } from './pattern.js';
import type { Lie, Problem } from './problem.js';
import type { Cut, CutPart, CuttingOptions, Offcut } from './types.js';

export interface LaidOut {
  readonly cuts: readonly Cut[];
  readonly offcuts: readonly Offcut[];
}

/** Steps; x along the strips, y across them. */
interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly width: number;
}

/** Tallest strip and longest section first, so that offcuts lie together at the far corner. */
export function layOut(
  problem: Problem,
  pattern: Pattern,
  nextOf: (kind: number) => CutPart,
  keep: CuttingOptions['keep'],
): LaidOut {
  const sheet = problem.sheets[pattern.sheet]!;
  const [length, width] = pattern.across ? [sheet.width, sheet.length] : [sheet.length, sheet.width];
  const cuts: Cut[] = [];
  const left: Rectangle[] = [];
  let y = 0;
  for (const strip of [...pattern.strips].sort((a, b) => heightOf(b) - heightOf(a))) {
    const top = y + heightOf(strip) - sheet.kerf;
    let x = 0;
    for (const section of [...strip].sort((a, b) => b[0]!.along - a[0]!.along)) {
      let across = y;
      for (const lie of section) {
        cuts.push(cutOf(problem, pattern, lie, nextOf(lie.kind), x, across));
        across += lie.across;
      }
      left.push({ x, y: across, length: section[0]!.along - sheet.kerf, width: top - across });
      x += section[0]!.along;
    }
    left.push({ x, y, length: length - x, width: top - y });
    y = top + sheet.kerf;
  }
  left.push({ x: 0, y, length, width: width - y });
  const some = left.filter((rectangle) => rectangle.length > 0 && rectangle.width > 0);
  return { cuts, offcuts: some.map((rectangle) => offcutOf(problem, pattern, rectangle, keep)) };
}

const heightOf = (strip: Strip): number =>
  Math.max(...strip.map((section) => section.reduce((sum, { across }) => sum + across, 0)));

/** One after the other, from the longest; what is left is at the end. */
export function layOutBar(
  problem: Problem,
  pattern: Pattern,
  nextOf: (kind: number) => CutPart,
  keep: CuttingOptions['keep'],
): LaidOut {
  const { length, stock } = problem.sheets[pattern.sheet]!;
  const width = stock.width === undefined ? {} : { width: stock.width };
  const cuts: Cut[] = [];
  let x = 0;
  for (const { kind, along } of pattern.strips.flat(2).sort((a, b) => b.along - a.along)) {
    const part = nextOf(kind);
    cuts.push({ part: part.id, x: inMm(problem, x), y: 0, length: part.length, ...width, turned: false });
    x += along;
  }
  if (x >= length) return { cuts, offcuts: [] };
  const rest = { x: inMm(problem, x), y: 0, length: inMm(problem, length - x), ...width };
  return { cuts, offcuts: [{ ...rest, kept: keep !== undefined && rest.length >= keep.length }] };
}

function cutOf(problem: Problem, pattern: Pattern, lie: Lie, part: CutPart, x: number, y: number): Cut {
  const [along, across] = pattern.across ? [y, x] : [x, y];
  const { width } = problem.sheets[pattern.sheet]!.stock;
  const [length, wide] = [part.length, part.width ?? width!];
  return {
    part: part.id,
    x: inMm(problem, along),
    y: inMm(problem, across),
    length: lie.turned ? wide : length,
    width: lie.turned ? length : wide,
    turned: lie.turned,
  };
}

function offcutOf(problem: Problem, { across, sheet }: Pattern, left: Rectangle, keep: CuttingOptions['keep']): Offcut {
  const { x, y, length, width } = across ? { x: left.y, y: left.x, length: left.width, width: left.length } : left;
  const size = { length: inMm(problem, length), width: inMm(problem, width) };
  return {
    x: inMm(problem, x),
    y: inMm(problem, y),
    ...size,
    kept: keep !== undefined && isWorth(size, keep, problem.sheets[sheet]!.stock.form === 'sheet'),
  };
}

/** Of a sheet either way round; a roll keeps its direction. */
function isWorth(
  { length, width }: { readonly length: number; readonly width: number },
  keep: NonNullable<CuttingOptions['keep']>,
  eitherWay: boolean,
): boolean {
  const least = keep.width ?? 0;
  return (length >= keep.length && width >= least) || (eitherWay && width >= keep.length && length >= least);
}

/** A step is 1 mm or a part of it, so that this is the nearest number to the decimal. */
const inMm = ({ step }: Problem, steps: number): number => steps / Math.round(1 / step);
