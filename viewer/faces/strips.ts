/**
 * All that the region scrolls through, with the height of each piece known before anything is drawn: storeys, heads of
 * barriers, rows. Planned once for each report, filter and width.
 */
import type { Geometry } from '../model/geometry.js';
import type { BuildingBarrier, BuildingStorey } from '../state/building.js';
import type { OpenReport, Selection, Side } from '../state/state.js';
import { type FlatBarrier, flatBarrier } from './flat.js';
import { rowSeen } from './layout.js';
import { type FacePlan, planFace } from './plan.js';
import { barrierScale, commonScale } from './scales.js';

export interface Strip {
  /** px from the top of the list. */
  readonly top: number;
  readonly height: number;
}
export type Item = Strip &
  (
    | { readonly kind: 'storey'; readonly storey: BuildingStorey }
    | { readonly kind: 'barrier'; readonly barrier: BuildingBarrier; readonly plan: FacePlan }
    /** `index` of the row as it is seen: see `placeRow`. */
    | { readonly kind: 'row'; readonly barrier: BuildingBarrier; readonly plan: FacePlan; readonly index: number }
  );

/** px. */
export const STOREY_HEIGHT = 32;
export const HEAD_HEIGHT = 76;
export const ROW_GAP = 12;

/** Barriers in their plane; of one report and one geometry. */
export class Flats {
  private readonly flats = new Map<string, FlatBarrier>();
  private readonly plans = new Map<string, { readonly key: string; readonly plan: FacePlan }>();
  private readonly ownScales = new Map<string, { readonly width: number; readonly scale: number }>();
  private readonly scales = new Map<string, number>();

  constructor(
    readonly open: OpenReport,
    readonly geometry: Geometry | null,
  ) {}

  of(barrier: BuildingBarrier): FlatBarrier {
    const known = this.flats.get(barrier.key);
    if (known) return known;
    const flat = flatBarrier(barrier, this.geometry?.faces.get(barrier.key));
    this.flats.set(barrier.key, flat);
    return flat;
  }

  /** Planned again only where what is seen of it, its width or its scale is another. */
  planOf(barrier: BuildingBarrier, seen: ReadonlySet<string>, width: number, scale: number): FacePlan {
    const key = `${width} ${scale} ${barrier.penetrations.map(({ id }) => Number(seen.has(id))).join('')}`;
    const known = this.plans.get(barrier.key);
    if (known?.key === key) return known.plan;
    const plan = planFace(this.of(barrier), (id) => seen.has(id), width, scale);
    this.plans.set(barrier.key, { key, plan });
    return plan;
  }

  /** n of 1:n at which a barrier is drawn in rows of this width, where nobody looks at it larger. */
  ownScale(barrier: BuildingBarrier, width: number): number {
    const known = this.ownScales.get(barrier.key);
    if (known?.width === width) return known.scale;
    const storey = this.open.building.storeys.find(({ key }) => key === barrier.storey)!;
    const scale = barrierScale(this.of(barrier), this.scaleOf(storey), width);
    this.ownScales.set(barrier.key, { width, scale });
    return scale;
  }

  /** n of 1:n that the barriers of a storey have in common. */
  private scaleOf({ key, barriers }: BuildingStorey): number {
    const known = this.scales.get(key);
    if (known) return known;
    const scale = commonScale(barriers.map((barrier) => this.of(barrier)));
    this.scales.set(key, scale);
    return scale;
  }
}

export interface Shown {
  readonly flats: Flats;
  /** Ids of penetrations that the filter lets through. */
  readonly seen: ReadonlySet<string>;
  /** px of a row. */
  readonly width: number;
  /** n of 1:n of barriers that somebody looks at larger. */
  readonly enlarged: ReadonlyMap<string, number>;
}

export interface Planned {
  readonly items: readonly Item[];
  readonly height: number;
}

