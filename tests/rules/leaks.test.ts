/** A leak between two walls is told once, at the wall that is rated, under a key that stays the same. */
import { expect, it } from 'vitest';
import type { BarrierFacts, Leak, Rating, Vec3 } from '../../src/model.js';
import { wallLeaks } from '../../src/rules/leaks.js';
import { barrier, compartment, crossings, leak, NOT_REQUIRED, rating, UNSTATED } from './factories.js';

const wall = (globalId: string, own: Rating): BarrierFacts => barrier({ globalId, rating: own });
const between = (a: string, b: string, at: Vec3 = [0, 0, 0]): Leak => ({
  ...leak(20),
  ...{ at, between: [a, b].map((globalId) => ({ model: 'm2', globalId })) as unknown as Leak['between'] },
});
const told = (barriers: BarrierFacts[], ...leaks: Leak[][]) =>
  wallLeaks(crossings({ barriers, compartments: leaks.map((own) => compartment({ leaks: own })) })).map(
    ({ barrier: at, other, ordinal, leak: { at: place } }) => `${at.globalId} ${other.globalId} ${ordinal} ${place}`,
  );

it.each<[string, Rating, Rating, string]>([
  ['both are rated', rating(), rating(), 'A B'],
  ['the second alone is rated', NOT_REQUIRED, rating(), 'B A'],
  ['of the first nothing is known', UNSTATED, rating(), 'B A'],
  ['the first alone is rated', rating(), NOT_REQUIRED, 'A B'],
  ['of neither anything is known', UNSTATED, UNSTATED, 'A B'],
])('stands at the rated wall, where %s', (_, a, b, expected) => {
  expect(told([wall('A', a), wall('B', b)], [between('A', 'B')])).toEqual([`${expected} 1 0,0,0`]);
});

it('counts the leaks of two walls by their places, and those of two others from one again', () => {
  const walls = ['A', 'B', 'C'].map((id) => wall(id, rating()));
  const [low, high] = [between('A', 'B', [0, 0, 1]), between('A', 'B', [0, 0, 2])];
  const expected = ['A B 1 0,0,1', 'A B 2 0,0,2', 'A C 1 0,0,9'];
  expect(told(walls, [high, between('A', 'C', [0, 0, 9]), low])).toEqual(expected);
  expect(told(walls, [low, high], [between('A', 'C', [0, 0, 9])])).toEqual(expected);
});

it('takes no place for another whose numbers read alike', () => {
  const walls = [wall('A', rating()), wall('B', rating())];
  expect(told(walls, [between('A', 'B', [1, 23, 4]), between('A', 'B', [12, 3, 4])])).toEqual([
    'A B 1 1,23,4',
    'A B 2 12,3,4',
  ]);
});

it('tells once of what opens into two compartments', () => {
  const walls = [wall('A', rating()), wall('B', rating())];
  expect(told(walls, [between('A', 'B')], [between('A', 'B')])).toEqual(['A B 1 0,0,0']);
});

it('says nothing of a wall that was not looked at, whichever of the two it is', () => {
  expect(told([wall('A', rating())], [between('A', 'B'), between('B', 'A')])).toEqual([]);
});
