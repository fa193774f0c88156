/** Something to look at when a report is opened and nobody has said where: the worst place that is shown. */
import { shownRows } from './filter.js';
import { shownIn } from './state.js';
import type { Store } from './store.js';

export function selectFirst(store: Store): void {
  const { state } = store;
  const { barrier, penetration, finding } = state.selection;
  const open = shownIn(state);
  if (!open || barrier !== null || penetration !== null || finding !== null) return;
  const rows = shownRows(open, state);
  const worst = rows.find((row) => row.penetration !== null) ?? rows[0];
  if (worst) store.selectRow(worst.id);
}
