/** What the faces of a barrier look into; rooms, widths and ways from the drawing. */
import { expect, it } from 'vitest';
import { turn } from '../../fixtures/vectors.js';
import type { Compartments, Side } from '../../src/find/compartments.js';
import { faceRooms } from '../../src/find/face-rooms.js';
import type { Compartment, Place, Polygon, Prism, Space, Vec3 } from '../../src/model.js';
import { ROOM_PROBE } from '../../src/tolerances.js';
import { compartment } from '../model-factories.js';
import { between, federationOf, ROUND_A_CORNER, upright } from './elements.js';

const aSpace = (changes: Partial<Space> = {}): Space => ({
  ...{ model: 'm1', globalId: 'S', name: 'Store', entity: 'IFCSPACE', storey: undefined, longName: undefined },
  ...{ bodies: [upright(between([0, 0], [5000, 3000]), 0, 2800)], ...changes },
});
const STORE = { model: 'm1', globalId: 'S', name: 'Store' };
/** A wall of 200 mm along x, its middle at y = 0. */
const WALL: Side = { position: [1000, 0, 1500], normal: [0, 1, 0], thickness: 200 };

interface Around {
  readonly spaces?: readonly Space[];
  readonly all?: readonly Compartment[];
  readonly beside?: readonly [string | null, string | null];
  readonly outside?: (point: Vec3) => boolean | null;
  readonly at?: Side;
}
function faces(rooms: Place['rooms'], { spaces, all = [], beside, outside = () => false, at = WALL }: Around = {}) {
  const compartments: Compartments = {
    all,
    beside: () => beside ?? [null, null],
    at: (point) => ({ id: null, outside: outside(point) }),
  };
  return faceRooms(federationOf(spaces ? { spaces } : {}), compartments)(at, rooms);
}

it('a room is told of on its own side, with its name and how narrow it is', () => {
  const nothing = { room: null, shaft: null, roomWidth: null };
  const known = { room: 'Store', shaft: null, roomWidth: 3000 };
  const spaces = [aSpace()];
  expect(faces([STORE, null], { spaces })).toEqual([
    { towards: 'south', ...known },
    { towards: 'north', ...nothing },
  ]);
  expect(faces([null, STORE], { spaces })).toEqual([
    { towards: 'south', ...nothing },
    { towards: 'north', ...known },
  ]);
});

it('without a room the compartment counts, and a room before it', () => {
  const all = [
    compartment({ id: 'C-0001', name: 'Ground', shaft: false, outlines: [between([0, 0], [9000, 7000])] }),
    compartment({ id: 'C-0002', name: 'Shaft 1', shaft: true, outlines: [between([0, 0], [900, 1200])] }),
  ];
  const told = faces([STORE, null], { spaces: [aSpace()], all, beside: ['C-0001', 'C-0002'] });
  expect(told[0]).toMatchObject({ room: 'Store', shaft: false, roomWidth: 3000 });
  expect(told[1]).toMatchObject({ room: 'Shaft 1', shaft: true, roomWidth: 900 });
});

it.each([
  [true, false, true],
  [false, true, false],
  [undefined, true, true],
  [undefined, false, false],
  [undefined, null, null],
])('a space that says %s of being a shaft, in a compartment that says %s', (own, around, expected) => {
  const all = [compartment({ id: 'C', shaft: around })];
  const [face] = faces([STORE, null], { spaces: [aSpace({ shaft: own })], all, beside: ['C', null] });
  expect(face.shaft).toBe(expected);
});

it('what a face looks into in the open is no shaft; it is looked for beyond linings, on each side by itself', () => {
  const reach = 100 + ROOM_PROBE;
  const asked: Vec3[] = [];
  const outside = (point: Vec3) => {
    asked.push(point);
    return point[1] > 0 ? true : null;
  };
  expect(faces([null, null], { outside }).map(({ shaft }) => shaft)).toEqual([null, false]);
  expect(asked).toEqual([
    [1000, -reach, 1500],
    [1000, reach, 1500],
  ]);
});

