import { expect, it } from 'vitest';
import { bothReached, reachOf } from '../../src/rules/reach.js';
import { face, inLine } from './factories.js';

const inShaft = (room: string | null) => face({ shaft: true, room });

it('reaches a face in a shaft where people enter the shaft', () => {
  expect(reachOf(inShaft('Riser 1'), undefined).isReached).toBeUndefined();
  expect(reachOf(inShaft('Riser 1'), { shaftsEntered: true }).isReached).toBe(true);
  expect(reachOf(inShaft('Riser 1'), { shaftsEntered: ['riser'] }).isReached).toBe(true);
  expect(reachOf(inShaft('Lift'), { shaftsEntered: ['riser'] })).toEqual({
    isReached: false,
    because: 'nobody enters Lift',
  });
  expect(reachOf(inShaft(null), { shaftsEntered: ['riser'] })).toEqual({
    isReached: false,
    because: 'nobody enters the shaft',
  });
});

it('reaches what is known to be a room, and nothing else', () => {
  expect(reachOf(face({ shaft: false }), undefined).isReached).toBe(true);
  expect(reachOf(face({ shaft: null }), undefined).isReached).toBeUndefined();
  expect(reachOf(face({ shaft: null }), { shaftsNamed: true }).isReached).toBe(true);
});

it('needs depth for hands where the brief says how much', () => {
  const blocked = face({ obstacles: [inLine({ clear: [[250, 0]] })] });
  expect(reachOf(blocked, { hands: 250 }).isReached).toBe(true);
  expect(reachOf(blocked, { hands: 251 })).toEqual({ isReached: false, because: 'Wall 9 leaves 250 mm before it' });
});

it('reaches both faces only where each is', () => {
  const room = { shaftsEntered: false };
  expect(bothReached([face(), face()], undefined)).toBe(true);
  expect(bothReached([face(), null], undefined)).toBeUndefined();
  expect(bothReached([null, inShaft('Lift')], room)).toBe(false);
});
