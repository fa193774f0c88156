import { expect, it } from 'vitest';
import type { Neighbour } from '../../src/model.js';
import { threeSidedAt } from '../../src/rules/three-sided.js';
import { shippedRules } from './rule-cases.js';

const { scope } = shippedRules.systems.find(({ id }) => id === 'demonstration-blanket')!;
const tight = {
  scope: { ...scope, threeSided: [{ gapAtMost: 5, kinds: ['floor' as const], constructions: ['concrete' as const] }] },
};
const against = (side: Partial<Pick<Neighbour, 'what' | 'kind' | 'construction'>>, distance = 5, isCorner = false) =>
  threeSidedAt(tight, { what: 'barrier', kind: 'floor', construction: 'concrete', ...side }, distance, isCorner);

it('fits what was tested, up to the widest gap', () => {
  expect(against({})).toEqual({ fits: true, miss: null });
  expect(against({}, 5.1)).toEqual({ fits: false, miss: 'so wide a gap' });
  expect(against({}, 5, true)).toEqual({ fits: false, miss: 'two sides that lie tight' });
  expect(against({ kind: 'wall' })).toEqual({ fits: false, miss: 'a wall' });
  expect(against({ construction: 'masonry' })).toEqual({ fits: false, miss: 'a floor of that construction' });
});

it('neither fits nor misses a construction that is not known', () => {
  expect(against({ construction: null })).toEqual({ fits: undefined, miss: null });
  expect(against({ construction: 'unknown' })).toEqual({ fits: undefined, miss: null });
});

it('says nothing where there is no such detail, or no barrier', () => {
  expect(against({ what: 'service' })).toBeUndefined();
  const none = { scope: { ...scope, threeSided: undefined } };
  expect(threeSidedAt(none, { what: 'barrier', kind: 'floor', construction: 'concrete' }, 0, false)).toBeUndefined();
});
