/** What a filter lets through, how many of each value there are, and in which order. */
import { compareNumbers, compareTexts, fileUnder } from '../../src/collect.js';
import { HOLD_LINE } from '../../src/report/hold-points.js';
import { seriousness } from './building.js';
import { keepLast } from './keep-last.js';
import type { Row, StopsAt } from './rows.js';
import { type Filter, NO_FILTER, type OpenReport, type Sort, type SortColumn } from './state.js';

/** The parts of a filter that are lists of values to choose from. */
export type Dimension = Exclude<keyof Filter, 'text' | 'keys'>;
export type FilterPart = keyof Filter;

/** What a row has of each; null: nothing that could be asked for. */
const VALUE: { readonly [D in Dimension]: (row: Row) => string | null } = {
  storeys: (row) => row.storey,
  systems: (row) => row.system,
  barriers: (row) => row.barrier,
  outcomes: (row) => row.outcome,
  checks: (row) => row.check,
  ratings: (row) => row.rating,
  stopsAt: (row) => row.stops,
};
/** In the order of the sentence. */
export const DIMENSIONS = Object.keys(VALUE) as readonly Dimension[];

export const valueIn = (row: Row, dimension: Dimension): string | null => VALUE[dimension](row);

export const isNoFilter = (filter: Filter): boolean =>
  wordsOf(filter).length === 0 &&
  filter.keys.length === 0 &&
  DIMENSIONS.every((dimension) => filter[dimension].length === 0);

export const wordsOf = ({ text }: Pick<Filter, 'text'>): string[] => text.toLowerCase().split(/\s+/).filter(Boolean);

/** The filter with a value of one part taken in or out. */
export function toggled(filter: Filter, dimension: Dimension, value: string): Partial<Filter> {
  const list: readonly string[] = filter[dimension];
  return { [dimension]: list.includes(value) ? list.filter((one) => one !== value) : [...list, value] };
}

/** The values of one part as numbers, so that 20,000 rows are counted without looking a text up. */
interface Coded {
  /** By their numbers. */
  readonly values: readonly (string | null)[];
  /** Number of the value of each row. */
  readonly codes: Uint32Array;
}

/** Made once for a report. */
const coded = keepLast((rows: readonly Row[]): { readonly [D in Dimension]: Coded } => {
  const parts = DIMENSIONS.map((dimension) => {
    const numbers = new Map<string | null, number>();
    const codes = Uint32Array.from(rows, (row) => {
      const value = VALUE[dimension](row);
      const known = numbers.get(value);
      if (known !== undefined) return known;
      numbers.set(value, numbers.size);
      return numbers.size - 1;
    });
    return [dimension, { values: [...numbers.keys()], codes }] as const;
  });
  return Object.fromEntries(parts) as { readonly [D in Dimension]: Coded };
});

interface Asked {
  readonly dimension: Dimension;
  readonly codes: Uint32Array;
  /** By the number of a value whether it is asked for. */
  readonly isAsked: readonly boolean[];
}

function askedBy(rows: readonly Row[], filter: Filter): readonly Asked[] {
  const all = coded(rows);
  return DIMENSIONS.filter((dimension) => filter[dimension].length > 0).map((dimension) => {
    const { values, codes } = all[dimension];
    const asked = new Set<string | null>(filter[dimension]);
    return { dimension, codes, isAsked: values.map((value) => asked.has(value)) };
  });
}

/** What is asked beside lists of values: words, and certain findings. */
function restOf(filter: Filter): (row: Row) => boolean {
  const words = wordsOf(filter);
  const keys = new Set(filter.keys);
  return ({ text, finding }) =>
    words.every((word) => text.includes(word)) && (keys.size === 0 || (finding !== null && keys.has(finding.key)));
}

export const filteredRows = keepLast((rows: readonly Row[], filter: Filter): readonly Row[] => {
  if (isNoFilter(filter)) return rows;
  const asked = askedBy(rows, filter);
  const hasRest = restOf(filter);
  return rows.filter((row, i) => asked.every(({ codes, isAsked }) => isAsked[codes[i]!]) && hasRest(row));
});

/** How many rows each value of each part would leave under all other parts of the filter. */
export type Facets = { readonly [D in Dimension]: ReadonlyMap<string, number> };

