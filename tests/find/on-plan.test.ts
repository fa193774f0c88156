/** What lies on plan beside rooms and walls, where boxes round it would say something else; from the drawing. */
import { describe, expect, it } from 'vitest';
import { doorsIn } from '../../src/find/doors.js';
import { endOf } from '../../src/find/ends.js';
import { type Floor, servicesOf } from '../../src/find/floors.js';
import type { WallOnPlan } from '../../src/find/levels.js';
import { bridgesOn } from '../../src/find/loop-bridges.js';
import { bounds, rectangle } from '../../src/geometry/polygon.js';
import type { Opening, Polygon } from '../../src/model.js';
import { rating } from '../model-factories.js';
import { aBarrier, aDuct, between, federationOf, upright } from './elements.js';

it('a floor round a room whose plan it does not meet bounds nothing', () => {
  const angle: Polygon = [
    [-2000, -2000],
    [3000, -2000],
    [3000, -500],
    [-500, -500],
    [-500, 3000],
    [-2000, 3000],
  ];
  const floor: Floor = {
    ...{ barrier: aBarrier({ kind: 'floor' }), outlines: [angle], bounds: bounds([angle]), bottom: -200, top: 0 },
  };
  const none = { pass: () => false, meet: () => false };
  // It lies over a third of the metre round the room, so floors are drawn here.
  expect(endOf([between([0, 0], [1000, 1000])], [floor], none)).toMatchObject({ state: 'open', barriers: [] });
});

it('a service passes a place where it is cut, not where its box is', () => {
  const wedge: Polygon = [
    [0, 0],
    [1000, 0],
    [0, 1000],
  ];
  const { pass } = servicesOf(federationOf({ airElements: [aDuct({ bodies: [upright(wedge, 0, 3000)] })] }));
  expect(pass([between([100, 100], [200, 200])], 1500)).toBe(true);
  expect(pass([between([800, 800], [900, 900])], 1500)).toBe(false);
});

describe('walls whose nearest corners are a leak apart', () => {
  const wall = (globalId: string, outline: Polygon): WallOnPlan => ({
    ...{ barrier: aBarrier({ globalId }), outlines: [outline], thickness: 200 },
  });

  it('are joined by a strip as wide as two joints, from just within one to just within the other', () => {
    const a = wall('A', between([0, 0], [1000, 200]));
    const b = wall('B', between([1300, 600], [2300, 800]));
    const [bridge, ...others] = bridgesOn([a, b], [], []);
    expect(others).toEqual([]);
    expect(bridge).toMatchObject({ kind: 'leak', width: 500, at: [1150, 400] });
    // Along it is (0.6, 0.8), across it (-0.8, 0.6): 1 mm beyond its ends, 20 mm to both sides.
    const strip = [
      [1000 - 0.6 + 16, 200 - 0.8 - 12],
      [1300 + 0.6 + 16, 600 + 0.8 - 12],
      [1300 + 0.6 - 16, 600 + 0.8 + 12],
      [1000 - 0.6 - 16, 200 - 0.8 + 12],
    ];
    expect(bridge!.outlines.flat(2).map((value) => Math.round(value * 1e6) / 1e6)).toEqual(
      strip.flat().map((value) => Math.round(value * 1e6) / 1e6),
    );
  });
});

it('a door is in the middle of its opening, and nowhere where the opening has no body', () => {
  const barrier = aBarrier();
  const opening: Opening = {
    ...{ model: 'm1', globalId: 'O', name: 'O', entity: 'IFCOPENINGELEMENT', storey: undefined, filledBy: ['L'] },
    ...{ doors: [{ globalId: 'L', name: 'Leaf', rating: rating() }], bodies: [upright(rectangle(900, 200), 0, 2100)] },
  };
  const places = (one: Opening) => doorsIn(federationOf(), barrier, one).map(({ at }) => at);
  expect(places(opening)).toEqual([[0, 0, 1050]]);
  expect(places({ ...opening, bodies: [] })).toEqual([null]);
});
