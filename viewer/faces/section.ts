/** The building as a section is drawn: storeys over each other, slabs as lines, shafts as columns. Pure layout, px. */
import { fileUnder } from '../../src/collect.js';
import { bounds, boxCentre } from '../../src/geometry/polygon.js';
import type { Outcome } from '../../src/model.js';
import { countOutcomes } from '../../src/report/outcome-counts.js';
import type { OutcomeCounts, Report } from '../../src/report/schema.js';
import type { Building, BuildingStorey } from '../state/building.js';

/** Outcomes that the section counts, worst first. */
export const COUNTED = [
  'failed',
  'cantTell',
  'untested',
  'passed',
  'inapplicable',
] as const satisfies readonly Outcome[];

export interface SectionStorey {
  readonly storey: BuildingStorey;
  /** Of what passes its walls, and of what passes the floor that it stands on. */
  readonly walls: OutcomeCounts;
  readonly slab: OutcomeCounts;
  /** Columns that stand in it. */
  readonly shafts: readonly number[];
}

export interface SectionShaft {
  readonly names: readonly string[];
}

export interface Section {
  /** From the top down. */
  readonly storeys: readonly SectionStorey[];
  /** From west to east. */
  readonly shafts: readonly SectionShaft[];
}

/** More columns than these would leave no room for words. */
const MOST_SHAFTS = 4;

export function sectionOf(report: Report, building: Building): Section {
  const columns = shaftColumns(report, building);
  // What passes a roof lies over the storey that it is drawn on: on the slab of the next one up.
  const slabs = new Map<string, Outcome[]>();
  const walls = new Map<string, Outcome[]>();
  for (const [i, { key, elevation, barriers }] of building.storeys.entries()) {
    const above = building.storeys[i - 1];
    for (const { kind, penetrations } of barriers)
      for (const { position, outcome } of penetrations) {
        const isOver =
          above?.elevation != null &&
          elevation !== null &&
          Math.abs(position[2] - above.elevation) < Math.abs(position[2] - elevation);
        if (kind === 'wall') fileUnder(walls, key, outcome);
        else fileUnder(slabs, isOver ? above!.key : key, outcome);
      }
  }
  return {
    storeys: building.storeys.map((storey) => ({
      storey,
      walls: countOutcomes(walls.get(storey.key) ?? []),
      slab: countOutcomes(slabs.get(storey.key) ?? []),
      shafts: columns.flatMap(({ storeys }, i) => (storeys.has(storey.key) ? [i] : [])),
    })),
    shafts: columns.map(({ names }) => ({ names: [...names] })),
  };
}

interface Column {
  readonly names: Set<string>;
  readonly storeys: Set<string>;
  readonly x: number;
  readonly box: ReturnType<typeof bounds>;
}

/** Shafts of different storeys that lie over each other are one column; the tallest ones stand in the section. */
function shaftColumns({ compartments }: Report, building: Building): Column[] {
  const columns: Column[] = [];
  for (const { name, storey, outlines, shaft } of compartments) {
    if (shaft !== true || !storey || outlines.length === 0) continue;
    const [x, y] = boxCentre(outlines);
    const known = columns.find(({ box: { min, max } }) => x > min[0] && x < max[0] && y > min[1] && y < max[1]);
    const key = building.storeyOf(storey.globalId);
    if (known) {
      known.names.add(name);
      known.storeys.add(key);
    } else columns.push({ names: new Set([name]), storeys: new Set([key]), x, box: bounds(outlines) });
  }
  return columns
    .sort((a, b) => b.storeys.size - a.storeys.size || a.x - b.x)
    .slice(0, MOST_SHAFTS)
    .sort((a, b) => a.x - b.x);
}

export interface PlacedStorey extends SectionStorey {
  readonly y: number;
  readonly height: number;
}

export interface PlacedSection {
  readonly storeys: readonly PlacedStorey[];
  readonly height: number;
  /** Whether each outcome has a line of its own. */
  readonly isFull: boolean;
}

