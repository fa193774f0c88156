import { expect, it } from 'vitest';
import { barrierKey } from '../../src/rules/barrier-key.js';
import { compartmentSubject } from '../../src/rules/compartment-subjects.js';
import { type barrier, compartment } from './factories.js';

const subject = (changes: Parameters<typeof compartment>[0], ...walls: ReturnType<typeof barrier>[]) =>
  compartmentSubject(compartment(changes), {}, new Map(walls.map((one) => [`${one.model}/${one.globalId}`, one])));

it('knows a barrier again by what earlier reports knew it by', () => {
  expect(barrierKey({ inferredFrom: null, globalId: 'W1' })).toBe('W1');
  expect(barrierKey({ inferredFrom: 'W0', globalId: 'W1' })).toBe('W0');
});

it('knows a compartment by its walls in any order, and one without walls by its rooms', () => {
  const [a, b] = ['W1', 'W2'].map((globalId) => ({ model: 'm2', globalId }));
  const key = subject({ barriers: [b!, a!] }).key;
  expect(key).toBe('compartment W1 W2');
  expect(subject({ barriers: [a!, b!] }).key).toBe(key);
  const spaces = [{ model: 'm2', globalId: 'S1' }];
  expect(subject({ barriers: [], spaces })).toMatchObject({ key: 'compartment S1', subject: { id: 'S1' } });
});

it('names a compartment of which no element is known by its own id', () => {
  expect(subject({ id: 'C-0007', barriers: [], spaces: [] }).subject).toEqual({
    ...{ type: 'barrier', id: 'C-0007', elements: [] },
  });
});
