/**
 * Rule documents and briefs made to do harm, or by somebody who did not know better, as the program is given them: one line
 * that says file, line and column, what is wrong and what to do; exit code 2, and nothing on stdout.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { run } from '../../src/cli/run.js';
import { GOOD } from '../rules/refusal.js';
import { temporaryFolder } from './program.js';

const folder = temporaryFolder();
/** It is there, and nothing is in it: nobody gets as far as reading it. */
const MODEL = join(folder, 'none.ifc');
writeFileSync(MODEL, '');

const BRIEF = `kind: project-brief
id: brief
version: "1"
demonstration: false
facts:
  constructions:
    - { words: [stud], construction: steelStud }
choices:
  siteTolerance: 5
  systems:
    - { system: KX, service: kitchenExhaust }
`;

const changed = (text: string, from: string, to: string): string => {
  if (!text.includes(from)) throw new Error(`there is no ${from}`);
  return text.replace(from, () => to);
};
const rule = (from: string, to: string): string => changed(GOOD, from, to);
const brief = (from: string, to: string): string => changed(BRIEF, from, to);
const bomb = [
  'a: &a [x, x, x]',
  ...['b', 'c', 'd', 'e'].map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcd'[i]}`).join(', ')}]`),
].join('\n');
const limit = '    measure: penetration.skew\n    atMost: 10\n    unit: deg';
const table = (rows: string): string =>
  rule(limit, `    measure: duct.width\n    atMost: { bySize: [${rows}] }\n    unit: mm`);
const reads = (text: string): string => rule('where: barrier.rated', `where: ${JSON.stringify(text)}`);

/** Name, the file's text or bytes, where, what the line says. */
type Hostile = readonly [name: string, content: string | Uint8Array, place: string, says: string];

