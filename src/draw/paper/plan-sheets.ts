/** How a storey is laid out on sheets: turned square to them, at a usual scale, cut along match lines where it is large. */
import { bounds } from '../../geometry/polygon.js';
import { sub2 } from '../../geometry/vector.js';
import type { Polygon, Vec2 } from '../../model.js';
import type { PlanPenetration, StoreyPlan } from '../../scene/storey-plan.js';
import { type Box, middleOf } from './layout.js';
import type { View } from './view.js';

/** ISO 5455 has them among others; drawing offices use these for plans. */
const SCALES = [50, 100, 200] as const;
/** And so on by tens, where even many sheets would not do. */
const SMALLER = [2, 5, 10] as const;
/** A storey on more sheets than these is looked at by nobody: the scale gets smaller instead. Common practice, no source. */
const MOST_SHEETS = 12;

export interface PlanSheet {
  readonly view: View;
  /** Counter-clockwise on paper from the models' +y to the top of the sheet, radians. */
  readonly turn: number;
  /** On paper: what this sheet alone shows marked; what is drawn beyond it stands on the next sheet. */
  readonly own: Box;
  readonly number: number;
  readonly of: number;
  /** Sheets beyond each edge; undefined: nothing is there. */
  readonly beyond: { readonly [E in Edge]: number | undefined };
  readonly penetrations: readonly PlanPenetration[];
}
export type Edge = 'left' | 'right' | 'top' | 'bottom';

/** What has to be in sight, as boxes in coordinates turned square to the sheet. */
interface Shown {
  readonly min: Vec2;
  readonly max: Vec2;
  readonly penetration: PlanPenetration | null;
}

/** What goes together on one sheet, or on several with match lines between them. */
interface Block {
  readonly scale: number;
  readonly shown: readonly Shown[];
  readonly columns: number;
  readonly rows: number;
}

/** @param inside on paper: where everything has to be that is to be seen */
export function planSheets(plan: StoreyPlan, window: Box, inside: Box): PlanSheet[] {
  const turn = turnOf(plan);
  const turned = turner(turn);
  const shown = shownOf(plan, turned);
  const blocks = blocksOf(shown, inside);
  const sheets: Omit<PlanSheet, 'of'>[] = [];
  for (const block of blocks) sheets.push(...sheetsOf(block, sheets.length, turn, window, inside));
  return sheets.map((sheet) => ({ ...sheet, of: sheets.length }));
}

/** At the largest scale that does not take too many sheets. */
function blocksOf(shown: readonly Shown[], inside: Box): Block[] {
  for (let decade = 100; ; decade *= 10)
    for (const step of SMALLER) {
      const blocks = blocksAt(decade * step, shown, inside);
      if (sheetCount(blocks) <= MOST_SHEETS) return blocks;
    }
}

const sheetCount = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, { columns, rows }) => sum + columns * rows, 0);

/** Parted where nothing stands between, as long as a part is too large for a sheet; then cut into equal ones. */
function blocksAt(scale: number, shown: readonly Shown[], inside: Box): Block[] {
  const { min, max } = extentOf(shown);
  const [width, height] = [max[0] - min[0], max[1] - min[1]];
  const fitting = [...SCALES.filter((s) => s <= scale), scale].find(
    (s) => width <= inside.width * s && height <= inside.height * s,
  );
  if (fitting !== undefined) return [{ scale: fitting, shown, columns: 1, rows: 1 }];
  const parts = partedAtGap(shown, LEAST_GAP * scale);
  if (parts) return parts.flatMap((part) => blocksAt(scale, part, inside));
  const [columns, rows] = [Math.ceil(width / (inside.width * scale)), Math.ceil(height / (inside.height * scale))];
  return [{ scale, shown, columns, rows }];
}

/** Less than this on paper between two parts is no place to part them. */
const LEAST_GAP = 2.5;

/** At the widest gap that goes right across: left and right of it, or over and under it. */
function partedAtGap(shown: readonly Shown[], least: number): readonly [Shown[], Shown[]] | undefined {
  let widest = least;
  let parts: readonly [Shown[], Shown[]] | undefined;
  for (const axis of [0, 1] as const) {
    const sorted = [...shown].sort((a, b) => a.min[axis] - b.min[axis]);
    let reach = -Infinity;
    for (const [i, { min, max }] of sorted.entries()) {
      if (i > 0 && min[axis] - reach > widest) {
        widest = min[axis] - reach;
        const [before, after] = [sorted.slice(0, i), sorted.slice(i)];
        parts = axis === 0 ? [before, after] : [after, before];
      }
      reach = Math.max(reach, max[axis]);
    }
  }
  return parts;
}