/** px. */
export const LEAST_HEIGHT = 32;
export const NAME_LINE = 18;
export const COUNT_LINE = 18;
export const LEVEL_LINE = 16;
/** For what lies on the slab line, and air. */
export const FOOT = 8;

const linesOf = (counts: OutcomeCounts): number => COUNTED.filter((outcome) => counts[outcome] > 0).length;
export const hasAny = (counts: OutcomeCounts): boolean => linesOf(counts) > 0;

/** @param height of the region: what has room for it is drawn in full, and as high as it is in the building */
export function placeSection({ storeys }: Section, height: number): PlacedSection {
  const content = (isFull: boolean) => storeys.map((storey) => neededHeight(storey, isFull));
  const sum = (list: readonly number[]): number => list.reduce((total, one) => total + one, 0);
  const full = content(true);
  const isFull = sum(full) <= height;
  const needed = isFull ? full : content(false);
  const heights = grown(
    needed,
    storeys.map(({ storey }, i) =>
      tall(
        storeys.map((one) => one.storey),
        storey,
        i,
      ),
    ),
    height,
  );
  let y = 0;
  return {
    isFull,
    height: sum(heights),
    storeys: storeys.map((storey, i) => {
      const placed = { ...storey, y, height: heights[i]! };
      y += heights[i]!;
      return placed;
    }),
  };
}

/** Beside each other, all as high as the fullest: in full where that is no higher than `most`. */
export function placeRowOfStoreys({ storeys }: Section, most: number): PlacedSection {
  const highest = (isFull: boolean): number => Math.max(0, ...storeys.map((storey) => neededHeight(storey, isFull)));
  const isFull = highest(true) <= most;
  const height = highest(isFull);
  return { isFull, height, storeys: storeys.map((storey) => ({ ...storey, y: 0, height })) };
}

/** Names and counts; a storey without anything is thin. */
function neededHeight({ walls, slab }: SectionStorey, isFull: boolean): number {
  const lines = isFull ? linesOf(walls) : Math.min(1, linesOf(walls));
  return Math.max(
    LEAST_HEIGHT,
    NAME_LINE + lines * COUNT_LINE + (hasAny(slab) ? COUNT_LINE : 0) + (isFull ? LEVEL_LINE : 0) + FOOT,
  );
}

/** mm up to the next storey; null: not known, and at the top nobody says. */
function tall(storeys: readonly BuildingStorey[], { elevation }: BuildingStorey, i: number): number | null {
  const above = storeys[i - 1]?.elevation;
  return elevation === null || above == null ? null : above - elevation;
}

/** What room is left is shared so that heights are as in the building where they are more than is needed. */
function grown(needed: readonly number[], talls: readonly (number | null)[], height: number): number[] {
  const at = (scale: number): number[] => needed.map((least, i) => Math.max(least, (talls[i] ?? 0) * scale));
  const sum = (scale: number): number => at(scale).reduce((total, one) => total + one, 0);
  let [low, high] = [0, 1];
  if (sum(0) >= height || talls.every((one) => one === null || one <= 0)) return [...needed];
  while (sum(high) < height) high *= 2;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (sum(middle) > height) high = middle;
    else low = middle;
  }
  return at(Math.min(low, MOST_PER_MM)).map(Math.floor);
}
/** No storey is drawn larger than 1:100 or so, px for each mm. */
const MOST_PER_MM = 0.055;

/** Keys of the storeys that a filter names after one of them is chosen. @param all from the top down */
export function chosenStoreys(
  all: readonly string[],
  chosen: readonly string[],
  key: string,
  anchor: string | null,
  isRange: boolean,
): readonly string[] {
  if (isRange) {
    const [from, to] = [all.indexOf(anchor ?? chosen[0] ?? key), all.indexOf(key)];
    return all.slice(Math.max(0, Math.min(from, to)), Math.max(from, to) + 1);
  }
  return chosen.length === 1 && chosen[0] === key ? [] : [key];
}
