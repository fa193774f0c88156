import { describe, expect, it } from 'vitest';
import { readPortfolioList } from '../../src/portfolio/list.js';
import { RuleDocumentError } from '../../src/rules/index.js';

const HEAD = 'kind: portfolio\nid: harbour\njobs:\n';

function refusal(text: string): string {
  try {
    readPortfolioList('list.yaml', text);
  } catch (error) {
    if (error instanceof RuleDocumentError) return `${error.line}:${error.column} ${error.message}`;
    throw error;
  }
  throw new Error('it was taken');
}

it('takes jobs in their order, and JSON, which is YAML', () => {
  const list = readPortfolioList(
    'list.yaml',
    `${HEAD}  - { name: a, models: [a.ifc] }\n  - { name: b, models: [b.ifc], previous: a }\n`,
  );
  expect(list).toMatchObject({ id: 'harbour', write: 'json', jobs: [{ name: 'a' }, { name: 'b', previous: 'a' }] });
  expect(readPortfolioList('list.json', JSON.stringify(list))).toEqual(list);
});

it('takes 10,000 jobs', () => {
  const lines = Array.from(
    { length: 10_000 },
    (_, i) => `  - { name: job-${i}, models: [models/building-${i}.ifc] }\n`,
  );
  expect(readPortfolioList('list.yaml', HEAD + lines.join('')).jobs).toHaveLength(10_000);
});

describe('says where it is wrong', () => {
  it.each([
    ['  - { name: a, models: [] }', /^4:.*"models"/],
    ['  - { name: a, models: [a.ifc] }\n  - { name: a, models: [b.ifc] }', /^5:.*another job "a"/],
    [
      '  - { name: b, models: [b.ifc], previous: a }\n  - { name: a, models: [a.ifc] }',
      /^4:.*no job further up is called "a"/,
    ],
    ['  - { name: a, models: [a.ifc], previous: a }', /^4:.*no job further up/],
    ['  - { name: ../a, models: [a.ifc] }', /^4:.*letters, digits/],
    ['  - { name: .., models: [a.ifc] }', /^4:.*letters, digits/],
    ['  - { name: a, model: [a.ifc] }', /^4:.*unknown key "model"/],
  ])('%s', (jobs, line) => {
    expect(refusal(`${HEAD}${jobs}\n`)).toMatch(line);
  });
});
