/** What rule sets say before anything is judged: how far to look, and what is read. */
import { expect, it } from 'vitest';
import { formOf, titleOf } from '../../src/rules/document-form.js';
import { ductFacts } from '../../src/rules/facts.js';
import { modelFacts } from '../../src/rules/model-facts.js';
import { factsReadBy } from '../../src/rules/reads.js';
import type { RuleSet } from '../../src/rules/rule-set.js';
import { compartmentNames } from '../../src/rules/run-subjects.js';
import { largestSeparation } from '../../src/rules/separation.js';
import { constructionRows, serviceRows } from '../../src/rules/table-rows.js';
import { refuseCharacters } from '../../src/rules/yaml-characters.js';
import type { ServiceRow } from '../../src/strategy/index.js';
import { compartment, crossings, duct, modelInfo, rulesOf, shaft } from './factories.js';
import { shippedRules } from './rule-cases.js';

const beside = { each: 'neighbour', atMost: undefined, message: { failed: 'Too near.', cantTell: 'Not known.' } };

it('looks as far as the greatest distance that a check asks for', () => {
  const asked = (measure: string, atLeast: unknown) => largestSeparation(rulesOf({ ...beside, measure, atLeast }));
  expect(asked('neighbour.distance', 75)).toBe(75);
  expect(asked(' neighbour.distance ', 75)).toBe(75);
  const bySize = [100, 250, 150].map((value, i) => ({ upTo: { longestSide: 400 + i * 400 }, value }));
  expect(asked('neighbour.distance', { bySize })).toBe(250);
  expect(asked('neighbour.distance + 1.0', 75)).toBe(0);
});

it('reads the size of the duct where a limit is a table by size', () => {
  const reads = (atMost: unknown) => factsReadBy(rulesOf({ atMost }).checks[0]!);
  expect(reads(10)).toEqual(['penetration.skew']);
  expect(reads({ bySize: [{ upTo: { longestSide: 1000 }, value: 5 }] })).toEqual([
    ...['penetration.skew', 'duct.width', 'duct.height', 'duct.diameter'],
  ]);
});

it('takes of a union the form that a value has', () => {
  const ofKind = { type: 'object', properties: { kind: { const: 'a' }, size: {} } };
  const other = { type: 'object', properties: { kind: { const: 'b' } } };
  const forms = [{ const: 'none' }, { type: 'string' }, { type: 'integer' }, { type: 'null' }, { type: 'array' }];
  const union = { anyOf: [...forms, ofKind, { anyOf: [other, { type: 'boolean' }] }] };
  const formFor = (value: unknown) => formOf(union, value);
  expect(['none', 'other', 5, null, [1]].map(formFor)).toEqual(forms);
  expect([{ kind: 'a' }, { size: 1 }].map(formFor)).toEqual([ofKind, ofKind]);
  expect([{ kind: 'b' }, true].map(formFor)).toEqual([other, { type: 'boolean' }]);
  // What fits none is shown by the first.
  expect(formFor(5.5)).toEqual(forms[0]);
});

it('keeps of a flange table for which shapes it holds, and its file', () => {
  expect(shippedRules.flanges).toMatchObject([
    {
      id: 'flange-heights',
      file: 'flange-heights.yaml',
      shapes: ['rectangular'],
      flangeHeight: { bySize: [{}, {}, {}] },
    },
  ]);
});

it('titles what a list has by its number and name', () => {
  expect(titleOf('details', 1, { id: 'wall', name: 'Packed and sealed' })).toBe('Detail 2: Packed and sealed');
  expect(titleOf('rows', 0, { service: 'kitchenExhaust' })).toBe('Row 1: kitchen exhaust');
  expect(titleOf('rows', 2, { value: 5 })).toBe('Row 3');
});

it('gives the rows of all tables in the order of the documents', () => {
  const [one, two] = [{ words: ['a'] }, { words: ['b'] }] as unknown as [ServiceRow, ServiceRow];
  const tables = [{ rows: [one] }, { rows: [two, one] }];
  expect(serviceRows({ services: tables as unknown as RuleSet['services'] })).toEqual([one, two, one]);
  expect(constructionRows({ tables: tables as unknown as RuleSet['tables'] })).toEqual([one, two, one]);
});

it('refuses characters that are no text, and names the place', () => {
  const refused = (text: string) => () => refuseCharacters('own.yaml', text);
  expect(refused('id: a\r\nname: ü 漢\n')).not.toThrow();
  expect(refused('\ufeffid: a')).not.toThrow();
  expect(refused('id: a\nname: \u0007')).toThrow(
    expect.objectContaining({ line: 2, column: 7, message: expect.stringContaining('U+0007 may not stand') }),
  );
  expect(refused('id: \ufffd')).toThrow(
    expect.objectContaining({ line: 1, column: 5, message: expect.stringContaining('not UTF-8') }),
  );
  expect(refused('id: a\rname: b')).toThrow(/carriage return alone/);
});

it('counts as ductwork all that a model has of it', () => {
  const counts = { ducts: 1, fittings: 2, dampers: 4, silencers: 8, terminals: 16 };
  const none = {
    ...{ protected: 0, withoutSystem: 0, withoutPressure: 0, facesToBuildAt: 0, facesUntold: 0, dampered: 0 },
    dampersWithoutProof: 0,
  };
  expect(modelFacts(crossings({}), [modelInfo(counts), modelInfo(counts)], none).ductwork).toBe(62);
  expect(modelFacts(crossings({}), undefined, none)).not.toHaveProperty('ductwork');
});

it('says of flanges that nothing shows that they are shown nowhere', () => {
  expect(ductFacts(duct())).toMatchObject({ flangeFrom: 'nowhere' });
  expect(ductFacts(duct(), { height: 20, from: 'brief' })).toMatchObject({ flangeHeight: 20, flangeFrom: 'brief' });
});

it('names a shaft with what keeps it from taking over, and another compartment by its name alone', () => {
  const name = compartmentNames([
    shaft(false, 'doorUnrated'),
    { ...shaft(false, 'doorUnrated'), id: 'C-2', shaft: null },
  ]);
  expect(name('C-0001')).toMatch(/^Shaft 1 \(a shaft that does not take over: .+\)$/);
  expect(name('C-2')).toBe('Shaft 1');
  expect(name('C-9')).toBe('C-9');
  expect(compartmentNames([compartment()])('C-0001')).toBe('Ground floor');
});
