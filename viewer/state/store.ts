/** Holds the state, changes it, tells who listens. Elements read it through {@link Watching}. */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { barrierKey } from './building.js';
import {
  FIRST_STATE,
  type Filter,
  NOTHING_SELECTED,
  type Selection,
  type Side,
  shownIn,
  type ViewerState,
} from './state.js';

export type Listener = (state: ViewerState, before: ViewerState) => void;

export class Store {
  private current: ViewerState = FIRST_STATE;
  private readonly listeners = new Set<Listener>();

  get state(): ViewerState {
    return this.current;
  }

  /** @returns how to stop listening */
  listen(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  change(part: Partial<ViewerState>): void {
    const before = this.current;
    this.current = { ...before, ...part };
    for (const listener of [...this.listeners]) listener(this.current, before);
  }

  filter(part: Partial<Filter>): void {
    this.change({ filter: { ...this.current.filter, ...part } });
  }

  /** Selects a penetration with its barrier; the side is kept where the barrier is. @param id in the report */
  selectPenetration(id: string, finding: string | null = null): void {
    const p = shownIn(this.current)?.building.lookup.penetrations.get(id);
    if (!p) return;
    const { selection } = this.current;
    const barrier = barrierKey(p);
    const side: Side = selection.barrier === barrier ? selection.side : 'A';
    this.select({ barrier, side, penetration: id, finding, element: null });
  }

  /** @param id of a row: of a finding, or of a penetration without one */
  selectRow(id: string): void {
    const row = shownIn(this.current)?.rows.find((one) => one.id === id);
    if (!row) return;
    if (row.penetration) this.selectPenetration(row.penetration.id, row.finding?.id ?? null);
    else this.select({ ...NOTHING_SELECTED, finding: row.finding?.id ?? null });
  }

  selectBarrier(barrier: string): void {
    this.select({ ...NOTHING_SELECTED, barrier });
  }

  turn(): void {
    const { selection } = this.current;
    this.select({ ...selection, side: selection.side === 'A' ? 'B' : 'A' });
  }

  select(selection: Selection): void {
    this.change({ selection });
  }
}

/** Draws its element again when the state changes. */
export class Watching implements ReactiveController {
  private stop: (() => void) | undefined;

  constructor(
    private readonly host: ReactiveControllerHost & { readonly store: Store },
    /** What of the state concerns the element; left out: all of it. */
    private readonly concerns?: (state: ViewerState) => readonly unknown[],
  ) {
    host.addController(this);
  }

  hostConnected(): void {
    this.stop = this.host.store.listen((state, before) => {
      if (!this.concerns || !same(this.concerns(state), this.concerns(before))) this.host.requestUpdate();
    });
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    this.stop?.();
  }
}

const same = (a: readonly unknown[], b: readonly unknown[]): boolean => a.every((one, i) => Object.is(one, b[i]));
