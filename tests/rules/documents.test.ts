import { describe, expect, it } from 'vitest';
import { closest } from '../../src/rules/closest.js';
import { loadBrief, loadRules, RuleDocumentError } from '../../src/rules/index.js';
import { GOOD, refusal } from './refusal.js';

describe('places of mistakes', () => {
  it('the document they are made in is good', () => {
    expect(loadRules([{ file: 'good.yaml', text: GOOD }]).documents).toEqual([
      { id: 'test-set', version: '1', file: 'good.yaml', status: 'unverified', source: 'a test' },
    ]);
  });

  it.each([
    [
      'unknown key',
      ['    unit: deg', '    units: deg'],
      14,
      5,
      'unknown key "units"; perhaps you meant "unit"; known here: id, title',
    ],
    [
      'unknown key inside',
      ['basis: { source', 'basis: { sorce: x, source'],
      16,
      14,
      'unknown key "sorce"; perhaps you meant "source"',
    ],
    [
      'unknown key at the top',
      ['version: "1"', 'version: "1"\nstatsu: x'],
      4,
      1,
      'unknown key "statsu"; perhaps you meant "status"',
    ],
    ['unknown fact in an example', ['skew: 2', 'skw: 2'], 18, 35, 'unknown key "skw"; perhaps you meant "skew"'],
    ['wrong word', ['about: fire', 'about: fires'], 9, 12, '"about": expected one of "model"|"fire"'],
    ['wrong type', ['atMost: 10', 'atMost: ten'], 13, 13, '"atMost": must be a number, or { cel: "an expression" }'],
    ['not a number', ['atMost: 10', 'atMost: .nan'], 13, 13, '"atMost": must be a number'],
    ['missing key', ['    title: Skew\n', ''], 7, 5, '"title" is missing; expected string'],
    ['version as a number', ['version: "1"', 'version: 1'], 3, 10, '"version": expected string, received number'],
    ['misspelt fact in where', ['barrier.rated', 'barrier.ratted'], 11, 20, 'perhaps you meant "barrier.rated"'],
    [
      'misspelt fact in quotes',
      ['penetration.skew\n', '"penetration.skw"\n'],
      12,
      27,
      'perhaps you meant "penetration.skew"',
    ],
    ['where that is no condition', ['barrier.rated', 'barrier.thickness'], 11, 12, 'true or false is needed here'],
    [
      'unknown placeholder',
      ['{measured}', '{mesured}'],
      15,
      30,
      'there is no placeholder {mesured} for each: penetration; perhaps you meant "measured"',
    ],
    ['bracket alone', ['Skew {measured}', 'Skew {measured'], 15, 30, 'a curly bracket stands alone'],
    [
      'key used twice',
      ['    unit: deg', '    unit: deg\n    unit: mm'],
      15,
      5,
      'the key "unit" stands twice here; keep one',
    ],
    ['no YAML', ['source: a test', 'source: "a test'], 5, 16, 'this is not valid YAML'],
    ['bad id', ['id: skew', 'id: Skew Limit'], 7, 9, 'must be lower-case words joined by hyphens'],
    ['tabs', ['    title: Skew', '\ttitle: Skew'], 8, 1, 'this is not valid YAML'],
    ['wrong indentation', ['    title: Skew', '   title: Skew'], 8, 1, 'this is not valid YAML'],
    ['misspelt key that is needed', ['    title: Skew', '    titel: Skew'], 8, 5, 'perhaps you meant "title"'],
    [
      'example for other facts',
      ['{ penetration: {', '{ gap: {}, penetration: {'],
      18,
      20,
      'there are no facts of "gap" for each: penetration',
    ],
  ] as const)('%s', (_, [from, to], line, column, message) => {
    expect(GOOD).toContain(from);
    const error = refusal(GOOD.replace(from, to));
    expect(error.message).toContain(message);
    expect([error.file, error.line, error.column]).toEqual(['doc-1.yaml', line, column]);
    expect(error.message).not.toContain('\n');
  });
});

