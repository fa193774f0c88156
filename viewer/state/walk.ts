/** Where the next step leads: along a barrier, to the next barrier, to another storey. Only what the filter lets through. */
import type { BuildingBarrier } from './building.js';
import { filteredPenetrations } from './filter.js';
import { type OpenReport, shownIn, type ViewerState } from './state.js';
import type { Store } from './store.js';

/** Barriers from the top storey down, each in walking order, with only what passes the filter. */
export function barriersShown(open: OpenReport, filter: ViewerState['filter']): BuildingBarrier[] {
  const seen = filteredPenetrations(open, filter);
  return open.building.storeys
    .flatMap(({ barriers }) => barriers)
    .map((barrier) => ({ ...barrier, penetrations: barrier.penetrations.filter(({ id }) => seen.has(id)) }))
    .filter(({ penetrations }) => penetrations.length > 0);
}

/** The next (1) or last (-1) penetration on this barrier, as seen from the side that one stands on. */
export function stepAlong(store: Store, by: 1 | -1): void {
  const { barrier, side, penetration } = store.state.selection;
  const here = shownBarriers(store).find(({ key }) => key === barrier);
  if (!here) {
    stepBarrier(store, by);
    return;
  }
  const list = side === 'A' ? here.penetrations : [...here.penetrations].reverse();
  const at = list.findIndex(({ id }) => id === penetration);
  const next = list[at < 0 ? 0 : at + by];
  if (next) store.selectPenetration(next.id);
}

export function stepBarrier(store: Store, by: 1 | -1): void {
  const list = shownBarriers(store);
  const at = list.findIndex(({ key }) => key === store.state.selection.barrier);
  const next = list[at < 0 ? 0 : at + by];
  if (next) store.selectPenetration(next.penetrations[0]!.id);
}

/** Upwards (-1 in the order of the section) or downwards. */
export function stepStorey(store: Store, by: 1 | -1): void {
  const list = shownBarriers(store);
  const here = list.find(({ key }) => key === store.state.selection.barrier);
  const storeys = [...new Set(list.map(({ storey }) => storey))];
  const next = storeys[here ? storeys.indexOf(here.storey) + by : 0];
  const first = list.find(({ storey }) => storey === next);
  if (first) store.selectPenetration(first.penetrations[0]!.id);
}

function shownBarriers({ state }: Store): BuildingBarrier[] {
  const open = shownIn(state);
  return open ? barriersShown(open, state.filter) : [];
}
