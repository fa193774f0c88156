/**
 * What is looked at, as the fragment of an address that a person can read and send on: `storey=Level+1&outcome=failed&at=K7F2-9`.
 * Penetrations go by their tags and findings by their keys, so that an address holds for the next revision too.
 */
import type { Outcome } from '../../src/model.js';
import { HOLD_LINE } from '../../src/report/hold-points.js';
import { WORDS } from '../words.js';
import { barrierKey } from './building.js';
import { DIMENSIONS, type Dimension, valueIn } from './filter.js';
import { keepLast } from './keep-last.js';
import {
  FIRST_STATE,
  type Filter,
  MODEL_VIEWS,
  type ModelView,
  NO_FILTER,
  NOTHING_SELECTED,
  type OpenReport,
  type Selection,
  type Side,
  SORT_COLUMNS,
  type Sort,
  type SortColumn,
  type ViewerState,
} from './state.js';
import { namesOf } from './values.js';

/** All of the state that an address holds. */
export type Addressed = Pick<ViewerState, 'filter' | 'selection' | 'sort' | 'faces' | 'view' | 'proposed'>;

/** Names of the parts of a filter in an address. */
const PARTS: { readonly [D in Dimension]: string } = {
  ...{ storeys: 'storey', systems: 'system', barriers: 'barrier', outcomes: 'outcome', checks: 'check' },
  ...{ ratings: 'rating', stopsAt: 'stops' },
};
const OUTCOMES: { readonly [O in Outcome]: string } = {
  ...{ failed: 'failed', cantTell: 'cant-tell', passed: 'passed', inapplicable: 'inapplicable', untested: 'untested' },
};

/** @returns without `#`; empty where all is as it is at first */
export function toFragment(state: Addressed, open: OpenReport): string {
  const said = new URLSearchParams();
  for (const dimension of DIMENSIONS)
    for (const value of state.filter[dimension]) said.append(PARTS[dimension], told(open, dimension, value));
  if (state.filter.text !== '') said.set('words', state.filter.text);
  const { barrier, side, penetration, finding } = state.selection;
  const { lookup } = open.building;
  const tag = penetration === null ? undefined : lookup.penetrations.get(penetration)?.tag;
  const key = finding === null ? undefined : findingsOf(open).byId.get(finding)?.key;
  if (tag !== undefined) said.set('at', tag);
  else if (barrier !== null) said.set('on', told(open, 'barriers', barrier));
  if (key !== undefined) said.set('finding', key);
  if (side === 'B') said.set('side', side);
  if (state.view !== FIRST_STATE.view) said.set('view', state.view);
  if (state.proposed) said.set('as', 'proposed');
  if (state.faces === 'table') said.set('show', 'table');
  if (state.sort.column !== FIRST_STATE.sort.column) said.set('sort', state.sort.column);
  if (state.sort.descending) said.set('order', 'descending');
  return said.toString();
}

/**
 * What is not said is as it is at first.
 *
 * @param fragment with or without `#`
 * @returns `notHere`: what is asked for and this report does not have, `storey Level 9`; everything else holds
 */
