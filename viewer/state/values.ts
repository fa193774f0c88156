/** How the values of a filter are called, on screen and in an address. */
import { compareNumbers, compareTexts, fileUnder } from '../../src/collect.js';
import type { Outcome } from '../../src/model.js';
import { HOLD_LINE } from '../../src/report/hold-points.js';
import { oneLine } from '../../src/words/text.js';
import { WORDS } from '../words.js';
import { seriousness } from './building.js';
import { type Dimension, type FilterPart, facetsOf } from './filter.js';
import { keepLast } from './keep-last.js';
import type { StopsAt } from './rows.js';
import type { Filter, OpenReport } from './state.js';

/** As people read it; `''` where the value has no name of its own, or is not in the report. */
function nameOf({ building }: OpenReport, dimension: Dimension, value: string): string {
  switch (dimension) {
    case 'storeys':
      return oneLine(building.storeys.find(({ key }) => key === value)?.name ?? '');
    case 'barriers':
      return oneLine(building.barriers.get(value)?.name ?? '');
    case 'checks':
      return building.lookup.checks.get(value)?.title ?? value;
    case 'outcomes':
      return WORDS.outcomes[value as Outcome];
    case 'stopsAt':
      return WORDS.stopsAt(value as StopsAt);
    case 'systems':
    case 'ratings':
      return value;
  }
}

export const labelOf = (open: OpenReport, dimension: Dimension, value: string): string =>
  nameOf(open, dimension, value) || WORDS.filter.none[dimension] || value;

/** Names that stand for one value each, for an address: what shares its name, or has none, says its GlobalId as well. */
export interface Names {
  readonly name: ReadonlyMap<string, string>;
  readonly value: ReadonlyMap<string, string>;
}

export const namesOf = keepLast((open: OpenReport): { readonly storeys: Names; readonly barriers: Names } => {
  const { building } = open;
  return {
    storeys: unique(building.storeys.map(({ key }) => ({ key, globalId: key, name: nameOf(open, 'storeys', key) }))),
    barriers: unique(
      [...building.barriers.values()].map(({ key, barrier }) => ({
        ...{ key, globalId: barrier.globalId, name: nameOf(open, 'barriers', key) },
      })),
    ),
  };
});

interface Named {
  readonly key: string;
  readonly globalId: string;
  readonly name: string;
}

function unique(list: readonly Named[]): Names {
  const named = new Map<string, Named[]>();
  for (const one of list) fileUnder(named, one.name, one);
  const pairs = list.map((one) => {
    const alone = one.name !== '' && named.get(one.name)!.length === 1;
    // A GlobalId may repeat between models; the key, with the model in it, never does.
    const twins = named.get(one.name)!.filter(({ globalId }) => globalId === one.globalId).length;
    const told = `${one.name} (${twins > 1 ? one.key : one.globalId})`.trim();
    if (alone) return [one.key, one.name] as const;
    return [one.key, named.has(told) ? one.key : told] as const;
  });
  return { name: new Map(pairs), value: new Map(pairs.map(([key, name]) => [name, key])) };
}

export interface Choice {
  readonly value: string;
  readonly label: string;
  /** Rows that it would leave under the other parts of the filter. */
  readonly count: number;
  readonly chosen: boolean;
}

/** What a part may be narrowed to: all that would leave something, and what is chosen already. */
export function choicesOf(open: OpenReport, filter: Filter, dimension: Dimension): readonly Choice[] {
  const counts = facetsOf(open.rows, filter)[dimension];
  const chosen: readonly string[] = filter[dimension];
  const order = orderOf(open, dimension);
  return [...new Set([...counts.keys(), ...chosen])]
    .map((value) => ({
      ...{ value, label: labelOf(open, dimension, value), count: counts.get(value) ?? 0 },
      chosen: chosen.includes(value),
    }))
    .sort((a, b) => compareNumbers(order(a.value), order(b.value)) || byLabel(a.label, b.label));
}

const { compare: asCounted } = new Intl.Collator('en', { numeric: true });
const byLabel = (a: string, b: string): number => asCounted(a, b) || compareTexts(a, b);

/** What has an order of its own keeps it; all else goes by its name, and what has none comes last. */
function orderOf({ building }: OpenReport, dimension: Dimension): (value: string) => number {
  if (dimension === 'outcomes') return (value) => seriousness(value as Outcome);
  if (dimension === 'stopsAt')
    return (value) => (value === 'handover' ? HOLD_LINE.length : HOLD_LINE.findIndex(({ id }) => id === value));
  if (dimension === 'storeys') {
    const at = new Map(building.storeys.map(({ key }, i) => [key, i]));
    return (value) => (value === '' ? Infinity : (at.get(value) ?? Infinity));
  }
  return (value) => Number(value === '');
}

/** The parts of the sentence that says what is shown. */
export interface Part {
  readonly of: FilterPart;
  readonly words: string;
}

export function sentenceOf(open: OpenReport, filter: Filter, dimensions: readonly Dimension[]): readonly Part[] {
  const { filter: words } = WORDS;
  const parts = dimensions.flatMap((dimension): readonly Part[] => {
    const values: readonly string[] = filter[dimension];
    if (values.length === 0) return [];
    const said = words.either(values.map((value) => inText(open, dimension, value)));
    return [{ of: dimension, words: dimension === 'stopsAt' ? words.stops(said) : said }];
  });
  const text = filter.text.trim();
  return [
    ...parts,
    ...(filter.keys.length > 0 ? [{ of: 'keys' as const, words: words.moved(filter.keys.length) }] : []),
    ...(text === '' ? [] : [{ of: 'text' as const, words: words.said(text) }]),
  ];
}

function inText(open: OpenReport, dimension: Dimension, value: string): string {
  if (dimension === 'outcomes') return WORDS.outcomeInText(value as Outcome);
  const label = labelOf(open, dimension, value);
  return dimension === 'ratings' && value !== '' ? WORDS.filter.rated(label) : label;
}
