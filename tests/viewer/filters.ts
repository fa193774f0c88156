/** Filters that some rows of a report pass, for properties. */
import fc from 'fast-check';
import { DIMENSIONS, valueIn } from '../../viewer/state/filter.js';
import { type Filter, NO_FILTER, type OpenReport } from '../../viewer/state/state.js';

export function filters({ rows }: OpenReport): fc.Arbitrary<Filter> {
  const lists = DIMENSIONS.map((dimension) => {
    const values = [...new Set(rows.flatMap((row) => valueIn(row, dimension) ?? []))];
    return [dimension, fc.oneof(fc.constant([]), fc.subarray(values), fc.subarray(values, { maxLength: 3 }))] as const;
  });
  const words = [...new Set(rows.flatMap(({ text }) => text.split(' ')))];
  const text = fc.oneof(
    { weight: 3, arbitrary: fc.constant('') },
    fc.subarray(words, { maxLength: 2 }).map((some) => some.join(' ')),
  );
  return fc.record({ ...Object.fromEntries(lists), text }).map((some): Filter => ({ ...NO_FILTER, ...some }));
}