const RULES: readonly Hostile[] = [
  // YAML that unfolds, or that never ends.
  ['aliases in aliases', bomb, '4:16', 'more than 20 aliases are too many; write the values out'],
  ['an alias of itself', rule('source: a test', 'source: &a { x: *a }'), '5:17', 'stands inside what it repeats'],
  ['an alias of nothing', rule('source: a test', 'source: *b'), '5:9', 'there is no anchor &b before the alias *b'],
  ['a merge key', rule('    unit: deg', '    <<: { unit: deg }'), '14:5', 'keys are not merged (<<); write them out'],
  ['open brackets', '['.repeat(100_000), '1:31', 'nested too deep; 30 levels are enough'],
  ['a text that is too long', rule('source: a test', `source: ${'x'.repeat(250_000)}`), '5:9', '<=1000 characters'],
  ['a file that is too long', `# ${'x'.repeat(400_000)}`, '1:1', '300000 are allowed at most; split it'],
  ['30,000 keys', Array.from({ length: 30_000 }, (_, i) => `k${i}: 1`).join('\n'), '1:1', '"kind" is missing'],
  ['several documents', `${GOOD}---\n${GOOD}`, '19:1', 'a file holds one, give it a file of its own'],
  ['many documents', '---\n'.repeat(50_000), '2:1', 'a file holds one, give it a file of its own'],
  // Keys that mean something to the language of the program.
  ['__proto__', `${GOOD}__proto__: { polluted: true }\n`, '19:1', '"__proto__" may not be a key'],
  ['an escaped __proto__', rule('skew: 2', '"__pr\\x6fto__": 2'), '18:35', '"__proto__" may not be a key'],
  ['constructor', rule('skew: 2', 'constructor: { prototype: 1 }'), '18:35', '"constructor" may not be a key'],
  ['toString', rule('skew: 2', 'toString: 2'), '18:35', 'unknown key "toString"'],
  ['a key twice', rule('    unit: deg', '    unit: deg\n    "\\x75nit": mm'), '15:5', 'stands twice here; keep one'],
  // Texts that are no texts, or none that everybody reads alike.
  ['a tab', rule('    title: Skew', '\ttitle: Skew'), '8:1', 'tabs are not allowed as indentation'],
  ['a byte order mark inside', rule('a test', '\ufeffa test'), '5:9', 'U+FEFF may not stand in a document'],
  ['Latin-1', Buffer.from(rule('a test', 'über'), 'latin1'), '5:9', 'this is not UTF-8 text; save the file as UTF-8'],
  ['UTF-16', Buffer.from(GOOD, 'utf16le'), '1:2', 'U+0000 may not stand in a document'],
  ['UTF-16 with its mark', Buffer.from(`\ufeff${GOOD}`, 'utf16le'), '1:1', 'this is not UTF-8 text'],
  ['a picture', Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'latin1'), '1:1', 'this is not UTF-8 text'],
  ['an escape sequence', rule('a test', '"\\e[31mred"'), '5:9', 'U+001B may not stand in a document'],
  ['line ends of old', GOOD.replaceAll('\n', '\r'), '1:16', 'save the file with line feeds'],
  ['nothing', '', '1:1', 'a rule document is a list of keys and values that begins with kind'],
  ['YAML 1.1', `%YAML 1.1\n---\n${rule('about: fire', 'about: no')}`, '1:1', 'take the line %YAML out'],
  ['a tag', rule('version: "1"', 'version: !!binary aGVsbG8='), '3:19', 'tags (tag:yaml.org,2002:binary) are not read'],
  ['not a number', rule('atMost: 10', 'atMost: .nan'), '13:13', 'must be a number'],
  ['without end', rule('atMost: 10', 'atMost: .inf'), '13:13', 'must be a number'],
  [
    'a leading zero',
    rule('atMost: 10', 'atMost: 010'),
    '13:13',
    'one number to some readers and another to others; write 10',
  ],
  ['octal', rule('atMost: 10', 'atMost: 0o12'), '13:13', 'write 10'],
  ['hexadecimal', rule('atMost: 10', 'atMost: 0x10'), '13:13', 'write 16'],
  ['minutes as of a clock', rule('atMost: 10', 'atMost: 1:30'), '13:13', 'must be a number'],
  ['no for false', rule(limit, '    measure: barrier.rated\n    equals: no'), '13:13', 'the limit is a string'],
  ['a number for a text', rule('version: "1"', 'version: 2026'), '3:10', 'expected string, received number'],
  // Expressions that cost too much, or say nothing.
  ['a loop in a loop', reads('penetration.others.all(a, penetration.others.all(b, a == b))'), '11:39', 'inside a loop'],
  ['a list in a loop', reads('penetration.others.all(a, a in penetration.others)'), '11:44', 'no other list of facts'],
  ['a regular expression', reads('barrier.name.matches("(a+)+$")'), '11:12', '"matches" may not be used'],
  [
    'a long list',
    reads(`penetration.skew in [${Array(100).fill('1.0').join()}]`),
    '11:234',
    'the expression is too large',
  ],
  ['many brackets', reads(`${'('.repeat(300)}true${')'.repeat(300)}`), '11:37', 'the expression is too large'],
  ['a fact that is none', reads('barrier.raited'), '11:21', 'perhaps you meant "barrier.rated"'],
  ['a way out', reads('barrier.constructor == "x"'), '11:12', 'there is no fact "barrier.constructor"'],
  ['a number for a condition', reads('barrier.thickness'), '11:13', 'true or false is needed here'],
  ['units that differ', reads('barrier.thickness > penetration.skew'), '11:33', 'mm and deg do not go together'],
  [
    'a unit that does not fit',
    rule('unit: deg', 'unit: mm'),
    '12:14',
    'this is in deg, but the unit of the check is mm',
  ],
  // Limits that contradict each other.
  [
    'at least more than at most',
    rule('atMost: 10', 'atLeast: 11\n    atMost: 10'),
    '13:14',
    'nothing can be at least 11 and at most 10',
  ],
  ['a limit beyond all', rule('atMost: 10', 'atMost: 1e30'), '13:13', 'is the unit right?'],
  ['no value at all', rule('    atMost: 10', '    among: []'), '13:12', '>=1 items'],
  [
    'a table with a hole',
    table(
      '{ upTo: { longestSide: 300 }, value: 1 }, { above: { longestSide: 400 }, upTo: { longestSide: 500 }, value: 2 }',
    ),
    '13:75',
    'leaves a hole between longestSide 300 and longestSide 400',
  ],
  [
    'a table that descends',
    table('{ upTo: { diameter: 500 }, value: 1 }, { upTo: { diameter: 300 }, value: 2 }'),
    '13:71',
    'rows must ascend',
  ],
  [
    'rows that overlap',
    table('{ upTo: { width: 300, height: 500 }, value: 1 }, { upTo: { width: 500, height: 300 }, value: 2 }'),
    '13:81',
    'the row overlaps the one before',
  ],
  [
    'examples that contradict',
    `${GOOD}      - { facts: { penetration: { skew: 2 } }, outcome: failed }\n`,
    '19:57',
    'another example has the same facts',
  ],
  [
    'more proof than there is',
    rule('a test, status: unverified', 'a test, status: tested'),
    '16:38',
    'basis "tested" in a document with status',
  ],
];

