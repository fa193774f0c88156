/** What can happen to a file: blind mutations, of which nobody knows what they do, and aimed ones, of which we do. */
import type { Random } from './random.js';
import { type Instance, StepText } from './step-text.js';

/** What an aimed mutation took away, and from which products (their GlobalIds). */
export interface Taken {
  readonly what: 'rating' | 'opening' | 'room in the opening' | 'construction' | 'damper' | 'geometry';
  readonly from: readonly string[];
}

export interface Mutant {
  readonly what: string;
  readonly bytes: Uint8Array;
  readonly taken?: Taken;
}

const encoder = new TextEncoder();

type Blind = readonly [what: string, change: (text: string, random: Random) => Uint8Array];

const onText =
  (change: (text: string, random: Random) => string): Blind[1] =>
  (text, random) =>
    encoder.encode(change(text, random));

const onLines = (change: (lines: string[], random: Random) => void): Blind[1] =>
  onText((text, random) => {
    const lines = text.split('\n');
    change(lines, random);
    return lines.join('\n');
  });

/** One match of a pattern in the data, or the text as it is where there is none. */
const onMatch = (pattern: RegExp, change: (match: string, random: Random, text: string) => string): Blind[1] =>
  onText((text, random) => {
    const start = Math.max(0, text.indexOf('DATA;'));
    const found = [...text.slice(start).matchAll(pattern)];
    if (found.length === 0) return text;
    const match = random.pick(found);
    const at = start + match.index;
    return text.slice(0, at) + change(match[0], random, text) + text.slice(at + match[0].length);
  });

const NUMBERS = ['0.', '-1.', '1.E9', '1.E-9', '1.E999', 'NaN', '-0.', '1e400', '4294967296', "'1'", '$', '*', ''];
const TOKENS = [
  '$',
  '*',
  '()',
  "''",
  '.T.',
  '.NOTDEFINED.',
  '#0',
  '#999999',
  '1.',
  "'x'",
  ',',
  '(',
  ')',
  ';',
  '/*',
  '"0"',
];

const BLIND: readonly Blind[] = [
  [
    'bytes',
    (text, random) => {
      const bytes = encoder.encode(text);
      for (let n = 1 + random.below(8); n > 0; n--) bytes[random.below(bytes.length)] = random.below(256);
      return bytes;
    },
  ],
  [
    'bytes cut out',
    (text, random) => {
      const bytes = encoder.encode(text);
      const [from, length] = [random.below(bytes.length), 1 + random.below(random.pick([8, 200, 5000]))];
      return Uint8Array.from([...bytes.subarray(0, from), ...bytes.subarray(from + length)]);
    },
  ],
  ['token', onMatch(/[^,()\n]+(?=[,)])/g, (_, random) => random.pick(TOKENS))],
  ['entity', onMatch(/(?<==)IFC\w+/g, (_, random, text) => random.pick([...text.matchAll(/(?<==)IFC\w+/g)])[0])],
  ['reference', onMatch(/(?<=[,(])#\d+/g, (_, random, text) => random.pick(text.match(/^#\d+/gm) ?? ['#1']))],
  [
    'two references',
    (text, random) => {
      const change = BLIND.find(([what]) => what === 'reference')![1];
      return change(new TextDecoder().decode(change(text, random)), random);
    },
  ],
  [
    'number',
    onMatch(/(?<=[,(])-?\d+\.\d*(?:E[-+]?\d+)?/g, (match, random) =>
      random.next() < 0.4
        ? random.pick(NUMBERS)
        : written(Number(match) * random.pick([-1, 0.5, 0.9, 1.02, 1.2, 2, 10, 1000])),
    ),
  ],
  [
    'number moved',
    onMatch(/(?<=[,(])-?\d+\.\d*/g, (match, random) =>
      written(Number(match) + (random.next() - 0.5) * random.pick([1, 50, 500, 5000])),
    ),
  ],
  [
    'text',
    onMatch(/'(?:[^'\n]|'')*'/g, (match, random) => {
      const at = 1 + random.below(match.length - 1);
      return (
        match.slice(0, at) +
        random.pick(['', "''", '\\X2\\00', '\\', '-', '120', '/', 'x', '\\S\\']) +
        match.slice(at + random.below(2))
      );
    }),
  ],
  ['enumeration', onMatch(/\.[A-Z_]+\./g, (_, random, text) => random.pick([...text.matchAll(/\.[A-Z_]+\./g)])[0])],
  ['line deleted', onLines((lines, random) => void lines.splice(dataLine(lines, random), 1))],
  ['lines deleted', onLines((lines, random) => void lines.splice(dataLine(lines, random), 1 + random.below(20)))],
  [
    'line twice',
    onLines((lines, random) => void lines.splice(dataLine(lines, random), 0, lines[dataLine(lines, random)]!)),
  ],
  [
    'lines swapped',
    onLines((lines, random) => {
      const [a, b] = [dataLine(lines, random), dataLine(lines, random)];
      [lines[a], lines[b]] = [lines[b]!, lines[a]!];
    }),
  ],
  [
    'ids swapped',
    onLines((lines, random) => {
      const [a, b] = [dataLine(lines, random), dataLine(lines, random)];
      const [one, other] = [lines[a]!.split('='), lines[b]!.split('=')];
      [lines[a], lines[b]] = [[other[0], ...one.slice(1)].join('='), [one[0], ...other.slice(1)].join('=')];
    }),
  ],
  [
    'data cut off',
    onText((text, random) => {
      const lines = text.split('\n');
      return [...lines.slice(0, dataLine(lines, random)), 'ENDSEC;', 'END-ISO-10303-21;', ''].join('\n');
    }),
  ],
];

const written = (value: number): string => {
  const text = String(Math.round(value * 1e6) / 1e6);
  return text.includes('e') ? text.toUpperCase() : text.includes('.') ? text : `${text}.`;
};

function dataLine(lines: readonly string[], random: Random): number {
  const start = lines.indexOf('DATA;') + 1;
  return start + random.below(Math.max(1, lines.length - start - 3));
}

interface Aim {
  readonly what: string;
  readonly taken: Taken['what'];
  /** Lines of the text that may be changed, with the GlobalIds of the products that lose by it. */
  readonly targets: (step: StepText) => readonly { readonly line: number; readonly from: readonly string[] }[];
  readonly change: (line: string) => string;
}

const globalIdOf = (instance: Instance | undefined): string[] =>
  typeof instance?.attributes[0] === 'string' ? [instance.attributes[0]] : [];

const productsOver = (step: StepText, id: number, entity: RegExp): string[] =>
  step.instances.filter((one) => entity.test(one.entity) && step.leadsTo(one, id)).flatMap(globalIdOf);

const BARRIERS = /^IFC(WALL|SLAB|ROOF)/;
const DUCTS = /^IFC(DUCTSEGMENT|DUCTFITTING|DAMPER|FLOW(SEGMENT|FITTING|CONTROLLER))$/;

/** Rectangle profiles of some products, each with all of them that it is the profile of. */
const profilesOf = (step: StepText, entity: RegExp) =>
  step
    .all('IFCRECTANGLEPROFILEDEF')
    .map(({ id, line }) => ({ line, from: productsOver(step, id, entity) }))
    .filter(({ from }) => from.length > 0);

const sized = (by: number) => (line: string) =>
  line.replace(/,(\d+\.?\d*),(\d+\.?\d*)\);/, (_, x, y) => `,${written(Number(x) * by)},${written(Number(y) * by)});`);

