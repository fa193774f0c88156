import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  DIMENSIONS,
  facetsOf,
  filteredPenetrations,
  filteredRows,
  shownBy,
  sortedRows,
  toggled,
  valueIn,
} from '../../viewer/state/filter.js';
import { openReport } from '../../viewer/state/open-report.js';
import type { Row } from '../../viewer/state/rows.js';
import { type Filter, NO_FILTER, type OpenReport, SORT_COLUMNS, type SortColumn } from '../../viewer/state/state.js';
import { sentenceOf } from '../../viewer/state/values.js';
import { demoReport } from '../report/demo-report.js';
import { filters } from './filters.js';
import { largeReport } from './large-report.js';

let open: OpenReport;
beforeAll(async () => {
  open = openReport(await demoReport());
});

/** As the sentence says it, one row and one part after the other. */
function isShown(row: Row, filter: Filter, except?: string): boolean {
  for (const dimension of DIMENSIONS) {
    const asked: readonly string[] = filter[dimension];
    if (dimension === except || asked.length === 0) continue;
    const value = valueIn(row, dimension);
    if (value === null || !asked.some((one) => one === value)) return false;
  }
  for (const word of filter.text.toLowerCase().split(' ')) if (!row.text.includes(word)) return false;
  return true;
}

describe('a filter', () => {
  test('lets everything through when nothing is asked: all findings, at all penetrations', () => {
    expect(shownBy(open, NO_FILTER)).toEqual({ findings: 134, penetrations: 110 });
    expect(filteredRows(open.rows, NO_FILTER)).toBe(open.rows);
  });

  test('asks for one of the values of each part, and for all words', () => {
    fc.assert(
      fc.property(filters(open), (filter) => {
        expect(filteredRows(open.rows, filter)).toEqual(open.rows.filter((row) => isShown(row, filter)));
      }),
      { numRuns: 200 },
    );
  });

  test('counts each value under all other parts', () => {
    fc.assert(
      fc.property(filters(open), (filter) => {
        const facets = facetsOf(open.rows, filter);
        for (const dimension of DIMENSIONS) {
          const plain = new Map<string, number>();
          for (const row of open.rows) {
            const value = valueIn(row, dimension);
            if (value === null || !isShown(row, filter, dimension)) continue;
            plain.set(value, (plain.get(value) ?? 0) + 1);
          }
          expect(facets[dimension]).toEqual(plain);
        }
      }),
      { numRuns: 100 },
    );
  });

  test('a count says how many rows are left when its value is taken', () => {
    const filter: Filter = { ...NO_FILTER, outcomes: ['failed'] };
    for (const [system, count] of facetsOf(open.rows, filter).systems) {
      const left = filteredRows(open.rows, { ...filter, ...toggled(filter, 'systems', system) });
      expect(left).toHaveLength(count);
    }
  });

  test('shows certain findings alone, and counts values among them', () => {
    const some = open.report.findings.filter(({ subject }) => subject.type === 'run').slice(0, 7);
    const filter = { ...NO_FILTER, keys: some.map(({ key }) => key) };
    expect(filteredRows(open.rows, filter).map(({ finding }) => finding)).toEqual(some);
    const counted = [...facetsOf(open.rows, filter).outcomes.values()];
    expect(counted.reduce((sum, count) => sum + count, 0)).toBe(7);
    expect(sentenceOf(open, filter, DIMENSIONS)).toEqual([{ of: 'keys', words: '7 findings that the trial moves' }]);
  });

  test('is said as a sentence', () => {
    const storey = open.building.storeys.find(({ name }) => name === 'Ground floor')!.key;
    const filter: Filter = {
      ...{ ...NO_FILTER, storeys: [storey], systems: ['KX', 'SA', 'BS'], outcomes: ['failed', 'cantTell'] },
      ...{ ratings: [''], stopsAt: ['closedUp', 'handover'], text: ' seal ' },
    };
    expect(sentenceOf(open, filter, DIMENSIONS).map(({ words }) => words)).toEqual([
      ...['Ground floor', 'KX or 2 more', "failed or can't tell", 'No rating stated'],
      ...['stops at Closed up or Handover', '\u201cseal\u201d'],
    ]);
  });

  test('finds what only a finding on a barrier or a duct speaks about', () => {
    for (const row of open.rows.filter(({ finding }) => finding)) {
      const filter = { ...NO_FILTER, text: row.text };
      const found = filteredPenetrations(open, filter);
      for (const [id, findings] of open.building.lookup.findings)
        if (findings.includes(row.finding!)) expect(found).toContain(id);
    }
  });

  test('a barrier that nothing passes is named with its storey', () => {
    const ofBarriers = open.rows.filter((row) => row.finding?.subject.type === 'barrier');
    expect(ofBarriers.length).toBeGreaterThan(0);
    for (const row of ofBarriers) {
      expect(row.barrierName).not.toBe('');
      expect(row.storeyName).not.toBe('');
    }
  });
});

