/** The words of a sheet: values as they are written, with their units, and where they come from. */
import { valueWords } from '../words/values.js';
import { type Form, formOf, labelOf, propertiesOf, spaced } from './document-form.js';
import { type PublishedValue, sourceWords } from './published-values.js';

/** @param unit of numbers that have none of their own */
export function flatWords(any: Form, value: unknown, unit?: string): string {
  const form = formOf(any, value);
  if (value === undefined || value === null) return '';
  if (typeof value === 'boolean') return valueWords(value);
  if (typeof value === 'number') return `${value}${unitWords(form.unit ?? unit)}`;
  // A word of ours is a name in the program's manner; every other text stands as it is written.
  if (typeof value === 'string') return form.enum || form.const !== undefined ? spaced(value) : value;
  if (Array.isArray(value)) {
    const items = value.map((one) => flatWords(form.items ?? {}, one, unit));
    return items.length === 0 ? 'none' : items.join(value.some((one) => typeof one === 'object') ? '; ' : ', ');
  }
  const fields = propertiesOf(form);
  return Object.entries(value)
    .map(([key, inner]) => {
      const words = flatWords(fields[key] ?? {}, inner, unit);
      return `${WORDLESS.includes(key) ? '' : `${labelOf(key, true)} `}${isPlainObject(inner) ? `(${words})` : words}`;
    })
    .join(', ');
}

/** Keys that say no more than their values do. */
const WORDLESS = ['value', 'number', 'text'];

const isPlainObject = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value);

const UNITS: { readonly [unit: string]: string } = { deg: '°', percent: ' %', degC: ' °C', ratio: '' };

const unitWords = (unit: string | undefined): string => (unit === undefined ? '' : (UNITS[unit] ?? ` ${unit}`));

/** The source that an object names for what stands in it; that of its basis too. */
export function ownSource(value: object, published: readonly PublishedValue[]): string | undefined {
  const { source, clause, basis } = value as { source?: unknown; clause?: unknown; basis?: unknown };
  if (typeof source === 'string') return typeof clause === 'string' ? `${source}, ${clause}` : source;
  if (typeof basis !== 'object' || basis === null) return undefined;
  const cited = 'published' in basis && published.find(({ id }) => id === basis.published);
  return cited
    ? [sourceWords(cited), cited.clause].filter((part) => part !== undefined).join(', ')
    : ownSource(basis, published);
}

/** What a published value says, where the field names one. */
export function citation(key: string, value: unknown, published: readonly PublishedValue[]): string | undefined {
  const id =
    key === 'published'
      ? value
      : typeof value === 'object' && value !== null && 'published' in value
        ? value.published
        : undefined;
  const cited = published.find((one) => one.id === id);
  if (!cited) return undefined;
  const { unit, ...said } = { unit: undefined, ...cited.value };
  return [flatWords({}, said, unit), cited.says, sourceWords(cited), cited.clause]
    .filter((part) => part !== undefined)
    .join('; ');
}
