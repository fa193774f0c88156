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

const READ = { set: 'Office', property: 'Reached', means: 'reached' } as const;
it.each<[string, Partial<ProjectFacts> | undefined, string]>([
  ['what the brief says that it means', { ductRatingProperties: [{ ...READ, kind: 'blanket' }] }, 'blanket'],
  ['a duct that resists fire by itself, where it says no more', { ductRatingProperties: [READ] }, 'fireResistingDuct'],
  ['that where it is not said where it stands', { ductRatingProperties: [] }, 'fireResistingDuct'],
  ['that where no property is named', {}, 'fireResistingDuct'],
  ['that where there is no brief', undefined, 'fireResistingDuct'],
])('a rating that a duct states to reach is %s', (_, more, expected) => {
  const reached = rating({ text: 'EI 60', integrity: 60, insulation: 60 });
  const duct = aDuct({ ratings: { required: null, reached } });
  const known = more && { ...NO_FACTS, ...more };
  expect(protectionOf(duct, known)).toMatchObject({ kind: expected, integrity: 60, insulation: 60 });
});
