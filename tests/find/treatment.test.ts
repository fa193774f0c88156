/** What protects ducts that meet in a barrier: the least of what each has. */
import { expect, it } from 'vitest';
import { protectionOf, treatmentOf } from '../../src/find/treatment.js';
import type { AirElement, ProjectFacts } from '../../src/model.js';
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

const wrap = { kind: 'blanket', evidence, layers: 1 } as const;
const wool = aDuct({ globalId: 'A', name: 'Kitchen 1', system: 'KX', coverings: ['Fire Wrap 2x38', 'Foil'] });
it.each<[string, ProjectFacts['protections'][number], AirElement, boolean]>([
  ['a duct by its GlobalId', { ...wrap, duct: 'A' }, wool, true],
  ['a duct by its name', { ...wrap, duct: 'Kitchen 1' }, wool, true],
  ['another duct', { ...wrap, duct: 'Kitchen 2' }, wool, false],
  ['another duct of the same system', { ...wrap, duct: 'B', system: 'KX' }, wool, false],
  ['another duct that is covered alike', { ...wrap, duct: 'B', covering: ['fire wrap'] }, wool, false],
  ['what is modelled on it', { ...wrap, covering: ['fire wrap'] }, wool, true],
  ['what is modelled on it second', { ...wrap, covering: ['foil'] }, wool, true],
  ['what else is modelled', { ...wrap, covering: ['board'] }, wool, false],
  ['what else is modelled in the same system', { ...wrap, covering: ['board'], system: 'KX' }, wool, false],
  ['what a bare duct has on it', { ...wrap, covering: ['fire wrap'] }, a, false],
  ['its system', { ...wrap, system: 'KX' }, wool, true],
  ['another system', { ...wrap, system: 'SA' }, wool, false],
  ['its system by a part of the name', { ...wrap, system: 'K' }, wool, false],
  ['a system, of a duct that has none', { ...wrap, system: 'KX' }, aDuct({ system: undefined }), false],
  ['nothing, of a duct that has no system', wrap, aDuct({ system: undefined }), false],
])('what a brief declares of %s', (_, declared, element, isMeant) => {
  expect(protectionOf(element, facts(declared))).toEqual(
    isMeant
      ? { kind: 'blanket', evidence: `brief: ${evidence}`, layers: 1, integrity: null, insulation: null }
      : { kind: 'unknown', evidence: null, layers: null, integrity: null, insulation: null },
  );
});

it('what is said of the duct goes before what is modelled on it, and that before what its system has', () => {
  const ofDuct = { ...wrap, duct: 'A', layers: 1 };
  const ofCovering = { ...wrap, covering: ['wrap'], layers: 2 };
  const ofSystem = { ...wrap, system: 'KX', layers: 3 };
  const layers = (...all: ProjectFacts['protections']) => [
    protectionOf(wool, facts(...all)).layers,
    protectionOf(wool, facts(...all.toReversed())).layers,
  ];
  expect(layers(ofDuct, ofCovering, ofSystem)).toEqual([1, 1]);
  expect(layers(ofDuct, ofSystem)).toEqual([1, 1]);
  expect(layers(ofCovering, ofSystem)).toEqual([2, 2]);
  expect(layers(ofSystem)).toEqual([3, 3]);
});

it('a bare duct is one of which a brief says that protection is modelled; what it states to reach is still its own', () => {
  const modelled = { ...NO_FACTS, protectionModelled: true };
  expect(protectionOf(a, modelled).kind).toBe('none');
  expect(protectionOf(a, NO_FACTS).kind).toBe('unknown');
  expect(protectionOf(a, undefined).kind).toBe('unknown');
  const reached = rating({ text: 'EI 60', integrity: 60, insulation: 60 });
  const stated = { ratings: { required: null, reached } };
  expect(protectionOf(aDuct(stated), modelled)).toMatchObject({
    ...{ kind: 'fireResistingDuct', evidence: '"EI 60", which the duct states to reach', layers: null },
  });
  expect(protectionOf(aDuct({ ratings: { required: reached, reached: null } }), modelled).kind).toBe('none');
});