export const facetsOf = keepLast((rows: readonly Row[], filter: Filter): Facets => {
  const all = coded(rows);
  const asked = askedBy(rows, filter);
  const hasRest = restOf(filter);
  const counted = DIMENSIONS.map((dimension) => {
    const { values, codes } = all[dimension];
    return { dimension, values, codes, counts: new Uint32Array(values.length) };
  });
  for (const [i, row] of rows.entries()) {
    let missed: Dimension | undefined;
    let misses = 0;
    for (const { dimension, codes, isAsked } of asked) {
      if (isAsked[codes[i]!]) continue;
      missed = dimension;
      misses++;
    }
    // What misses two parts is counted nowhere, what misses one only there.
    if (misses > 1 || !hasRest(row)) continue;
    for (const { dimension, codes, counts } of counted) if (misses === 0 || dimension === missed) counts[codes[i]!]!++;
  }
  const maps = counted.map(({ dimension, values, counts }) => {
    const some = values.map((value, n) => [value, counts[n]!] as const).filter(isCount);
    return [dimension, new Map(some)] as const;
  });
  return Object.fromEntries(maps) as { readonly [D in Dimension]: Map<string, number> };
});

const isCount = (pair: readonly [string | null, number]): pair is readonly [string, number] =>
  pair[0] !== null && pair[1] > 0;

/** Ids of the penetrations that each finding speaks about, made once for a report. */
const spokenAbout = keepLast(({ building: { lookup } }: OpenReport): ReadonlyMap<string, readonly string[]> => {
  const index = new Map<string, string[]>();
  for (const [penetration, findings] of lookup.findings)
    for (const { id } of findings) fileUnder(index, id, penetration);
  return index;
});

/** Ids of the penetrations that something speaks about which is let through. */
export const filteredPenetrations = keepLast((open: OpenReport, filter: Filter): ReadonlySet<string> => {
  const index = spokenAbout(open);
  const found = new Set<string>();
  for (const { penetration, finding } of filteredRows(open.rows, filter)) {
    if (penetration) found.add(penetration.id);
    for (const id of (finding && index.get(finding.id)) ?? []) found.add(id);
  }
  return found;
});

/** What the sentence counts; a penetration without a finding is no finding. */
export interface Shown {
  readonly findings: number;
  readonly penetrations: number;
}
export const shownBy = (open: OpenReport, filter: Filter): Shown => ({
  findings: filteredRows(open.rows, filter).filter(({ finding }) => finding).length,
  penetrations: filteredPenetrations(open, filter).size,
});
export const allOf = keepLast(
  (open: OpenReport): Shown => ({
    findings: open.report.findings.length,
    penetrations: open.report.penetrations.length,
  }),
);

// -------------------------------------------------------------------------------------------------------------- order

const STOPS: readonly StopsAt[] = [...HOLD_LINE.map(({ id }) => id), 'handover'];

/** By what a row has in a column; texts are compared by {@link ranks}. */
const KEY: { readonly [C in SortColumn]: (row: Row) => number | string } = {
  seriousness: (row) => seriousness(row.outcome),
  storey: (row) => (row.storey === '' ? '' : row.elevation),
  barrier: (row) => row.barrierName,
  tag: (row) => row.tag,
  system: (row) => row.system,
  check: (row) => row.checkTitle,
  // What is furthest off first.
  margin: (row) => row.margin ?? '',
  rating: (row) => row.rating,
  stops: (row) => (row.stops === null ? '' : STOPS.indexOf(row.stops)),
  concession: (row) => (row.concession === null ? '' : Number(row.concession === 'lapsed')),
};

/** As people count: `W-2` before `W-10`. One locale, so that the order is the same on every machine. */
const { compare: asCounted } = new Intl.Collator('en', { numeric: true });

/** Stable: within what is alike the order of the report stays. What has nothing in the column comes last, either way. */
export const sortedRows = keepLast((rows: readonly Row[], { column, descending }: Sort): readonly Row[] => {
  const keys = rows.map(KEY[column]);
  const rank = ranks(keys);
  const turn = descending ? -1 : 1;
  // Storeys of several buildings may lie at one height.
  const name = column === 'storey' ? (at: number) => rows[at]!.storeyName : () => '';
  const order = keys.map((key, at) => ({ at, rank: key === '' ? Infinity : turn * rank(key), name: name(at) }));
  return order
    .sort((a, b) => compareNumbers(a.rank, b.rank) || compareTexts(a.name, b.name) || a.at - b.at)
    .map(({ at }) => rows[at]!);
});

/** Texts repeat: they are compared once for each of them, not for each row. */
function ranks(keys: readonly (number | string)[]): (key: number | string) => number {
  const texts = [...new Set(keys)].filter((key) => typeof key === 'string');
  const rank = new Map(
    texts.sort((a, b) => asCounted(a, b) || compareTexts(a, b)).map((text, i) => [text, i] as const),
  );
  return (key) => (typeof key === 'number' ? key : rank.get(key)!);
}

/** Rows as they are shown under a state. */
export const shownRows = (open: OpenReport, { filter, sort }: { readonly filter: Filter; readonly sort: Sort }) =>
  sortedRows(filteredRows(open.rows, filter), sort);

/** Takes a part out. */
export const without = (part: FilterPart): Partial<Filter> => ({ [part]: NO_FILTER[part] });
