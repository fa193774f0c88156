/** What protects ducts that meet in a barrier: the least of what each has. */
import { expect, it } from 'vitest';
import { protectionOf, treatmentOf } from '../../src/find/treatment.js';
import type { ProjectFacts } from '../../src/model.js';
import { rating } from '../model-factories.js';
import { NO_FACTS } from '../read/no-facts.js';
import { aDuct } from './elements.js';

const a = aDuct({ globalId: 'A', name: 'A' });
const b = aDuct({ globalId: 'B', name: 'B' });
const evidence = 'a drawing (invented)';
const thick = { duct: 'A', kind: 'blanket', evidence, layers: 2, integrity: 120, insulation: 90 } as const;
const thin = { duct: 'B', kind: 'blanket', evidence, layers: 1, integrity: 60, insulation: 120 } as const;
const bare = { duct: 'B', kind: 'none', evidence } as const;
const facts = (...protections: ProjectFacts['protections']): ProjectFacts => ({ ...NO_FACTS, protections });

it.each([
  ['of two that are protected the least counts', [thick, thin], ['blanket', 1, 60, 90]],
  ['one of which nothing is said is not known to be protected', [thick], ['unknown', null, null, null]],
  ['one that is bare leaves nothing', [thick, bare], ['none', null, null, null]],
])('%s', (_, protections, expected) => {
  for (const elements of [
    [a, b],
    [b, a],
  ]) {
    const { kind, layers, integrity, insulation } = treatmentOf(elements, facts(...protections));
    expect([kind, layers, integrity, insulation]).toEqual(expected);
  }
});

it.each([
  ['what the brief says that it means', 'blanket', 'blanket'],
  ['a duct that resists fire by itself, where the brief says no more', undefined, 'fireResistingDuct'],
] as const)('a rating that a duct states to reach is %s', (_, kind, expected) => {
  const reached = rating({ text: 'EI 60', integrity: 60, insulation: 60 });
  const duct = aDuct({ ratings: { required: null, reached } });
  const ductRatingProperties = [{ set: 'Office', property: 'Reached', means: 'reached', kind }] as const;
  expect(protectionOf(duct, { ...NO_FACTS, ductRatingProperties })).toMatchObject({
    ...{ kind: expected, integrity: 60, insulation: 60 },
  });
});
