import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { shippedDocuments, shippedRules } from './rule-cases.js';

const here = new URL('./', import.meta.url);

it('the documents that are tested are the documents that are shipped', () => {
  const shipped = readdirSync(new URL('../../rules/', here))
    .filter((name) => name.endsWith('.yaml'))
    .sort();
  expect(shippedDocuments.map(({ file }) => file)).toEqual(shipped);
});

/** What a tester does with the cases it is given, `ruleCases` sees to; here, that none is left out. */
it('every shipped check has cases of its own', () => {
  const tests = readdirSync(here).filter((name) => name.endsWith('.test.ts'));
  const named = tests
    .flatMap((name) => [...readFileSync(new URL(name, here), 'utf8').matchAll(/^ *ruleCases\(\s*['`]([^'`]+)['`]/gm)])
    // `fixing-${side}` stands for every check whose id is built that way.
    .map(([, id]) => new RegExp(`^${id!.replaceAll(/\$\{\w+\}/g, '(width|height|integrity|insulation)')}$`));
  expect(named.length).toBeGreaterThan(20);
  const without = shippedRules.checks.filter(({ definition }) => !named.some((pattern) => pattern.test(definition.id)));
  expect(without.map(({ definition }) => definition.id)).toEqual([]);
});
