import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadBrief, loadRules, newBrief, ruleJsonSchemas } from '../../src/rules/index.js';
import { rules } from '../shipped-rules.js';
import { checkFields, document } from './factories.js';
import { guideExample } from './guide.js';

/** Strict: a keyword that JSON Schema does not know is refused. */
const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, strictRequired: false });
formats.default(ajv);
/** As the package has them, by the name that other programs ask for. */
const shipped = createRequire(import.meta.url);
const schemaOf = (kind: string) => JSON.parse(readFileSync(shipped.resolve(`ratedrun/${kind}.schema.json`), 'utf8'));
const VALIDATE = new Map(Object.keys(ruleJsonSchemas()).map((kind) => [kind, ajv.compile(schemaOf(kind))]));

function faultsIn(text: string): string {
  const value = parse(text);
  const validate = VALIDATE.get(value.kind)!;
  return validate(value) ? '' : ajv.errorsText(validate.errors);
}

const read = (file: string) => readFileSync(file, 'utf8');
const DOCUMENTS = readdirSync('rules').filter((name) => name.endsWith('.yaml'));

describe('JSON Schemas of the package, by an outside judge (ajv)', () => {
  it.each([...VALIDATE.keys()])('%s is JSON Schema 2020-12, and the one that the program has', (kind) => {
    expect(schemaOf(kind)).toEqual(JSON.parse(JSON.stringify(ruleJsonSchemas()[kind])));
    expect(schemaOf(kind)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      title: `Ratedrun ${kind}`,
    });
  });

  it.each(DOCUMENTS)('takes rules/%s', (name) => expect(faultsIn(read(`rules/${name}`))).toBe(''));

  it("takes the demo's brief, a new one, and the example of the guide", () => {
    for (const text of [read('fixtures/demo/brief.yaml'), newBrief(), guideExample().text])
      expect(faultsIn(text)).toBe('');
  });

  it('describes every fact for editors', () => {
    expect(JSON.stringify(schemaOf('check-set'))).toContain("the integrity minutes of the barrier's fire rating (min)");
  });
});

/** What the program refuses for its form an editor must mark too. */
describe('refuses what the program refuses', () => {
  const refused = (text: string): void => {
    const file = { file: 'own.yaml', text };
    const load = () => (parse(text).kind === 'project-brief' ? loadBrief(file, rules) : loadRules([file], rules));
    expect(load).toThrow();
    expect(faultsIn(text)).not.toBe('');
  };

  it.each([
    ['an unknown key', { unitt: 'mm' }],
    ['an unknown fact in an example', { examples: [{ facts: { penetration: { skw: 1 } }, outcome: 'failed' }] }],
    ['a wrong word', { about: 'fires' }],
    ['a limit that is a text', { atMost: 'ten' }],
    ['a missing title', { title: undefined }],
  ])('a check with %s', (_, changes) => {
    expect(faultsIn(document([checkFields()]))).toBe('');
    refused(document([checkFields(changes)]));
  });

  it.each([
    ['demonstration-blanket', 'skewAtMost: 10', 'skewAtMost: 91'],
    ['demonstration-blanket', 'separationAtLeast: 200', 'separationAtLeast: -1'],
    ['demonstration-blanket', 'construction: masonry', 'construction: unknown'],
    ['demonstration-blanket', 'longestSide: { value: 3600', 'longestSide: { bySize: [], value: 3600'],
    ['demonstration-blanket', '{ diameter: 1200 }', '{ diameter: { source: nowhere } }'],
    ['demonstration-blanket', 'part: packing', 'part: paking'],
    ['demonstration-damper', 'fireSides: both', 'fireSides: all'],
    ['demonstration-damper', 'version: 0.1.0', 'version: 1'],
    ['published-values', 'confidence: seen', 'confidence: sure'],
    ['services', 'service: kitchenExhaust', 'service: kitchen'],
    ['constructions', 'source: common practice, no source', 'sauce: common practice'],
    ['flange-heights', 'value: 20', 'value: twenty'],
  ])('%s with %s as %s', (name, from, to) => {
    const text = read(`rules/${name}.yaml`);
    expect(text).toContain(from);
    refused(text.replace(from, to));
  });

  it.each([
    ['demonstration: true', 'demonstration: maybe'],
    ['kind: blanket', 'kind: blankets'],
    ['hands: 300', 'hands: -300'],
  ])("the demo's brief with %s as %s", (from, to) => {
    const text = read('fixtures/demo/brief.yaml');
    expect(text).toContain(from);
    refused(text.replace(from, to));
  });
});