it('where a room or a compartment is known, nobody asks whether it is in the open', () => {
  const all = [compartment({ id: 'C', shaft: true })];
  const outside = () => true;
  const told = faces([STORE, null], { spaces: [aSpace({ shaft: true })], all, beside: [null, 'C'], outside });
  expect(told.map(({ shaft }) => shaft)).toEqual([true, true]);
});

it('a room of another file under the same GlobalId, or one that is not read, has no width', () => {
  const elsewhere = faces([{ ...STORE, model: 'm2' }, STORE], { spaces: [aSpace({ shaft: true })] });
  expect(elsewhere.map(({ room, shaft, roomWidth }) => [room, shaft, roomWidth])).toEqual([
    ['Store', null, null],
    ['Store', true, 3000],
  ]);
  expect(faces([STORE, null])[0]).toMatchObject({ room: 'Store', roomWidth: null });
});

const turned = (outline: Polygon, degrees: number, [dx, dy]: readonly [number, number]): Polygon => {
  return outline.map(([x, y]) => {
    const [u, v] = turn([x, y, 0], degrees);
    return [u + dx, v + dy];
  });
};
const hollow: Prism = {
  ...upright(between([0, 0], [4000, 4000]), 0, 3000),
  voids: [between([500, 500], [3900, 3900])],
};
it.each<[string, Prism | undefined, number | null]>([
  ['of a square', upright(between([0, 0], [2500, 2500]), 0, 3000), 2500],
  ['of a room that is deeper than wide', upright(between([0, 0], [1800, 6000]), 0, 3000), 1800],
  ['of one that is turned', upright(turned(between([0, 0], [6000, 1800]), 33, [0, 0]), 0, 3000), 1800],
  ['far from the origin', upright(turned(between([0, 0], [6000, 1800]), 33, [4e8, 5e9]), 0, 3000), 1800],
  // The heights of 3, 4, 5 m are 4, 3 and 2.4 m.
  [
    'of a triangle',
    upright(
      [
        [0, 0],
        [3000, 0],
        [0, 4000],
      ],
      0,
      3000,
    ),
    2400,
  ],
  // Along its slant: the hull's side from (4000, 1000) to (1000, 4000) is 5000 / √2 from the corner.
  ['of an L', upright(ROUND_A_CORNER, 0, 3000), 3535.5],
  ['round a core', hollow, 4000],
  ['of none that is drawn', undefined, null],
])('how narrow: %s', (_, body, expected) => {
  const [face] = faces([STORE, null], { spaces: [aSpace({ bodies: body ? [body] : [] })] });
  expect(face.roomWidth).toBe(expected);
});

it('a compartment of which nothing shows where it is has no width', () => {
  const all = [compartment({ id: 'C', outlines: [] })];
  expect(faces([null, null], { all, beside: ['C', null] })[0].roomWidth).toBeNull();
});

const lean = (degrees: number): Vec3 => [Math.cos((degrees * Math.PI) / 180), 0, Math.sin((degrees * Math.PI) / 180)];
it.each<[string, Vec3, readonly [string, string]]>([
  ['a wall along y', [1, 0, 0], ['west', 'east']],
  ['an oblique wall', [Math.SQRT1_2, -Math.SQRT1_2, 0], ['north-west', 'south-east']],
  ['a floor seen from above', [0, 0, -1], ['above', 'below']],
  ['a floor seen from below', [0, 0, 1], ['below', 'above']],
  ['a wall that leans by less than half a right angle', lean(44), ['west', 'east']],
  ['a wall that leans by just so much', [Math.SQRT1_2, 0, Math.SQRT1_2], ['west', 'east']],
  ['a roof that is flatter', lean(46), ['below', 'above']],
])('which way: %s', (_, normal, expected) => {
  expect(faces([null, null], { at: { ...WALL, normal } }).map(({ towards }) => towards)).toEqual(expected);
});
