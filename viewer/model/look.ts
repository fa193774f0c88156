/** What each element looks like in a state of the viewer. Plain data for the state texture: nothing of any library. */

import { hatchOf } from '../../src/draw/paper/hatch.js';
import { nameOf } from '../../src/element-refs.js';
import type { ElementRef } from '../../src/model.js';
import type { Report, ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { type OpenReport, shownIn, type ViewerState } from '../state/state.js';
import { PATTERN, STATE } from './element-state.js';
import type { Elements } from './elements.js';
import type { Geometry } from './geometry.js';

/** The storey that is looked at: the selected barrier's, else the only one that the filter names; null: none. */
export function storeyShown(state: ViewerState): string | null {
  const barrier = shownIn(state)?.building.barriers.get(state.selection.barrier ?? '');
  if (barrier) return barrier.storey;
  return state.filter.storeys.length === 1 ? state.filter.storeys[0]! : null;
}

/** What passes slabs of a storey, by names of elements. */
function passingSlabs({ report, building }: OpenReport, storey: string): Set<string> {
  const there = report.penetrations.filter(
    ({ barrier, storey: of }) =>
      barrier.kind !== 'wall' && building.storeyOf((of ?? barrier.storey)?.globalId) === storey,
  );
  return new Set(there.flatMap(({ elements, barrier }) => [...elements, barrier].map(nameOf)));
}

/** Ducts, dampers, barrier, its leaves and the opening of a penetration, by their names. */
export function ownElements(p: ReportPenetration | undefined): ReadonlySet<string> {
  if (!p) return new Set();
  const { opening } = p;
  const hole: ElementRef[] =
    opening && opening.globalId !== null ? [{ model: opening.model, globalId: opening.globalId }] : [];
  return new Set([p.barrier, ...p.barrier.leaves, ...p.elements, p.duct, ...p.dampers, ...hole].map(nameOf));
}

/** Two bytes for each element: its state and its hatch. */
export function elementStates(elements: Elements, state: ViewerState, changed: ReadonlySet<string>): Uint8Array {
  const open = shownIn(state);
  const { selection } = state;
  const own = ownElements(open?.building.lookup.penetrations.get(selection.penetration ?? ''));
  const storey = state.onlyStorey ? storeyShown(state) : null;
  const passing = open && storey !== null ? passingSlabs(open, storey) : undefined;
  const selected = selection.element ? nameOf(selection.element) : null;
  const bytes = open ? hatches(elements, open).slice() : new Uint8Array(2 * elements.nodes.length);
  elements.nodes.forEach(({ extras }, i) => {
    const name = elements.names[i]!;
    // Whose storey nobody says may be of this one.
    const isHere =
      !passing || extras.storey === null || open!.building.storeyOf(extras.storey) === storey || passing.has(name);
    if (isHere) bytes[2 * i] = stateOf(name, own, selected, changed);
  });
  return bytes;
}

/** The second byte of each element, which no state changes. */
function hatches(elements: Elements, { report }: OpenReport): Uint8Array {
  const ready = hatched.get(report);
  if (ready && ready.length === 2 * elements.nodes.length) return ready;
  const bytes = new Uint8Array(2 * elements.nodes.length);
  for (const barrier of report.barriers) {
    const i = elements.find(barrier);
    if (i !== undefined) bytes[2 * i + 1] = PATTERN[hatchOf(barrier.rating)];
  }
  hatched.set(report, bytes);
  return bytes;
}
const hatched = new WeakMap<Report, Uint8Array>();

function stateOf(
  name: string,
  own: ReadonlySet<string>,
  selected: string | null,
  changed: ReadonlySet<string>,
): number {
  if (name === selected) return STATE.selected;
  if (changed.has(name)) return STATE.outlined;
  return own.has(name) ? STATE.own : STATE.plain;
}

/** The finding whose change is shown: the selected one, else the first of the penetration that has one. */
export function changeShown({ selection, ...state }: ViewerState): ReportFinding | undefined {
  const open = shownIn({ selection, ...state });
  const here = open?.building.lookup.findings.get(selection.penetration ?? '') ?? [];
  return here.find(({ id, change }) => id === selection.finding && change) ?? here.find(({ change }) => change);
}

/** Names of the elements that a change puts elsewhere. */
export const changedElements = (geometry: Geometry | null, proposal: ReportFinding | undefined): ReadonlySet<string> =>
  new Set(
    proposal
      ? (geometry?.proposed ?? []).flatMap(({ extras }) => (extras.finding === proposal.id ? [nameOf(extras)] : []))
      : [],
  );

/** Those of a storey; the report's own list where all are shown, so that nothing is made anew. */
export const penetrationsShown = ({ report, building }: OpenReport, storey: string | null): Report['penetrations'] =>
  storey === null
    ? report.penetrations
    : report.penetrations.filter((p) => building.storeyOf((p.storey ?? p.barrier.storey)?.globalId) === storey);
