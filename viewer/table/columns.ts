/** The columns of the table: what each says of a row, what it is sorted by, which part of the filter belongs to it. */
import { html, type TemplateResult } from 'lit';
import type { Unit } from '../../src/model.js';
import type { ReportCheck } from '../../src/report/schema.js';
import { number, quantity } from '../format.js';
import { mark } from '../parts/mark.js';
import type { Dimension } from '../state/filter.js';
import type { Row } from '../state/rows.js';
import type { OpenReport, SortColumn } from '../state/state.js';
import { WORDS } from '../words.js';

export type ColumnId = keyof typeof WORDS.table.columns;

export interface Column {
  /** Also its place in the grid of a row. */
  readonly id: ColumnId;
  readonly sort: SortColumn | null;
  readonly part: Dimension | null;
  readonly cell: (row: Row, open: OpenReport) => TemplateResult | string;
  /** Whole, where a cell may be cut off. */
  readonly title?: (row: Row) => string;
}

/** As screen readers go through a row; two stand in one column, one over the other. */
export const COLUMNS: readonly Column[] = [
  {
    ...{ id: 'outcome', sort: 'seriousness', part: 'outcomes' },
    cell: ({ outcome, concession }) =>
      html`${mark(outcome, { conceded: concession === 'inForce' })}<span>${WORDS.outcomes[outcome]}</span>`,
  },
  {
    ...{ id: 'concession', sort: 'concession', part: null },
    cell: ({ concession }) => (concession === null ? '' : WORDS.table.concession[concession]),
  },
  { id: 'tag', sort: 'tag', part: null, cell: ({ tag }) => tag },
  { id: 'system', sort: 'system', part: 'systems', cell: ({ system }) => system, title: ({ system }) => system },
  {
    ...{ id: 'barrier', sort: 'barrier', part: 'barriers' },
    cell: ({ barrierName }) => barrierName,
    title: ({ barrierName }) => barrierName,
  },
  {
    ...{ id: 'storey', sort: 'storey', part: 'storeys' },
    cell: ({ storeyName }) => storeyName,
    title: ({ storeyName }) => storeyName,
  },
  {
    ...{ id: 'rating', sort: 'rating', part: 'ratings' },
    cell: ({ rating, barrierName }) => (rating === '' && barrierName !== '' ? WORDS.filter.none.ratings : rating),
    title: ({ rating }) => rating,
  },
  {
    ...{ id: 'stops', sort: 'stops', part: 'stopsAt' },
    cell: ({ stops }) => (stops === null ? '' : WORDS.stopsAt(stops)),
    title: ({ stops }) => (stops === null ? '' : WORDS.stopsAt(stops)),
  },
  {
    ...{ id: 'check', sort: 'check', part: 'checks' },
    cell: ({ checkTitle }) => checkTitle,
    title: ({ checkTitle }) => checkTitle,
  },
  { id: 'finding', sort: null, part: null, cell: saidOf, title: saidOf },
  { id: 'margin', sort: 'margin', part: null, cell: (row, open) => marginWords(row.margin, checkOf(row, open)?.unit) },
];

export const checkOf = (row: Row, { building }: OpenReport): ReportCheck | undefined =>
  building.lookup.checks.get(row.check);

/** The finding's sentence; of a penetration without one what was looked at. */
export function saidOf({ message, penetration }: Row): string {
  return message || (penetration ? WORDS.table.noFinding(WORDS.counts(penetration.outcomes)) : '');
}

/** `−2,700 mm`: beyond the limit; `+12 mm`: within it. */
export function marginWords(margin: number | null, unit: Unit | null | undefined): string {
  if (margin === null) return '';
  const sign = margin < 0 ? '\u2212' : '+';
  const size = Math.abs(margin);
  if (unit === 'deg') return `${sign}${number(size)}°`;
  return `${sign}${unit ? quantity(size, unit) : number(size)}`;
}