export function plannedItems({ flats, seen, width, enlarged }: Shown): Planned {
  const items: Item[] = [];
  let top = 0;
  for (const storey of flats.open.building.storeys) {
    const barriers = storey.barriers.filter(({ penetrations }) => penetrations.some(({ id }) => seen.has(id)));
    if (barriers.length === 0) continue;
    items.push({ kind: 'storey', storey, top, height: STOREY_HEIGHT });
    top += STOREY_HEIGHT;
    for (const barrier of barriers) {
      const scale = enlarged.get(barrier.key) ?? flats.ownScale(barrier, width);
      const plan = flats.planOf(barrier, seen, width, scale);
      items.push({ kind: 'barrier', barrier, plan, top, height: HEAD_HEIGHT });
      top += HEAD_HEIGHT;
      for (const [index, row] of plan.rows.entries()) {
        const height = row.height + ROW_GAP;
        items.push({ kind: 'row', barrier, plan, index, top, height });
        top += height;
      }
    }
  }
  return { items, height: top };
}

/** With one barrier seen from side B: its rows come the other way round. @param barrier its key; null: none is turned */
export function turnedItems(planned: Planned, barrier: string | null): Planned {
  if (barrier === null) return planned;
  let top: number | undefined;
  const items = planned.items.map((item): Item => {
    if (item.kind !== 'row' || item.barrier.key !== barrier) return item;
    const height = item.plan.rows.at(-1 - item.index)!.height + ROW_GAP;
    const turned = { ...item, top: top ?? item.top, height };
    top = turned.top + height;
    return turned;
  });
  return { ...planned, items };
}

/** From the first item that reaches into sight to the last. */
export function inSight({ items }: Planned, from: number, to: number): readonly [number, number] {
  const first = lowest(items.length, (i) => items[i]!.top + items[i]!.height > from);
  const end = lowest(items.length, (i) => items[i]!.top >= to);
  return [first, Math.max(first, end)];
}

/** The head of the barrier whose row this is; undefined of what is no row. */
export function headOf({ items }: Planned, at: number): Item | undefined {
  const item = items[at];
  return item?.kind === 'row' ? items[at - item.index - 1] : undefined;
}

/** The least index of which it is true; it is true of all after that. */
function lowest(length: number, isTrue: (i: number) => boolean): number {
  let [low, high] = [0, length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isTrue(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Where a penetration is drawn, and the head of its barrier. */
export function itemOf({ items }: Planned, barrier: string, penetration: string | null, side: Side): readonly Item[] {
  const own = items.filter((item) => item.kind !== 'storey' && item.barrier.key === barrier);
  const row = own.find(
    (item) =>
      item.kind === 'row' &&
      penetration !== null &&
      rowSeen(item.plan.rows, item.index, side).units.some(({ members }) =>
        members.some((one) => one.penetration.id === penetration),
      ),
  );
  return row ? [own[0]!, row] : own.slice(0, 2);
}

/** Where to scroll for a penetration to be in sight, with the head of its barrier; null: it is, or it is not in the list. */
export function scrollFor(
  planned: Planned,
  barrier: string,
  penetration: string | null,
  side: Side,
  scrolled: number,
  height: number,
): number | null {
  const [head, row] = itemOf(planned, barrier, penetration, side);
  if (!head || !row) return null;
  const bottom = row.top + row.height;
  if (row.top - HEAD_HEIGHT >= scrolled && bottom <= scrolled + height) return null;
  return bottom - head.top <= height ? head.top : row.top - HEAD_HEIGHT;
}

/** Id of the penetration that Tab leads to: the selected one where it is drawn, else the first that is. */
export function tabStopIn(items: readonly Item[], { barrier, side, penetration }: Selection): string | null {
  const drawn = items.flatMap((item) => {
    if (item.kind !== 'row') return [];
    const row = rowSeen(item.plan.rows, item.index, item.barrier.key === barrier ? side : 'A');
    return row.units.filter(({ isSeen }) => isSeen).flatMap(({ members }) => members);
  });
  return (drawn.find((one) => one.penetration.id === penetration) ?? drawn[0])?.penetration.id ?? null;
}
