import { describe, expect, it } from 'vitest';
import { loadRules, RuleDocumentError } from '../../src/rules/index.js';
import { checkFields, document, EVIDENCE, rulesOf } from './factories.js';

const refusal = (text: string, ...more: string[]): RuleDocumentError => {
  try {
    loadRules([text, ...more].map((one, i) => ({ file: `doc-${i + 1}.yaml`, text: one })));
  } catch (cause) {
    if (cause instanceof RuleDocumentError) return cause;
    throw cause;
  }
  throw new Error('the document was not refused');
};
const refusedCheck = (changes: { [key: string]: unknown }, set = {}): string =>
  refusal(document([checkFields(changes)], set)).message;

const GOOD = `kind: check-set
id: test-set
version: "1"
status: unverified
source: a test
checks:
  - id: skew
    title: Skew
    about: fire
    each: penetration
    where: barrier.rated
    measure: penetration.skew
    atMost: 10
    unit: deg
    message: { failed: "Skew {measured}.", cantTell: "{missing} is not known." }
    basis: { source: a test, status: unverified }
    examples:
      - { facts: { penetration: { skew: 2 } }, outcome: cantTell }
`;

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
      'this is not valid YAML: map keys must be unique',
    ],
    ['no YAML', ['source: a test', 'source: "a test'], 5, 16, 'this is not valid YAML'],
    ['bad id', ['id: skew', 'id: Skew Limit'], 7, 9, 'must be lower-case words joined by hyphens'],
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
    expect(error.message).toContain('too many aliases');
    expect(error.line).toBe(2);
  });

  it('but a few aliases may be used', () => {
    const text = GOOD.replace('source: a test\n', 'source: &source a test\n').replace(
      'source: a test,',
      'source: *source,',
    );
    expect(text).toContain('*source');
    expect(loadRules([{ file: 'alias.yaml', text }]).checks[0]?.definition.basis.source).toBe('a test');
  });

  it('an alias of nothing, and one of itself', () => {
    expect(refusal('kind: *nothing').message).toMatch(/alias/);
    expect(refusal(GOOD.replace('{ penetration: { skew: 2 } }', '&facts { penetration: *facts }'))).toBeInstanceOf(
      RuleDocumentError,
    );
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

  it('too long', () => {
    expect(refusal(`# ${'x'.repeat(400_000)}`).message).toContain('a rule document has at most');
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

describe('what makes no sense together', () => {
  it.each([
    ['two kinds of limit', { equals: 10 }, 'only one kind of limit'],
    ['no limit', { atMost: undefined }, 'a measure needs a limit'],
    ['a limit and nothing to judge', { measure: undefined }, 'atLeast/atMost has nothing to judge; add "measure"'],
    ['contradictory limits', { atLeast: 11 }, 'nothing can be at least 11 and at most 10'],
    ['no message', { message: undefined }, '"message" is missing'],
    ['a text under a limit in numbers', { measure: 'barrier.kind' }, 'need a measure that is a number'],
    [
      'a number that should equal a text',
      { atMost: undefined, equals: 'ten' },
      'the limit is a string, but what is measured is a number',
    ],
    [
      'a value that never occurs',
      { atMost: undefined, measure: 'barrier.kind', among: ['wall', 'flor'] },
      'perhaps you meant "floor"',
    ],
    [
      'an expression of another type',
      { atMost: { cel: 'barrier.name' } },
      'the expression gives a text; a number is needed here',
    ],
    [
      'about fire without a limit',
      {
        measure: undefined,
        atMost: undefined,
        message: undefined,
        cantTellWhen: [{ reason: 'r', when: 'true', missing: ['a.b'], message: 'm' }],
      },
      'a check about fire needs "measure"',
    ],
    [
      'a reason twice',
      { cantTellWhen: ['true', 'false'].map((when) => ({ reason: 'r', when, missing: ['a.b'], message: 'm' })) },
      'reason "r" is used twice',
    ],
    [
      'a basis better than its document',
      { basis: { source: 's', status: 'tested' } },
      'basis "tested" in a document with status "unverified"; allowed: unverified',
    ],
    [
      'an example that would be without being cantTell',
      { examples: [{ facts: {}, outcome: 'failed', wouldBe: 'passed' }] },
      'belong to outcome cantTell',
    ],
    [
      'an example of a reason that is none',
      { examples: [{ facts: {}, outcome: 'cantTell', reasons: ['x'] }] },
      'the check has no reason "x"',
    ],
    ['no example', { examples: [] }, '"examples"'],
  ])('%s', (_, changes, message) => {
    expect(refusedCheck(changes)).toContain(message);
  });

  it('tested needs its evidence, and nothing else may bring any', () => {
    expect(refusal(document([checkFields()], { status: 'tested' })).message).toContain(
      'needs evidence: report, laboratory',
    );
    expect(refusal(document([checkFields()], { evidence: EVIDENCE })).message).toContain('belongs to status "tested"');
    const undated = { ...EVIDENCE, date: 'last year' };
    expect(refusal(document([checkFields()], { status: 'tested', evidence: undated })).message).toContain('"date"');
    expect(rulesOf({}, { status: 'tested', evidence: EVIDENCE }).documents[0]?.status).toBe('tested');
  });

  it('ids are used once, within and across documents', () => {
    expect(refusal(document([checkFields(), checkFields()])).message).toBe(
      'check id "skew" is used twice in this document',
    );
    const other = refusal(document([checkFields()]), document([checkFields()], { id: 'other' }));
    expect([other.file, other.message]).toEqual(['doc-2.yaml', 'check id "skew" is already used by doc-1.yaml']);
    const same = refusal(document([checkFields()]), document([checkFields({ id: 'other' })]));
    expect(same.message).toBe('document id "test-set" is already used by doc-1.yaml');
  });

  it('a long line of CEL is found in a folded text, if only at its start', () => {
    const text = GOOD.replace(
      'where: barrier.rated',
      'where: >-\n      barrier.rated &&\n      barrier.thicknes > 1.0',
    );
    expect(refusal(text).line).toBe(11);
    expect(refusal(text).message).toContain('perhaps you meant "barrier.thickness"');
  });
});
