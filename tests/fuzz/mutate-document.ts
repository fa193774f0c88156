/** Changes rule documents and briefs at random, from a seed: their keys, values, types and expressions, and their text. */
import { parse, stringify } from 'yaml';

export type Random = () => number;

/** mulberry32: the same numbers for the same seed, from 0 to 1. */
export function randomFrom(seed: number): Random {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
interface Slot {
  readonly parent: Json[] | { [key: string]: Json };
  readonly key: number | string;
}

const STATUSES = ['tested', 'demonstration', 'unverified', 'system'];
const TEXTS = ['', ' ', 'no', 'on', '~', '2020-01-01', 'constructor', '__proto__', 'toString', '{measured}', '{x', 'é'];
const LONG = ['x'.repeat(2000), '('.repeat(300), '[]'.repeat(200)];
const NUMBERS = [0, -1, 1, 0.5, 1e-9, 1e6, 1e21, -1e308, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53];
const VALUES: readonly Json[] = [...STATUSES, ...TEXTS, ...LONG, ...NUMBERS, true, false, null, [], {}, [[]], [null]];
const KEYS = ['constructor', '__proto__', 'toString', 'hasOwnProperty', '<<', '', '0', 'id', 'value', 'cel', 'bySize'];

/** @param others texts whose parts may be put into this one */
export function mutated(text: string, others: readonly string[], random: Random): string {
  const value = smaller(parse(text) as Json, random);
  const donor = parse(pick(random, others)) as Json;
  const times = 1 + Math.floor(random() ** 2 * 4);
  for (let i = 0; i < times; i++) (random() < 0.6 ? nudge : change)(value, donor, random);
  const written = stringify(value, { aliasDuplicateObjects: random() < 0.1 });
  return random() < 0.15 ? changedText(written, random) : written;
}

/** Of many checks a few, so that documents load quickly. */
function smaller(value: Json, random: Random): Json {
  if (!isMap(value) || !Array.isArray(value.checks)) return value;
  const from = Math.floor(random() * value.checks.length);
  return { ...value, checks: value.checks.slice(from, from + 1 + Math.floor(random() * 3)) };
}

/** So that it may still be a document: another number, another expression, what stands under the same key elsewhere. */
function nudge(value: Json, donor: Json, random: Random): void {
  const slots = slotsOf(value).filter(({ parent, key }) => typeof get(parent, key) !== 'object');
  if (slots.length === 0) return;
  const deciding = slots.filter(({ key }) => DECIDING.includes(String(key)));
  // What decides about proof is changed more often than its share.
  const { parent, key } = random() < 0.3 && deciding.length > 0 ? pick(random, deciding) : pick(random, slots);
  const old = get(parent, key);
  const alike = [...slotsOf(donor), ...slots].filter((slot) => slot.key === key);
  if (typeof old === 'boolean') set(parent, key, !old);
  else if (typeof old === 'number') set(parent, key, pick(random, [old + 1, old * 0.9, old * 10, 0, 2 * old, -old]));
  else if (key === 'status') set(parent, key, pick(random, STATUSES));
  else if (typeof old === 'string' && EXPRESSIONS.includes(String(key)))
    set(parent, key, changedExpression(old, random));
  else if (alike.length > 0) set(parent, key, copyOf(pick(random, alike)));
}

const DECIDING = ['status', 'demonstration', 'about', 'measure', 'cel', 'where', 'atLeast', 'atMost', 'equals'];
const EXPRESSIONS = ['measure', 'cel', 'where', 'when'];

function change(value: Json, donor: Json, random: Random): void {
  const slots = slotsOf(value);
  if (slots.length === 0) return;
  const { parent, key } = pick(random, slots);
  const old = get(parent, key);
  const donated = slotsOf(donor);
  const ways: (() => void)[] = [
    () => set(parent, key, key === 'status' ? pick(random, STATUSES) : pick(random, VALUES)),
    () => remove(parent, key),
    () => set(parent, key, typeof old === 'number' ? old * pick(random, [-1, 0, 0.1, 10, 1000]) : [old]),
    () => set(parent, key, typeof old === 'string' ? changedExpression(old, random) : { value: old }),
    () => set(parent, key, donated.length > 0 ? copyOf(pick(random, donated)) : null),
    () => set(parent, key, copyOf(pick(random, slots))),
    () => {
      if (Array.isArray(parent)) parent.splice(Number(key), 0, structuredClone(old));
      else rename(parent, String(key), pick(random, [...KEYS, `${String(pick(random, slots).key)}`]));
    },
    () => {
      if (Array.isArray(parent)) parent.reverse();
      else swap(parent, String(key), pick(random, Object.keys(parent)));
    },
  ];
  pick(random, ways)();
}

const TOKEN = /[A-Za-z_][\w.]*|\d+(?:\.\d+)?|"[^"]*"|[^\s\w]+|\s+/g;
const TOKENS = [
  ...['<', '<=', '>', '>=', '==', '!=', '&&', '||', '!', '-', '+', '*', '/', '?', ':', '(', ')', '[', ']', 'in'],
  ...['true', 'false', 'null', '0', '0.0', '1', '1e9', '"wall"', '"', 'size(', 'has(', '.all(a, ', '.exists(a, a == '],
  ...[
    '.matches("(a+)+$")',
    '.map(a, a)',
    'penetration.others',
    'barrier.rated',
    'barrier.thickness',
    'penetration.skew',
  ],
  ...['system.gapAtMost', 'system.status', 'system.id', 'duct.width', 'gap.value', '__proto__', '.constructor', 'x'],
];