export function fromFragment(fragment: string, open: OpenReport): Addressed & Pick<ViewerState, 'notHere'> {
  const asked = new URLSearchParams(fragment.replace(/^#/, ''));
  const notHere: string[] = [];
  /** Text comes from whoever wrote the address: kept short. */
  const refuse = (name: string, value: string): void => {
    notHere.push(`${name} ${value.length > 40 ? `${value.slice(0, 39)}\u2026` : value}`.trim());
  };
  const one = <T extends string>(name: string, allowed: readonly T[], otherwise: T): T => {
    const value = asked.get(name);
    if (value === null) return otherwise;
    const found = allowed.find((each) => each === value);
    if (found === undefined) refuse(name, value);
    return found ?? otherwise;
  };
  const filter = filterOf(asked, open, refuse);
  const selection = selectionOf(asked, open, refuse);
  const sort: Sort = {
    column: one<SortColumn>('sort', SORT_COLUMNS, FIRST_STATE.sort.column),
    descending: one('order', ['ascending', 'descending'], 'ascending') === 'descending',
  };
  const state = {
    ...{ filter, sort, notHere },
    selection: { ...selection, side: one<Side>('side', ['A', 'B'], 'A') },
    faces: one('show', ['drawings', 'table'], FIRST_STATE.faces),
    view: one<ModelView>('view', MODEL_VIEWS, FIRST_STATE.view),
    proposed: one('as', ['modelled', 'proposed'], 'modelled') === 'proposed',
  };
  for (const name of new Set(asked.keys())) if (!KNOWN.has(name)) refuse(WORDS.filter.unreadable, name);
  return state;
}

const KNOWN: ReadonlySet<string> = new Set([
  ...Object.values(PARTS),
  ...['words', 'at', 'on', 'finding', 'side', 'view', 'as', 'show', 'sort', 'order'],
]);

type Refuse = (name: string, value: string) => void;

function filterOf(asked: URLSearchParams, open: OpenReport, refuse: Refuse): Filter {
  const lists = DIMENSIONS.map((dimension) => {
    const values = new Set<string>();
    for (const name of asked.getAll(PARTS[dimension])) {
      const value = meant(open, dimension, name);
      if (value === undefined) refuse(PARTS[dimension], name);
      else values.add(value);
    }
    return [dimension, [...values]] as const;
  });
  return { ...NO_FILTER, ...Object.fromEntries(lists), text: asked.get('words') ?? '' };
}

function selectionOf(asked: URLSearchParams, open: OpenReport, refuse: Refuse): Selection {
  const { at, on, finding: key } = Object.fromEntries(asked);
  const p = at === undefined ? undefined : penetrationsOf(open).get(at);
  if (at !== undefined && !p) refuse('penetration', at);
  const finding = key === undefined ? undefined : findingsOf(open).byKey.get(key);
  if (key !== undefined && !finding) refuse('finding', key);
  const barrier = on === undefined ? undefined : namesOf(open).barriers.value.get(on);
  if (on !== undefined && barrier === undefined) refuse('barrier', on);
  return {
    ...NOTHING_SELECTED,
    barrier: p ? barrierKey(p) : (barrier ?? null),
    penetration: p?.id ?? null,
    finding: finding?.id ?? null,
  };
}

/** A value as an address has it, and back; `''` is what has none. */
function told(open: OpenReport, dimension: Dimension, value: string): string {
  if (value === '') return '';
  if (dimension === 'storeys' || dimension === 'barriers') return namesOf(open)[dimension].name.get(value) ?? value;
  return dimension === 'outcomes' ? OUTCOMES[value as Outcome] : value;
}

function meant(open: OpenReport, dimension: Dimension, name: string): string | undefined {
  if (dimension === 'outcomes') return Object.entries(OUTCOMES).find(([, word]) => word === name)?.[0];
  if (dimension === 'stopsAt') return [...HOLD_LINE.map(({ id }) => id), 'handover'].find((stop) => stop === name);
  const isNamed = name !== '' && (dimension === 'storeys' || dimension === 'barriers');
  const value = isNamed ? namesOf(open)[dimension].value.get(name) : name;
  return value !== undefined && valuesOf(open)[dimension].has(value) ? value : undefined;
}

/** What rows, storeys and barriers of the report have. */
const valuesOf = keepLast((open: OpenReport): { readonly [D in Dimension]: ReadonlySet<string> } => {
  const values = Object.fromEntries(
    DIMENSIONS.map((dimension) => [dimension, new Set(open.rows.flatMap((row) => valueIn(row, dimension) ?? []))]),
  ) as { readonly [D in Dimension]: Set<string> };
  for (const { key } of open.building.storeys) values.storeys.add(key);
  for (const key of open.building.barriers.keys()) values.barriers.add(key);
  return values;
});

const penetrationsOf = keepLast(({ report }: OpenReport) => new Map(report.penetrations.map((p) => [p.tag, p])));
const findingsOf = keepLast(({ report }: OpenReport) => ({
  byId: new Map(report.findings.map((finding) => [finding.id, finding])),
  byKey: new Map(report.findings.map((finding) => [finding.key, finding])),
}));