describe('documents made to do harm', () => {
  it('an alias bomb', () => {
    const levels = 'bcdefgh'.split('').map((name) => {
      const before = String.fromCharCode(name.charCodeAt(0) - 1);
      return `${name}: &${name} [${Array(9).fill(`*${before}`).join(', ')}]`;
    });
    const error = refusal(['a: &a [x, x, x]', ...levels].join('\n'));
    expect(error.message).toBe('more than 20 aliases are too many; write the values out');
    expect(error.line).toBe(4);
  });

  it('but a few aliases may be used', () => {
    const text = GOOD.replace('source: a test\n', 'source: &source a test\n').replace(
      'source: a test,',
      'source: *source,',
    );
    expect(text).toContain('*source');
    expect(loadRules([{ file: 'alias.yaml', text }]).checks[0]?.definition.basis.source).toBe('a test');
  });

  it('a second document in the same file, at its place', () => {
    const error = refusal(`${GOOD}---\nkind: check-set\n`);
    expect(error.message).toBe('a second document begins here; a file holds one, give it a file of its own');
    expect(error.line).toBe(GOOD.split('\n').length);
  });

  it.each(['__proto__', 'constructor', 'prototype'])('the key %s, at its place', (key) => {
    const error = refusal(GOOD.replace('skew: 2', `${key}: { polluted: true }`));
    expect(error.message).toBe(`"${key}" may not be a key`);
    expect([error.line, error.column]).toEqual([18, 35]);
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });

  it.each([
    ['brackets', '['.repeat(100_000)],
    ['dashes', '- '.repeat(100_000)],
    ['question marks', '? '.repeat(100_000)],
    ['indents', Array.from({ length: 700 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  ])('nested without end: %s', (_, text) => {
    expect(refusal(text).message).toContain('nested too deep');
  });

  // yaml's parser works on the stack: 10,000 open brackets end the whole process, so none may reach it.
  it('30 brackets one in the other are the most, and 120 columns', () => {
    const isTooDeep = (text: string) => refusal(text).message.includes('nested too deep');
    const brackets = (depth: number) => `a: ${'['.repeat(depth)}${']'.repeat(depth)}`;
    expect([30, 31].map((depth) => isTooDeep(brackets(depth)))).toEqual([false, true]);
    const pushedTo = (column: number) => `a:\n${' '.repeat(column - 1)}- b\n`;
    expect([120, 121].map((column) => isTooDeep(pushedTo(column)))).toEqual([false, true]);
    // Where brackets were closed, those that follow count anew.
    expect(isTooDeep(Array(40).fill('- [[]]').join('\n'))).toBe(false);
  });

  it.each([
    ['of nothing', 'skew: *gone', 'there is no anchor &gone before the alias *gone'],
    ['of what it stands in', 'skew: &own { of: *own }', 'the alias *own stands inside what it repeats'],
  ])('an alias %s', (_, fact, message) => {
    const error = refusal(GOOD.replace('skew: 2', fact));
    expect(error.message).toContain(message);
    expect(error.line).toBe(18);
  });

  it.each([
    ['comments that seem to close them', '# ]]]]]]]]]]'],
    ['quotes that seem to close them', '"]]]]]]]]]]",'],
  ])('brackets hidden by %s', (_, hiding) => {
    const text = Array(2000).fill(`[[[[[[[[[[ ${hiding}`).join('\n');
    const error = refusal(text);
    expect(error.message).toContain('nested too deep');
    expect([error.line, error.column]).toEqual([4, 1]);
  });

  it('brackets left open one after the other are another mistake', () => {
    const text = Array.from({ length: 60 }, (_, i) => `k${i}:\n  - [x`).join('\n');
    expect(refusal(text).message).toContain('this is not valid YAML');
  });

  it('but brackets in comments and texts are not counted', () => {
    const many = '['.repeat(100);
    const text = GOOD.replace('source: a test\n', `source: "${many}" # ${many}\n`).replace(
      'title: Skew\n',
      `title: >-\n      a text\n      ${many}\n`,
    );
    expect(loadRules([{ file: 'brackets.yaml', text }]).documents[0]?.source).toBe(many);
  });

  it.each([
    ['a line break', 'check\nset'],
    ['a carriage return', 'check\rset'],
    ['a line separator', 'check\u2028set'],
  ])('%s in what the error quotes', (_, kind) => {
    const { message } = refusal(`kind: ${JSON.stringify(kind)}`);
    expect(message).toMatch(/^there is no kind of rule document "check set"/);
    expect(message).not.toMatch(/[\p{Cc}\p{Zl}]/u);
  });

  it('a very long word is neither searched for nor quoted whole', () => {
    expect(closest('a'.repeat(79), ['a'.repeat(80)])).toBeDefined();
    expect(closest('a'.repeat(81), ['a'.repeat(80)])).toBeUndefined();
    const { message } = refusal(`kind: ${'x'.repeat(200_000)}`);
    expect(message.length).toBeLessThan(600);
  });

  it('too long', () => {
    expect(refusal(`# ${'x'.repeat(400_000)}`).message).toContain('are allowed at most');
  });

  it.each([
    ['nothing', ''],
    ['a text', 'hello'],
    ['a list', '- a'],
    ['several documents', `${GOOD}---\n${GOOD}`],
    ['a tag', 'kind: !!js/function "x"'],
    ['a key that is a list', '[a]: b'],
    ['another kind', 'kind: check-sets'],
    ['a kind from the prototype', 'kind: toString'],
  ])('%s is no rule document', (_, text) => {
    expect(refusal(text).message.length).toBeGreaterThan(10);
  });
});

it.each([
  ['nothing', ''],
  ['words', 'the kitchen exhaust'],
  ['a list', '- kind: project-brief'],
  ['a number', '60'],
])('%s is no brief', (_, text) => {
  const load = () => loadBrief({ file: 'brief.yaml', text });
  expect(load).toThrow(RuleDocumentError);
  expect(load).toThrow('expected object');
});
