/** What rule sets say before anything is judged: how far to look, and what is read. */
import { expect, it } from 'vitest';
import { formOf } from '../../src/rules/document-form.js';
import { ductFacts } from '../../src/rules/facts.js';
import { factsReadBy } from '../../src/rules/reads.js';
import { compartmentNames } from '../../src/rules/run-subjects.js';
import { largestSeparation } from '../../src/rules/separation.js';
import { compartment, duct, rulesOf, shaft } from './factories.js';

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
