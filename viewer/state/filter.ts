/** What a filter lets through, and in which order. */
import { compareNumbers, compareTexts } from '../../src/collect.js';
import { barrierKey, seriousness } from './building.js';
import type { Row } from './rows.js';
import type { Filter, OpenReport, Sort, SortColumn } from './state.js';

const has = <T>(list: readonly T[], value: T): boolean => list.length === 0 || list.includes(value);

export function passes(row: Row, filter: Filter, words: readonly string[] = wordsOf(filter)): boolean {
  return (
    has(filter.outcomes, row.outcome) &&
    has(filter.storeys, row.storey) &&
    has(filter.systems, row.system) &&
    has(filter.barriers, row.barrier) &&
    has(filter.checks, row.check) &&
    has(filter.ratings, row.rating) &&
    (filter.stopsAt.length === 0 || (row.stops !== null && filter.stopsAt.includes(row.stops))) &&
    words.every((word) => row.text.includes(word))
  );
}

export const wordsOf = ({ text }: Pick<Filter, 'text'>): string[] => text.toLowerCase().split(/\s+/).filter(Boolean);

export function filteredRows(rows: readonly Row[], filter: Filter): Row[] {
  const words = wordsOf(filter);
  return rows.filter((row) => passes(row, filter, words));
}

/** Ids of penetrations of which a row is let through. */
export function filteredPenetrations({ rows, building }: OpenReport, filter: Filter): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { penetration, finding } of filteredRows(rows, filter)) {
    if (penetration) found.add(penetration.id);
    // A finding on a barrier or a duct speaks about every penetration of it.
    if (finding && finding.subject.type !== 'penetration' && penetration)
      for (const p of building.barriers.get(barrierKey(penetration))?.penetrations ?? [])
        if (building.lookup.findings.get(p.id)?.includes(finding)) found.add(p.id);
  }
  return found;
}

type Compare = (a: Row, b: Row) => number;
const COMPARE: { readonly [C in SortColumn]: Compare } = {
  seriousness: (a, b) => seriousness(a.outcome) - seriousness(b.outcome),
  storey: (a, b) => compareNumbers(a.elevation, b.elevation) || compareTexts(a.storeyName, b.storeyName),
  barrier: (a, b) => compareTexts(a.barrierName, b.barrierName),
  tag: (a, b) => compareTexts(a.tag, b.tag),
  system: (a, b) => compareTexts(a.system, b.system),
  check: (a, b) => compareTexts(a.checkTitle, b.checkTitle),
  // What is furthest off first; what has no margin last, either way.
  margin: (a, b) => compareNumbers(a.margin ?? Infinity, b.margin ?? Infinity),
};

/** Stable: within what is alike the order of the report stays. */
export function sortedRows(rows: readonly Row[], { column, descending }: Sort): Row[] {
  const compare = COMPARE[column];
  return [...rows].sort(descending ? (a, b) => compare(b, a) : compare);
}