describe('an order', () => {
  const inColumn: { readonly [C in SortColumn]: (row: Row) => string | number | null } = {
    ...{ seriousness: (row) => row.outcome, storey: (row) => row.storeyName, barrier: (row) => row.barrierName },
    ...{ tag: (row) => row.tag, system: (row) => row.system, check: (row) => row.checkTitle },
    ...{ margin: (row) => row.margin, rating: (row) => row.rating, stops: (row) => row.stops },
    concession: (row) => row.concession,
  };
  test.each(SORT_COLUMNS)(
    'by %s keeps what is alike as the report has it, and what has nothing there last',
    (column) => {
      const value = inColumn[column];
      for (const descending of [false, true]) {
        const sorted = sortedRows(open.rows, { column, descending });
        expect(sorted).toHaveLength(open.rows.length);
        const values = sorted.map(value);
        for (const one of new Set(values)) {
          // Together, and in the order of the report.
          const alike = open.rows.filter((row) => value(row) === one);
          expect(sorted.slice(values.indexOf(one), values.lastIndexOf(one) + 1)).toEqual(alike);
        }
        const empty = values.findIndex((one) => one === '' || one === null);
        if (empty >= 0) expect(new Set(values.slice(empty)).size).toBe(1);
      }
    },
  );

  test('names are counted as people do, storeys go by height, margins by how far off they are', () => {
    const names = (list: readonly Row[]): string[] => [...new Set(list.map((row) => row.barrierName).filter(Boolean))];
    const walls = ['W-10', 'W-2', 'W-1'].map((barrierName) => ({ ...open.rows[0]!, barrierName }));
    expect(names(sortedRows(walls, { column: 'barrier', descending: false }))).toEqual(['W-1', 'W-2', 'W-10']);
    const heights = sortedRows(open.rows, { column: 'storey', descending: true }).map((row) => row.elevation);
    const known = heights.filter(Number.isFinite);
    expect(heights.slice(0, known.length)).toEqual([...known].sort((a, b) => b - a));
    const margins = sortedRows(open.rows, { column: 'margin', descending: false }).map((row) => row.margin);
    expect(margins[0]).toBe(Math.min(...margins.filter((margin) => margin !== null)));
    expect(margins.at(-1)).toBeNull();
  });
});

test('20,000 findings: every count after a change of the filter, and every order', () => {
  const large = openReport(largeReport(open.report));
  expect(large.report.findings).toHaveLength(20_100);
  const [storey] = large.building.storeys;
  const filter: Filter = { ...NO_FILTER, storeys: [storey!.key], outcomes: ['failed'], text: 'the' };
  const facets = facetsOf(large.rows, filter);
  expect(facets.outcomes.get('failed')).toBe(filteredRows(large.rows, filter).length);
  for (const column of SORT_COLUMNS)
    expect(sortedRows(large.rows, { column, descending: true })).toHaveLength(large.rows.length);
});
