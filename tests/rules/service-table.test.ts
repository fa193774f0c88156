import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadRules, RuleDocumentError, ruleJsonSchemas, serviceRows } from '../../src/rules/index.js';
import { demandOf } from '../../src/strategy/index.js';
import { duct } from './factories.js';
import { shippedDocuments, shippedRules } from './rule-cases.js';

const VALUES = `kind: published-values
id: values
version: "1"
status: unverified
source: a test
values:
  - id: rating
    says: A rating.
    value: { text: -/30/30 }
    source: A code
    clause: "4"
    jurisdiction: Estuaria
    edition: Code 1
    confidence: secondHand
  - { id: faint, says: Minutes., value: { number: 60, unit: min }, source: A code, confidence: memoryLow }
  - { id: length, says: A length., value: { number: 60, unit: mm }, source: A code, confidence: seen }
  - { id: hour, says: Minutes., value: { number: 60, unit: min }, source: A code, confidence: seen }
  - { id: sealed, says: A rating., value: { text: -/90/- }, source: A code, clause: "5", confidence: seen }
  - { id: warm, says: A rating., value: { text: -/-/45 }, source: A code, confidence: seen }
`;
const TABLE = `kind: service-table
id: table
version: "1"
status: unverified
source: a test
rows:
  - service: kitchenExhaust
    words: [galley]
    source: a test
    defaults:
      - { dampers: never, source: practice }
      - { least: { published: rating } }
  - { service: smokeExhaust, words: [smoke], source: a test }
examples:
  - { names: [Galley 2], service: kitchenExhaust }
`;
const load = (table = TABLE) =>
  loadRules([
    { file: 'table.yaml', text: table },
    { file: 'values.yaml', text: VALUES },
  ]);

describe('a table of services', () => {
  it('takes what it names from the published values, with source, clause and code', () => {
    expect(serviceRows(load())[0]?.defaults).toEqual([
      { dampers: 'never', source: 'practice', status: 'unverified', code: null },
      {
        ...{ integrity: 30, insulation: 30, source: 'A code; second-hand, 4', status: 'unverified' },
        code: { jurisdiction: 'Estuaria', edition: 'Code 1' },
      },
    ]);
  });

  it.each<[string, string, object]>([
    ['minutes for both criteria', 'least: { published: hour }', { integrity: 60, insulation: 60, source: 'A code' }],
    ['of a rating what it asks for', 'least: { published: sealed }', { integrity: 90, source: 'A code, 5' }],
    ['of another the other', 'least: { published: warm }', { insulation: 45, source: 'A code' }],
    ['what is said beside a value', 'dampers: never, published: length', { dampers: 'never', source: 'A code' }],
  ])('takes %s', (_, said, expected) => {
    const [row] = serviceRows(load(TABLE.replace('least: { published: rating }', said)));
    expect(row?.defaults[1]).toEqual({ ...expected, status: 'unverified', code: null });
  });

  it('fits names by words, by whole words, or by both', () => {
    const rowWith = (words: string) => serviceRows(load(TABLE.replace('words: [galley]', words)))[0];
    expect(rowWith('wholeWords: [galley]')).toMatchObject({ words: [], wholeWords: ['galley'] });
    expect(rowWith('words: [galley]\n    wholeWords: [kx]')).toMatchObject({ words: ['galley'], wholeWords: ['kx'] });
  });

  it.each([
    ['least: { published: ratings }', 'ratings'],
    ['dampers: never, published: ratings', 'ratings'],
    ['least: { published: faint }', 'faint'],
    ['least: { published: length }', 'length'],
  ])('points at the value that it can not go by: %s', (said, value) => {
    const text = TABLE.replace('least: { published: rating }', said);
    const column = text.split('\n')[11]!.indexOf(value) + 1;
    expect(() => load(text)).toThrow(expect.objectContaining({ line: 12, column }));
  });

  it.each([
    ['a word of two services', ['[smoke]', '[Galley]'], 13, 'already means kitchenExhaust'],
    ['no words', ['    words: [galley]\n', ''], 7, 'or it fits no name'],
    ['a default that says nothing', ['dampers: never, ', ''], 11, 'a default says something'],
    ['a default without a source', [', source: practice', ''], 11, 'needs "source" or "published"'],
    ['two sources', ['least: {', 'source: x, least: {'], 12, 'leave them out here'],
    ['a code beside a value', ['least: {', 'jurisdiction: x, least: {'], 12, 'value "rating"; leave them out here'],
    ['half a code beside it', ['least: {', 'edition: x, least: {'], 12, 'value "rating"; leave them out here'],
    ['a faint memory', ['published: rating', 'published: faint'], 12, 'it may not become a demand'],
    ['a length for minutes', ['published: rating', 'published: length'], 12, 'neither minutes nor a rating'],
    ['a value that is nowhere', ['published: rating', 'published: ratings'], 12, 'perhaps you meant "rating"'],
    ['half a code', ['source: practice', 'source: practice, edition: E'], 11, 'needs both'],
    ['status tested', ['status: unverified', 'status: tested'], 4, 'expected one of'],
  ] as const)('is refused for %s', (_, [from, to], line, message) => {
    expect(TABLE).toContain(from);
    try {
      load(TABLE.replace(from, to));
    } catch (cause) {
      if (!(cause instanceof RuleDocumentError)) throw cause;
      expect(cause.message).toContain(message);
      expect([cause.file, cause.line]).toEqual(['table.yaml', line]);
      return;
    }
    throw new Error('it was not refused');
  });
});

describe('the shipped services', () => {
  const rows = serviceRows(shippedRules);
  const demand = (name: string, choices: { jurisdiction?: string; edition?: string[] } = {}) =>
    demandOf({ ...duct({ system: name }), serves: null }, { edition: [], ...choices, systems: [], services: [] }, rows);

  it.each([
    ['Kitchen exhaust', 'always', 'never', 'both'],
    ['Smoke exhaust', 'always', 'never', 'both'],
    ['Stair pressurisation', 'always', 'never', 'outside'],
    ['Car park exhaust', 'always', 'never', 'both'],
    ['Supply air', 'whereUndampered', 'allowed', null],
  ] as const)('%s', (name, resists, dampers, fire) => {
    const { reasons, ...rest } = demand(name);
    expect(rest).toMatchObject({ resists, dampers, fire, integrity: 0, insulation: 0 });
    for (const { source, says } of reasons) expect([source, says].every((text) => text.length > 3)).toBe(true);
  });

  it.each([
    ['Australia', 'AS 1668', 30],
    ['Germany', 'M-LüAR', 90],
    ['United States', 'IMC', 60],
    ['United States', 'IBC 2012', 0],
    ['Australia', 'NCC 2022', 0],
  ])('kitchen exhaust under %s, %s: at least %i min, and of no other code', (jurisdiction, edition, minutes) => {
    expect(demand('Kitchen exhaust', { jurisdiction, edition: [edition] })).toMatchObject({
      integrity: minutes,
      insulation: minutes,
    });
  });
});

it.each(['service-table', 'published-values', 'check-set', 'tested-system'])(
  '%s: shipped documents by an outside judge (ajv)',
  (kind) => {
    const validate = new Ajv2020({ formats: { date: true }, allErrors: true, allowUnionTypes: true }).compile(
      ruleJsonSchemas()[kind]!,
    );
    const own = shippedDocuments.map(({ text }) => parse(text) as { kind: string }).filter((one) => one.kind === kind);
    expect(own.length).toBeGreaterThan(0);
    for (const document of own) expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
  },
);