function sheetsOf(block: Block, before: number, turn: number, window: Box, inside: Box): Omit<PlanSheet, 'of'>[] {
  const { scale, shown, columns, rows } = block;
  const turned = turner(turn);
  const { min, max } = extentOf(shown);
  const [width, height] = [inside.width * scale, inside.height * scale];
  // The tiles together lie about the middle of what is shown; the first one is up on the left.
  const left = (min[0] + max[0] - columns * width) / 2;
  const top = (min[1] + max[1] + rows * height) / 2;
  const columnOf = (x: number): number => clamp(Math.floor((x - left) / width), columns);
  const rowOf = (y: number): number => clamp(Math.floor((top - y) / height), rows);
  const tiles = Array.from({ length: columns * rows }, (_, tile): Shown[] => {
    const [column, row] = [tile % columns, Math.floor(tile / columns)];
    return shown.filter(
      (one) =>
        columnOf(one.min[0]) <= column &&
        column <= columnOf(one.max[0]) &&
        rowOf(one.max[1]) <= row &&
        row <= rowOf(one.min[1]),
    );
  });
  const numbers = new Map<number, number>();
  for (const [tile, content] of tiles.entries()) if (content.length > 0) numbers.set(tile, before + numbers.size + 1);
  const numberOf = (column: number, row: number): number | undefined =>
    column < 0 || column >= columns || row < 0 ? undefined : numbers.get(row * columns + column);
  return [...numbers].map(([tile, number]) => {
    const [column, row] = [tile % columns, Math.floor(tile / columns)];
    const centre: Vec2 = [left + (column + 0.5) * width, top - (row + 0.5) * height];
    const [px, py] = middleOf(inside);
    const at = (p: Vec2): Vec2 => {
      const [x, y] = turned(p);
      return [px + (x - centre[0]) / scale, py - (y - centre[1]) / scale];
    };
    return {
      view: { scale, at, outline: (p) => p.map(at), window },
      ...{ turn, own: inside, number },
      beyond: {
        left: numberOf(column - 1, row),
        right: numberOf(column + 1, row),
        top: numberOf(column, row - 1),
        bottom: numberOf(column, row + 1),
      },
      penetrations: tiles[tile]!.flatMap(({ penetration }) => penetration ?? []),
    };
  });
}

const clamp = (i: number, count: number): number => Math.max(0, Math.min(count - 1, i));

function shownOf(plan: StoreyPlan, turned: (p: Vec2) => Vec2): Shown[] {
  const boxed = (outline: Polygon, penetration: PlanPenetration | null): Shown => ({
    ...bounds([outline.map(turned)]),
    penetration,
  });
  const drawn = [
    ...plan.walls.flatMap(({ outlines }) => outlines),
    ...plan.columns,
    ...plan.ducts.flatMap(({ outlines }) => outlines),
  ];
  const shown = [...drawn.map((outline) => boxed(outline, null)), ...plan.penetrations.map((p) => boxed([p.at], p))];
  return shown.length > 0 ? shown : [{ min: [0, 0], max: [0, 0], penetration: null }];
}

const extentOf = (shown: readonly Shown[]): { readonly min: Vec2; readonly max: Vec2 } =>
  bounds(shown.map(({ min, max }): Polygon => [min, max]));

/** The way that walls run, by the lengths of their edges: four times an angle is the same for all that are square. */
function turnOf({ walls }: StoreyPlan): number {
  let [c, s] = [0, 0];
  for (const outline of walls.flatMap(({ outlines }) => outlines))
    for (const [i, a] of outline.entries()) {
      const [x, y] = sub2(outline[(i + 1) % outline.length]!, a);
      const weight = x * x + y * y;
      c += weight * Math.cos(4 * Math.atan2(y, x));
      s += weight * Math.sin(4 * Math.atan2(y, x));
    }
  const turn = -Math.atan2(s, c) / 4;
  return Math.abs(turn) < LEAST_TURN ? 0 : turn;
}

/** Nobody sees less than a twentieth of a degree. */
const LEAST_TURN = Math.PI / 3600;

function turner(turn: number): (p: Vec2) => Vec2 {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return ([x, y]) => [c * x - s * y, s * x + c * y];
}
