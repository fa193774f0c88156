import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { ruleJsonSchemas } from '../../src/rules/index.js';
import { checkFields, document } from './factories.js';
import { shippedText } from './rule-cases.js';

const schema = ruleJsonSchemas()['check-set']!;
// `date` needs a package of formats; its presence is what is tested here, its form is tested with the loader.
const validate = new Ajv2020({ formats: { date: true }, allErrors: true, allowUnionTypes: true }).compile(schema);

describe('JSON Schema of check sets, by an outside judge (ajv)', () => {
  it('is JSON Schema 2020-12 and survives being written', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema);
  });

  it('takes the shipped document', () => {
    expect(validate(parse(shippedText)), JSON.stringify(validate.errors)).toBe(true);
  });

  it.each([
    ['an unknown key', { unitt: 'mm' }],
    ['an unknown fact in an example', { examples: [{ facts: { penetration: { skw: 1 } }, outcome: 'failed' }] }],
    ['a wrong word', { about: 'fires' }],
    ['a limit that is a text', { atMost: 'ten' }],
    ['a missing title', { title: undefined }],
  ])('refuses %s', (_, changes) => {
    expect(validate(parse(document([checkFields()])))).toBe(true);
    expect(validate(parse(document([checkFields(changes)])))).toBe(false);
  });

  it('describes every fact for editors', () => {
    expect(JSON.stringify(schema)).toContain("the integrity minutes of the barrier's fire rating (min)");
  });
});
