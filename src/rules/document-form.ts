/** The forms of documents as what looks through them reads them: JSON Schema, with units. */
import * as z from 'zod';
import { units } from './document-parts.js';
import { schemaOf } from './load.js';

export interface Form {
  readonly type?: string;
  readonly description?: string;
  readonly default?: unknown;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly items?: Form;
  readonly anyOf?: readonly Form[];
  readonly oneOf?: readonly Form[];
  readonly properties?: { readonly [key: string]: Form };
  /** What a number is counted in; not of JSON Schema. */
  readonly unit?: string;
}

const FORMS = new Map<string, Form>();

/** @param kind of documents, such as `tested-system` */
export function documentForm(kind: string): Form {
  const form =
    FORMS.get(kind) ??
    (z.toJSONSchema(schemaOf(kind), {
      io: 'input',
      target: 'draft-2020-12',
      override: ({ zodSchema, jsonSchema }) => {
        Object.assign(jsonSchema, units.get(zodSchema));
      },
    }) as Form);
  FORMS.set(kind, form);
  return form;
}

/** What a union of forms is for this value: the one that has the value's type and all of its keys. */
export function formOf(form: Form, value: unknown): Form {
  const options = form.properties ? undefined : (form.anyOf ?? form.oneOf);
  if (!options) return form;
  const fits = options.find((option) => isOf(option, value)) ?? options[0] ?? {};
  return formOf(fits, value);
}

function isOf(option: Form, value: unknown): boolean {
  const inner = option.properties ? undefined : (option.anyOf ?? option.oneOf);
  if (inner) return inner.some((one) => isOf(one, value));
  if (Array.isArray(value)) return option.type === 'array';
  if (typeof value !== 'object' || value === null) {
    if (option.const !== undefined) return option.const === value;
    return (
      option.type === (value === null ? 'null' : typeof value) || (option.type === 'integer' && Number.isInteger(value))
    );
  }
  const own = option.properties;
  if (!own) return false;
  return Object.entries(value).every(
    ([key, inside]) => Object.hasOwn(own, key) && (own[key]!.const === undefined || own[key]!.const === inside),
  );
}

export const propertiesOf = (form: Form): { readonly [key: string]: Form } => form.properties ?? {};

/** A list whose items need no more than a row each. */
export const isTableOf = ({ items }: Form): boolean => items !== undefined && optionsOf(items).every(isRow);

const optionsOf = (form: Form): readonly Form[] =>
  form.properties ? [form] : ((form.anyOf ?? form.oneOf)?.flatMap(optionsOf) ?? [form]);

const isRow = (form: Form): boolean =>
  Object.values(propertiesOf(form)).every((inner) => optionsOf(inner).every(isCell));

/** A plain value, a list of such, or an object of such: `upTo: { width: 600, height: 300 }`. */
function isCell(form: Form): boolean {
  if (form.type === 'array') return optionsOf(form.items ?? {}).every(isPlain);
  return isPlain(form) || Object.values(propertiesOf(form)).every((one) => optionsOf(one).every(isPlain));
}

const isPlain = ({ type }: Form): boolean => type !== 'array' && type !== 'object';

/** `thicknessAtLeast` → `Thickness at least`. */
export function labelOf(key: string, isInner = false): string {
  const words = spaced(key).toLowerCase();
  return isInner ? words : words.charAt(0).toUpperCase() + words.slice(1);
}

export const spaced = (word: string): string =>
  word
    .replace(/([a-z0-9])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)
    .replace(/^cant\b/i, "can't");

const NAMES = ['name', 'title', 'part', 'service', 'construction', 'id'];

/** `Detail 2: Packed and sealed in masonry or concrete`. */
export function titleOf(list: string, index: number, item: object): string {
  const key = NAMES.find((one) => typeof Reflect.get(item, one) === 'string');
  const name = key === undefined ? '' : `: ${spaced(String(Reflect.get(item, key)))}`;
  return `${labelOf(list).replace(/s$/, '')} ${index + 1}${name}`;
}
