/** Which openings of a long wall lead into the room before it, and which of them are empty; from the drawing. */
import { expect, it } from 'vitest';
import { emptyOpenings, openingsOf } from '../../src/find/enclosure.js';
import { servicesOf } from '../../src/find/floors.js';
import type { Level } from '../../src/find/levels.js';
import type { StoreyLoop } from '../../src/find/stacked-loops.js';
import { patchesOf } from '../../src/geometry/areas.js';
import type { Opening, Vec2 } from '../../src/model.js';
import { rating } from '../model-factories.js';
import { aBarrier, aDuct, between, federationOf, upright } from './elements.js';

/** 5.8 m by 3.8 m, 3 m high; along its south a wall of 200 mm that goes on past it, its middle at y = 0. */
const ROOM = [between([100, 100], [5900, 3900])];
const LEVEL: Level = { base: 0, top: 3000, cutAt: 1200, storey: null, rated: [], others: [] };
const anOpening = (changes: Partial<Opening>): Opening => ({
  ...{ model: 'm1', globalId: 'O', name: 'O', entity: 'IFCOPENINGELEMENT', storey: undefined, bodies: [] },
  ...{ filledBy: [], doors: [], ...changes },
});
/** In the wall, from its western jamb on. */
const at = (x: number, width = 900, [from, to]: Vec2 = [0, 2100]): Opening =>
  anOpening({ bodies: [upright(between([x, -100], [x + width, 100]), from, to)] });
function leads(opening: Opening): boolean {
  const barrier = aBarrier({ openings: [opening] });
  const wall = { barrier, outlines: [between([-4000, -100], [10_000, 100])], thickness: 200 };
  const [patch] = patchesOf(ROOM);
  const loop: StoreyLoop = {
    ...{ patch: patch!, walls: [wall], leaks: [], closed: true, level: LEVEL, index: 0, outlines: ROOM },
  };
  const found = openingsOf(loop, []);
  expect(found).toEqual(found.map(() => ({ barrier, opening })));
  return found.length > 0;
}

/**
 * Round an opening as much as the wall is thick counts as before it: 200 mm beyond both jambs and both faces. Of 0.9 m and
 * the wall's 0.2 m, 922 mm from corner to corner, a quarter has to be the room's: 230 mm.
 */
it.each<[string, Opening, boolean]>([
  ['in the middle of the room', at(3000), true],
  ['past the room', at(7000), false],
  ['a little more than a quarter before it, at its eastern end', at(5900 + 200 - 231), true],
  ['a little less', at(5900 + 200 - 230), false],
  ['a little more than a quarter before it, at its western end', at(100 - 200 + 231 - 900), true],
  ['a little less there', at(100 - 200 + 230 - 900), false],
  // From corner to corner 361 mm, of which a quarter is 90: it may lie beside the room.
  ['a narrow one just past the room', at(5900 + 200 - 91, 300), true],
  ['a narrow one further past it', at(5900 + 200 - 90, 300), false],
  ['of the storey above', at(3000, 900, [3000, 5100]), false],
  ['of the storey above, in contact with this', at(3000, 900, [2999, 5100]), false],
  ['that begins under the top of the storey', at(3000, 900, [2998.9, 5100]), true],
  ['of the storey below', at(3000, 900, [-2900, 0]), false],
  ['of the storey below, in contact with this', at(3000, 900, [-2900, 1]), false],
  ['that ends over the foot of the storey', at(3000, 900, [-2900, 1.1]), true],
  ['that is not drawn', anOpening({}), false],
])('an opening leads into the room, or not: %s', (_, opening, expected) => {
  expect(leads(opening)).toBe(expected);
});

it('through a floor under or over it leads what a door fills, where it is the room’s', () => {
  const doors = [{ globalId: 'D', name: 'Hatch', rating: rating() }];
  const hatch = (globalId: string, x: number, changes: Partial<Opening> = {}) =>
    anOpening({ globalId, doors, bodies: [upright(between([x, 1000], [x + 800, 1800]), -200, 0)], ...changes });
  const openings = [hatch('in it', 1000), hatch('beside it', 7000), hatch('no hatch', 3000, { doors: [] })];
  const floor = aBarrier({ globalId: 'F', kind: 'floor', openings });
  const [patch] = patchesOf(ROOM);
  const loop: StoreyLoop = {
    ...{ patch: patch!, walls: [], leaks: [], closed: true, level: LEVEL, index: 0, outlines: ROOM },
  };
  expect(openingsOf(loop, [floor])).toEqual([{ barrier: floor, opening: openings[0] }]);
});

it('empty are those that nothing fills and no service passes', () => {
  const services = servicesOf(federationOf({ airElements: [aDuct({ bodies: at(1000).bodies })] }));
  const barrier = aBarrier();
  const empty = (opening: Opening) => emptyOpenings([{ barrier, opening }], services).length > 0;
  expect(empty(at(3000))).toBe(true);
  expect(empty(at(1500))).toBe(false);
  expect(empty({ ...at(3000), filledBy: ['D'] })).toBe(false);
  expect(emptyOpenings([{ barrier, opening: at(3000) }], services)).toEqual([{ model: 'm1', globalId: 'O' }]);
});
