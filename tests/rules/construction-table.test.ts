/** Names of materials to classes of construction. The names are common practice, no source. */
import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { reviewDocuments, shippedConstructions } from '../../src/cli/documents.js';
import { constructionOf } from '../../src/construction/construction-of.js';
import { CONSTRUCTIONS, LAYER_KINDS } from '../../src/model.js';
import { constructionRows, loadRules, ruleJsonSchemas, runExamples } from '../../src/rules/index.js';
import { refusal } from './refusal.js';

const text = readFileSync('rules/constructions.yaml', 'utf8');
const rules = loadRules([{ file: 'constructions.yaml', text }]);
const rows = constructionRows(rules);

it('the shipped table is loaded, has every class, and its examples come out', () => {
  expect(rules.documents).toMatchObject([{ id: 'constructions', status: 'unverified' }]);
  const meanings = new Set(rows.map(({ construction, layer }) => construction ?? layer));
  expect([...meanings, 'unknown'].sort()).toEqual([...CONSTRUCTIONS, ...LAYER_KINDS].sort());
  const examples = runExamples(rules);
  expect(examples.length).toBeGreaterThan(20);
  expect(examples.filter(({ ok }) => !ok)).toEqual([]);
});

it('is the same whether it is read alone, as readiness does, or with all rules', async () => {
  expect(await shippedConstructions()).toEqual(constructionRows((await reviewDocuments(undefined)).rules));
});

it('an example that is wrong is said to be', () => {
  const wrong = text.replace('construction: unknown\n', 'construction: concrete\n');
  expect(runExamples(loadRules([{ file: 'x.yaml', text: wrong }])).filter(({ ok }) => !ok)).toMatchObject([
    { check: 'constructions', expected: 'concrete', got: 'unknown' },
  ]);
});

describe('constructionOf', () => {
  it("puts a project's own words first", () => {
    const own = [{ words: ['TYPE 7'], construction: 'shaftWall' }] as const;
    expect(constructionOf(['Type 7 concrete'], [], rows)).toBe('concrete');
    expect(constructionOf(['Type 7 concrete'], [], [...own, ...rows])).toBe('shaftWall');
  });

  it('knows nothing without a table', () => {
    expect(constructionOf(['Reinforced concrete'], ['Concrete wall'], [])).toBe('unknown');
  });

  it.each([
    [['Metallständerwand CW-Profil 75'], 'steelStud'],
    [['METALLSTAENDER'], 'steelStud'],
    [['Béton armé'], 'concrete'],
    [['BETON ARME'], 'concrete'],
    [['Pustak ceramiczny', 'Tynk'], 'masonry'],
    [['Mur de parpaings'], 'masonry'],
    [['Ontelolaatta'], 'hollowCore'],
    [['Concrete', 'Brick', 'Metal deck'], 'unknown'], // the deck leads over concrete, not over brick
    [['Sandwich panel', 'Concrete'], 'unknown'],
  ] as const)('%j is %s', (layers, construction) => {
    expect(constructionOf(layers, [], rows)).toBe(construction);
  });
});

describe('the form of a table', () => {
  const TABLE = `kind: construction-table
id: test-table
version: "1"
status: unverified
source: a test
rows:
  - construction: masonry
    words: [brick]
    source: a test
examples:
  - { layers: [Brick], construction: masonry }
`;
  const schema = ruleJsonSchemas()['construction-table']!;
  const validate = new Ajv2020({ formats: { date: true }, allErrors: true }).compile(schema);

  it('is JSON Schema 2020-12 that takes the shipped document (outside judge: ajv)', () => {
    expect(validate(parse(text)), JSON.stringify(validate.errors)).toBe(true);
    expect(validate(parse(TABLE.replace('masonry', 'straw')))).toBe(false);
  });

  it.each([
    ['an unknown class', ['construction: masonry\n', 'construction: straw\n'], 7, '"construction"'],
    ['an unknown key', ['    words', '    wrods'], 8, 'unknown key "wrods"; perhaps you meant "words"'],
    ['a row without a source', ['    source: a test\n', ''], 7, '"source" is missing'],
    ['a row of two meanings', ['masonry\n', 'masonry\n    layer: air\n'], 7, 'give "construction" or "layer"'],
    ['a row of none', ['construction: masonry\n', 'wholeWords: [x1]\n'], 7, 'give "construction" or "layer"'],
    [
      'air beside something',
      ['construction: masonry\n', 'layer: air\n    beside: [concrete]\n'],
      8,
      'only a construction',
    ],
    ['a word of one letter', ['[brick]', '[b]'], 8, 'must have at least two letters'],
    ['a row that fits nothing', ['words: [brick]', 'words: []'], 7, 'or it fits no name'],
    ['a class beside itself', ['[brick]', '[brick]\n    beside: [masonry]'], 9, 'cannot stand beside itself'],
    ['a word listed twice', ['[brick]', '[brick, Brick]'], 8, 'the word "Brick" already means masonry'],
    ['a proof that is none', ['status: unverified', 'status: tested'], 4, 'belong together'],
  ] as const)('refuses %s', (_, [what, by], line, message) => {
    const error = refusal(TABLE.replace(what, by));
    expect(error).toMatchObject({ line });
    expect(error.message).toContain(message);
  });
});