const AIMED: readonly Aim[] = [
  {
    what: 'rating removed',
    taken: 'rating',
    targets: (step) =>
      step.all('IFCRELDEFINESBYPROPERTIES').flatMap(({ attributes }) => {
        const set = step.at(attributes[5]);
        const rating = refsOf(set?.attributes[4])
          .map((ref) => step.at(ref))
          .find((p) => p?.attributes[0] === 'FireRating');
        const from = refsOf(attributes[4])
          .map((ref) => step.at(ref))
          .filter((p) => BARRIERS.test(p?.entity ?? ''));
        return rating && from.length > 0 ? [{ line: rating.line, from: from.flatMap(globalIdOf) }] : [];
      }),
    change: (line) => line.replace(/IFCLABEL\('.*'\)/, '$'),
  },
  {
    what: 'opening removed',
    taken: 'opening',
    targets: (step) =>
      step
        .all('IFCRELVOIDSELEMENT')
        .map(({ line, attributes }) => ({ line, from: globalIdOf(step.at(attributes[5])) })),
    change: () => '',
  },
  {
    what: 'opening shrunk',
    taken: 'room in the opening',
    targets: (step) => profilesOf(step, /^IFCOPENINGELEMENT$/),
    change: sized(0.5),
  },
  { what: 'duct enlarged', taken: 'room in the opening', targets: (step) => profilesOf(step, DUCTS), change: sized(3) },
  {
    what: 'construction removed',
    taken: 'construction',
    targets: (step) =>
      step
        .all('IFCRELASSOCIATESMATERIAL')
        .map(({ line, attributes }) => ({
          line,
          from: refsOf(attributes[4])
            .map((ref) => step.at(ref))
            .filter((p) => BARRIERS.test(p?.entity ?? ''))
            .flatMap(globalIdOf),
        }))
        .filter(({ from }) => from.length > 0),
    change: () => '',
  },
  {
    what: 'damper removed',
    taken: 'damper',
    targets: (step) => step.all('IFCDAMPER').map((one) => ({ line: one.line, from: globalIdOf(one) })),
    change: () => '',
  },
  {
    what: 'geometry broken',
    taken: 'geometry',
    targets: (step) =>
      step
        .all('IFCEXTRUDEDAREASOLID')
        .map(({ id, line }) => ({
          line,
          from: productsOver(step, id, new RegExp(`${BARRIERS.source}|${DUCTS.source}`)),
        }))
        .filter(({ from }) => from.length > 0),
    change: (line) => line.replace(/,[^,]*\);/, ',1.E999);'),
  },
  {
    what: 'body removed',
    taken: 'geometry',
    targets: (step) =>
      step.instances
        .filter(({ entity }) => BARRIERS.test(entity) || DUCTS.test(entity))
        .map((one) => ({ line: one.line, from: globalIdOf(one) })),
    change: (line) => line.replace(/((?:#\d+|\$),)#\d+(,(?:\$|'[^']*')(?:,\.\w+\.)?\);)/, '$1$$$2'),
  },
];

const refsOf = (x: unknown) => (Array.isArray(x) ? x : []);

/** The same for the same text and state of `random`. */
export function mutantOf(text: string, random: Random): Mutant {
  if (random.next() < 0.3) {
    const step = new StepText(text);
    const aim = random.pick(AIMED);
    const targets = aim.targets(step);
    if (targets.length > 0) {
      const { line, from } = random.pick(targets);
      const lines = text.split('\n');
      const before = lines[line]!;
      lines[line] = aim.change(before);
      if (lines[line] === before) throw new Error(`the mutation "${aim.what}" does nothing to ${before}`);
      return { what: aim.what, bytes: encoder.encode(lines.join('\n')), taken: { what: aim.taken, from } };
    }
  }
  const [what, change] = random.pick(BLIND);
  return { what, bytes: change(text, random) };
}
