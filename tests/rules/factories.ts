/** Rule documents and briefs for tests, and what they are about. */
import { stringify } from 'yaml';
import type { Penetration } from '../../src/model.js';
import { loadRules, type ProjectBrief, type RuleSet } from '../../src/rules/index.js';
import { NO_CHOICES, penetration, treated } from '../model-factories.js';

export * from '../model-factories.js';

type Fields = { readonly [key: string]: unknown };

export const EVIDENCE = {
  report: 'T-1 (invented)',
  laboratory: 'Invented laboratory',
  standard: 'EN 1366-3',
  date: '2020-01-31',
  scope: 'Invented for a test of this program.',
};

/** A check about the skew, at most 10°, that tests change where they want; undefined takes a field away. */
export const checkFields = (changes: Fields = {}): Fields => ({
  id: 'skew',
  title: 'Skew',
  about: 'fire',
  each: 'penetration',
  measure: 'penetration.skew',
  atMost: 10,
  message: { failed: 'Skew {measured}, {limit}.', cantTell: '{missing} is not known.' },
  basis: { source: 'a test', status: 'unverified' },
  examples: [{ facts: {}, outcome: 'cantTell' }],
  ...changes,
});

export const document = (checks: readonly Fields[], changes: Fields = {}): string =>
  stringify({
    kind: 'check-set',
    id: 'test-set',
    version: '1',
    status: 'unverified',
    source: 'a test',
    checks,
    ...changes,
  });

export const rulesOf = (check: Fields = {}, changes: Fields = {}): RuleSet =>
  loadRules([{ file: 'test.yaml', text: document([checkFields(check)], changes) }]);

type Choice = ProjectBrief['choices']['systems'][number];

/** What a brief chooses for system SA: the demonstration blanket, held by welded pins. Its ducts are as tight as tested. */
export const choicesFor = (...systems: Partial<Choice>[]): ProjectBrief['choices'] => ({
  ...NO_CHOICES,
  pressure: { over: 500, under: 500 },
  systems: systems.map((choice) => ({
    system: 'SA',
    dampers: 'allowed',
    testedSystem: 'demonstration-blanket',
    fixing: 'pins',
    ...choice,
  })),
});

/** A penetration that the demonstration blanket fits. */
export const wrapped = (changes: Partial<Penetration> = {}): Penetration =>
  penetration({
    treatment: { ...treated('blanket').treatment, layers: 2, integrity: 120, insulation: 120 },
    ...changes,
  });
