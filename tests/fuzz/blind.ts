/** Mutations of which nobody knows what they do. */
import type { Random } from './random.js';
import { written } from './step-text.js';

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

export const BLIND: readonly Blind[] = [
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

function dataLine(lines: readonly string[], random: Random): number {
  const start = lines.indexOf('DATA;') + 1;
  return start + random.below(Math.max(1, lines.length - start - 3));
}
