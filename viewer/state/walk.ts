/** Where the next step leads: along a barrier, to the next barrier, to another storey. Only what the filter lets through. */
import type { BuildingBarrier } from './building.js';
import { filteredPenetrations } from './filter.js';
import { keepLast } from './keep-last.js';
import { type OpenReport, shownIn, type ViewerState } from './state.js';
import type { Store } from './store.js';

/** Ids of what the filter lets through. */
export const seenPenetrations = keepLast(filteredPenetrations);

/** Barriers from the top storey down, each in walking order, with only what passes the filter. */
export const barriersShown = keepLast((open: OpenReport, filter: ViewerState['filter']): BuildingBarrier[] => {
  const seen = seenPenetrations(open, filter);
  return open.building.storeys
    .flatMap(({ barriers }) => barriers)
    .map((barrier) => ({ ...barrier, penetrations: barrier.penetrations.filter(({ id }) => seen.has(id)) }))
    .filter(({ penetrations }) => penetrations.length > 0);
});

/** The next (1) or last (-1) penetration on this barrier, as seen from the side that one stands on. */
export function stepAlong(store: Store, by: 1 | -1): void {
  const { barrier, side, penetration } = store.state.selection;
  const here = shownBarriers(store).find(({ key }) => key === barrier);
  if (!here) {
    stepBarrier(store, by);
    return;
  }
  const seen = new Set(here.penetrations);
  const way = side === 'A' ? by : -by;
  // Along all of the barrier, so that what the filter has just held back is still a place to step from.
  const all = shownIn(store.state)!.building.barriers.get(here.key)!.penetrations;
  const at = all.findIndex(({ id }) => id === penetration);
  const onward =
    at < 0 ? (side === 'A' ? all : [...all].reverse()) : way > 0 ? all.slice(at + 1) : all.slice(0, at).reverse();
  const next = onward.find((p) => seen.has(p));
  if (next) store.selectPenetration(next.id);
}

/** To the first penetration of the next (1) or last (-1) barrier. */
export function stepBarrier(store: Store, by: 1 | -1): void {
  const shown = new Map(shownBarriers(store).map((barrier) => [barrier.key, barrier]));
  const all = allBarriers(store);
  const at = all.findIndex(({ key }) => key === store.state.selection.barrier);
  const onward = at < 0 ? all : by > 0 ? all.slice(at + 1) : all.slice(0, at).reverse();
  enter(
    store,
    onward.map(({ key }) => shown.get(key)).find((barrier) => barrier),
  );
}

/** Upwards (-1 in the order of the section) or downwards. */
export function stepStorey(store: Store, by: 1 | -1): void {
  const open = shownIn(store.state);
  if (!open) return;
  const shown = shownBarriers(store);
  const here = open.building.barriers.get(store.state.selection.barrier ?? '');
  const all = open.building.storeys.map(({ key }) => key);
  const at = here ? all.indexOf(here.storey) : -1;
  const onward = at < 0 ? all : by > 0 ? all.slice(at + 1) : all.slice(0, at).reverse();
  const storey = onward.find((key) => shown.some((barrier) => barrier.storey === key));
  enter(
    store,
    shown.find((barrier) => barrier.storey === storey),
  );
}

function enter(store: Store, barrier: BuildingBarrier | undefined): void {
  const first = barrier?.penetrations[0];
  if (first) store.selectPenetration(first.id);
}

function shownBarriers({ state }: Store): BuildingBarrier[] {
  const open = shownIn(state);
  return open ? barriersShown(open, state.filter) : [];
}

const allBarriers = ({ state }: Store): readonly BuildingBarrier[] =>
  shownIn(state)?.building.storeys.flatMap(({ barriers }) => barriers) ?? [];