const BRIEFS: readonly Hostile[] = [
  ['aliases in aliases', bomb, '4:16', 'more than 20 aliases are too many'],
  [
    '__proto__',
    brief('  siteTolerance: 5', '  __proto__: { demonstration: true }'),
    '9:3',
    '"__proto__" may not be a key',
  ],
  ['toString among choices', brief('siteTolerance: 5', 'toString: 5'), '9:3', 'unknown key "toString"'],
  ['yes for true', brief('demonstration: false', 'demonstration: yes'), '4:16', 'expected boolean, received string'],
  ['a tolerance without end', brief('siteTolerance: 5', 'siteTolerance: .inf'), '9:18', 'expected number'],
  ['a tolerance below nothing', brief('siteTolerance: 5', 'siteTolerance: -5'), '9:18', '>=0'],
  ['a word that fits all names', brief('[stud]', '[""]'), '7:17', 'must have at least two letters'],
  ['a system twice', `${BRIEF}    - { system: kx, service: smokeExhaust }\n`, '12:17', 'is listed twice in systems'],
  [
    'a tested system that is none',
    brief('service: kitchenExhaust', 'testedSystem: nonesuch'),
    '11:35',
    'no rule document holds',
  ],
  ['a rule document', GOOD, '1:7', 'a brief is kind: project-brief; rule documents are given as --rules'],
  ['bytes', new Uint8Array([0, 1, 2, 255, 254]), '1:1', 'U+0000 may not stand in a document'],
];

async function ran(...args: string[]) {
  const [out, err] = [new PassThrough(), new PassThrough()];
  const code = await run(args, { out, err });
  const said = (stream: PassThrough): string => String(stream.read() ?? '');
  return { code, out: said(out), err: said(err) };
}

const written = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, `${name.replaceAll(/[^a-z0-9]/gi, '-')}.yaml`);
  writeFileSync(path, content);
  return path;
};
const refused = (path: string, place: string, says: string) => ({
  ...{ code: 2, out: '' },
  err: expect.stringMatching(
    new RegExp(`^ratedrun: ${escaped(`${path}:${place} `)}[^\\n]*${escaped(says)}[^\\n]*\\n$`),
  ),
});
const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');

describe.each(RULES)('a rule document: %s', (name, content, place, says) => {
  it('is refused in one line', async () => {
    const path = written(name, content);
    expect(await ran('rules', path)).toEqual(refused(path, place, says));
    expect(await ran('check', MODEL, '--rules', path, '--quiet')).toEqual(refused(path, place, says));
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });
});

describe.each(BRIEFS)('a brief: %s', (name, content, place, says) => {
  it('is refused in one line', async () => {
    const path = written(`brief ${name}`, content);
    expect(await ran('check', MODEL, '--project-brief', path, '--quiet')).toEqual(refused(path, place, says));
  });
});

describe('what is no document at all', () => {
  it.each([
    ['a file without end', '/dev/zero', 'has more than 1200000 bytes'],
    ['a folder for a brief', '.', 'is a folder; name a file in it'],
    ['nothing', 'nowhere.yaml', 'does not exist; check the path'],
  ])('%s', async (_, path, says) => {
    const { code, out, err } = await ran('check', MODEL, '--project-brief', path, '--quiet');
    expect([code, out, err.split('\n').length]).toEqual([2, '', 2]);
    expect(err).toContain(says);
  });

  it('a check that is called like a shipped one beside it', async () => {
    const path = written('clash', rule('id: skew', 'id: skew-within-tested-range'));
    const { code, err } = await ran('rules', path, 'rules/tested-scope.yaml');
    const says = /^ratedrun: rules\/tested-scope\.yaml:1608:9 check id "skew-within-tested-range" is already used by/;
    expect([code, err]).toEqual([2, expect.stringMatching(says)]);
  });

  it('one good document beside a bad one in a folder', async () => {
    const inner = join(folder, 'both');
    mkdirSync(inner);
    writeFileSync(join(inner, 'a.yaml'), GOOD);
    writeFileSync(join(inner, 'b.yaml'), rule('id: test-set', 'id: __proto__'));
    const { code, err } = await ran('rules', inner);
    expect([code, err]).toEqual([2, expect.stringMatching(/b\.yaml:2:5 "id": must be lower-case words[^\n]*\n$/)]);
  });
});