function changedExpression(text: string, random: Random): string {
  const tokens = text.match(TOKEN) ?? [];
  const at = Math.floor(random() * (tokens.length + 1));
  const removed = Math.floor(random() * 2);
  return tokens.toSpliced(at, removed, ...(random() < 0.8 ? [pick(random, TOKENS)] : [])).join('');
}

const MARKS = [
  ...[
    '&a ',
    '*a',
    '<<: *a',
    '!!str ',
    '!!binary ',
    '---\n',
    '...\n',
    '%YAML 1.1\n---\n',
    '\t',
    '{',
    '}',
    '[',
    ']',
    '"',
  ],
  ...["'", '|\n', '>\n', ': ', '- ', '? ', '#', ',', '\n', '\r', '\0', '\ufeff', '\ufffd', '\u001b[31m', '0x10', '010'],
];

function changedText(text: string, random: Random): string {
  const lines = text.split('\n');
  const at = Math.floor(random() * lines.length);
  const line = lines[at]!;
  const within = Math.floor(random() * (line.length + 1));
  const ways = [
    () => lines.toSpliced(at, 1),
    () => lines.toSpliced(at, 0, line),
    () => lines.with(at, ` ${line}`),
    () => lines.with(at, line.slice(0, within) + pick(random, MARKS) + line.slice(within)),
    () => lines.with(at, line.slice(0, within) + line.slice(within + 1 + Math.floor(random() * 5))),
    () => lines.slice(0, at),
  ];
  return pick(random, ways)().join('\n');
}

const isMap = (value: Json): value is { [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Every place in the document that holds a value. */
function slotsOf(value: Json): Slot[] {
  if (typeof value !== 'object' || value === null) return [];
  const keys: readonly (number | string)[] = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return keys.flatMap((key) => [{ parent: value, key }, ...slotsOf(get(value, key))]);
}

const get = (parent: Slot['parent'], key: Slot['key']): Json => Reflect.get(parent, key) as Json;
const copyOf = ({ parent, key }: Slot): Json => structuredClone(get(parent, key));

/** As a key of its own, whatever it is called. */
function set(parent: Slot['parent'], key: Slot['key'], value: Json): void {
  Object.defineProperty(parent, key, { value, enumerable: true, writable: true, configurable: true });
}

function remove(parent: Slot['parent'], key: Slot['key']): void {
  if (Array.isArray(parent)) parent.splice(Number(key), 1);
  else Reflect.deleteProperty(parent, key);
}

function rename(parent: { [key: string]: Json }, key: string, to: string): void {
  const value = get(parent, key);
  remove(parent, key);
  set(parent, to, value);
}

function swap(parent: { [key: string]: Json }, one: string, other: string): void {
  const [a, b] = [get(parent, one), get(parent, other)];
  set(parent, one, b);
  set(parent, other, a);
}
